// A scenario for each way in which a run can end, and what the controller must have done there.
#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"

namespace {

using firmware::State;
using sim_test::bundled;
using sim_test::limiter_of;

/// The reference through the limiter with a rotor that nothing can break away.
sim::Scenario locked_rotor() {
    sim::Scenario scenario = bundled("reference_limited");
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 400.0;
    return scenario;
}

/// With rests of seconds, and a monitor that allows them.
sim::Scenario with_short_rests(sim::Scenario scenario, int rest_s, int tries) {
    limiter_of(scenario).settings.rest_before_retry_s = rest_s;
    limiter_of(scenario).settings.tries = tries;
    scenario.limits.minimum_rest_s = rest_s;
    return scenario;
}

int count(const sim::StartResult& result, State state) {
    int entries = 0;
    State last = State::resting;
    for (const sim::ControllerStep& step : result.controller_steps) {
        entries += step.state == state && last != state ? 1 : 0;
        last = step.state;
    }
    return entries;
}

/// Watches the outputs and the main current after the call has gone.
class AfterTheCall final : public sim::TickObserver {
  public:
    explicit AfterTheCall(double call_off_s) : call_off_s_(call_off_s) {}
    void observe(const sim::TickView& view) override {
        const double since_s = view.plant.time_s - call_off_s_;
        // The samples of the tick at which the call ends are answered one tick later.
        if (since_s > 2.5e-4) {
            const sim::PowerCommands& c = view.commands;
            commanded_ = commanded_ || c.line_coil || c.start_capacitor_coil || c.bypass_coil ||
                         c.gate_off > c.gate_on;
        }
        if (view.plant.main_conducting) {
            last_fed_s_ = view.plant.time_s;
        }
        was_fed_before_ = was_fed_before_ || (since_s < 0.0 && view.plant.main_conducting);
    }
    bool commanded() const { return commanded_; }
    bool was_fed_before() const { return was_fed_before_; }
    double fed_for_s() const { return last_fed_s_ - call_off_s_; }

  private:
    double call_off_s_;
    bool commanded_ = false;
    bool was_fed_before_ = false;
    double last_fed_s_ = 0.0;
};

TEST(Outcome, IsRunningForAStartThatSucceeds) {
    EXPECT_EQ(sim::run_start(bundled("reference_limited")).outcome, sim::Outcome::running);
    EXPECT_EQ(sim::run_start(bundled("reference_direct")).outcome, sim::Outcome::running);
}

TEST(Outcome, IsStalledForADirectStartOfALockedRotor) {
    sim::Scenario scenario = sim::without_limiter(locked_rotor());
    scenario.run.duration_s = 1.0;
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::stalled);
    EXPECT_EQ(result.cause, "rotor_never_turned");
    EXPECT_FALSE(result.as_expected);
    EXPECT_EQ(result.figures.final_speed_rpm, 0.0);
}

TEST(Outcome, IsStalledWhileALimitedStartIsStillUnderWay) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.run.duration_s = 0.3;
    EXPECT_EQ(sim::run_start(scenario).outcome, sim::Outcome::stalled);
}

TEST(Outcome, IsSupplyTrippedWithTheSuppliesOwnCause) {
    EXPECT_EQ(sim::run_start(bundled("hut_inverter_direct")).cause, "inverter_overload");
    sim::Scenario starved = bundled("hut_inverter_direct");
    auto& inverter = std::get<plant_models::InverterParameters>(starved.source);
    inverter.bus_capacitance_uF = 500.0;
    inverter.refill_power_W = 500.0;
    const sim::StartResult result = sim::run_start(starved);
    EXPECT_EQ(result.outcome, sim::Outcome::supply_tripped);
    EXPECT_EQ(result.cause, "dc_bus_low");
}

TEST(Outcome, IsNotStartedOnALineOutsideTheControllersLimits) {
    sim::Scenario scenario = bundled("reference_limited");
    std::get<plant_models::GridParameters>(scenario.source).voltage_V = 70.0;
    scenario.run.duration_s = 1.0;
    const sim::StartResult low = sim::run_start(scenario);
    EXPECT_EQ(low.outcome, sim::Outcome::not_started);
    EXPECT_EQ(low.cause, "line_voltage_low");
    EXPECT_TRUE(low.monitors.empty());
    EXPECT_EQ(low.figures.line_current_peak_A, 0.0);
    std::get<plant_models::GridParameters>(scenario.source).voltage_V = 290.0;
    const sim::StartResult high = sim::run_start(scenario);
    EXPECT_EQ(high.outcome, sim::Outcome::not_started);
    EXPECT_EQ(high.cause, "line_voltage_high");
    EXPECT_TRUE(high.monitors.empty());
}

TEST(Outcome, IsNotStartedBeforeTheCallComes) {
    // `stopped` means that a call has ended; here there was none yet.
    sim::Scenario scenario = bundled("reference_limited");
    scenario.run.call_on_s = 0.4;
    scenario.run.duration_s = 1.4;
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::running);
    ASSERT_FALSE(result.controller_steps.empty());
    for (const sim::ControllerStep& step : result.controller_steps) {
        if (step.state != State::resting) {
            EXPECT_GE(step.time_s, 0.4);
        }
    }
}

TEST(CallGone, AtAnyMomentOfTheStartSwitchesEverythingOffAtOnceAndEndsStopped) {
    for (double call_off_s = 0.03; call_off_s < 1.2; call_off_s += 0.0613) {
        sim::Scenario scenario = bundled("reference_limited");
        scenario.run.call_off_s = call_off_s;
        scenario.run.duration_s = call_off_s + 0.2;
        AfterTheCall after(call_off_s);
        const sim::StartResult result = sim::run_start(scenario, &after);
        SCOPED_TRACE(call_off_s);
        EXPECT_EQ(result.outcome, sim::Outcome::stopped);
        EXPECT_EQ(result.cause, "");
        EXPECT_TRUE(result.monitors.empty());
        EXPECT_FALSE(after.commanded());
        // What still flows is the contacts' travel and the arc's last half cycle.
        EXPECT_LT(after.fed_for_s(), 0.030);
    }
}

TEST(CallGone, MidClimbWasMidClimb) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.run.call_off_s = 0.45;
    scenario.run.duration_s = 0.6;
    AfterTheCall after(0.45);
    const sim::StartResult result = sim::run_start(scenario, &after);
    EXPECT_TRUE(after.was_fed_before());
    ASSERT_GE(result.controller_steps.size(), 2U);
    const sim::ControllerStep& before = result.controller_steps[result.controller_steps.size() - 2];
    EXPECT_EQ(before.state, State::climbing);
    EXPECT_EQ(result.controller_steps.back().state, State::resting);
    EXPECT_NEAR(result.controller_steps.back().time_s, 0.45, 3e-4);
}

TEST(CallGone, InADirectStartOpensTheContactorAndEndsStopped) {
    sim::Scenario scenario = bundled("reference_direct");
    scenario.run.call_off_s = 0.3;
    scenario.run.duration_s = 0.5;
    EXPECT_EQ(sim::run_start(scenario).outcome, sim::Outcome::stopped);
}

TEST(LockedRotor, ThroughTheLimiterIsLetGoAndRested) {
    const sim::StartResult result = sim::run_start(locked_rotor());
    EXPECT_EQ(result.outcome, sim::Outcome::resting);
    EXPECT_FALSE(result.cause.empty());
    EXPECT_TRUE(result.monitors.empty());
    EXPECT_EQ(count(result, State::climbing), 1);
    EXPECT_FALSE(result.figures.handover_s.has_value());
    EXPECT_EQ(result.figures.highest_speed_rpm, 0.0);
}

TEST(LockedRotor, IsTriedAgainAfterTheRestAndLockedOutAfterTheLastTry) {
    for (const int tries : {1, 2, 4}) {
        sim::Scenario scenario = with_short_rests(locked_rotor(), 2, tries);
        scenario.limits.standing_rotor_max_s = 3.0;
        scenario.run.duration_s = 5.0 * tries + 4.0;
        const sim::StartResult result = sim::run_start(scenario);
        SCOPED_TRACE(tries);
        EXPECT_EQ(result.outcome, sim::Outcome::locked_out);
        EXPECT_EQ(count(result, State::climbing), tries);
        EXPECT_EQ(count(result, State::locked_out), 1);
        EXPECT_TRUE(result.monitors.empty());
    }
}

TEST(LockedRotor, RestsFullyBetweenTwoTries) {
    sim::Scenario scenario = with_short_rests(locked_rotor(), 3, 3);
    scenario.run.duration_s = 12.0;
    const sim::StartResult result = sim::run_start(scenario);
    double let_go_s = -1.0;
    int rests = 0;
    for (const sim::ControllerStep& step : result.controller_steps) {
        if (step.state == State::backing_off && let_go_s < 0.0) {
            let_go_s = step.time_s;
        }
        if (step.state == State::probing && let_go_s >= 0.0) {
            EXPECT_GE(step.time_s - let_go_s, 3.0);
            EXPECT_LT(step.time_s - let_go_s, 3.5);
            let_go_s = -1.0;
            ++rests;
        }
    }
    EXPECT_EQ(rests, 2);
}

TEST(LockedRotor, WithARestShorterThanTheLimitsAllowBreaksThatMonitorByName) {
    sim::Scenario scenario = with_short_rests(locked_rotor(), 2, 3);
    scenario.limits.minimum_rest_s = 3.0;
    scenario.run.duration_s = 6.0;
    const sim::StartResult result = sim::run_start(scenario);
    ASSERT_EQ(result.monitors.size(), 1U);
    EXPECT_EQ(result.monitors.front().monitor, "retry_before_rest");
    EXPECT_FALSE(result.as_expected);
}

TEST(BrokenMonitor, MakesARunUnexpectedEvenIfItsOutcomeIsAsExpected) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.limits.start_capacitor_max_s = 0.1;
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::running);
    ASSERT_EQ(result.monitors.size(), 1U);
    EXPECT_EQ(result.monitors.front().monitor, "start_capacitor_in_too_long");
    EXPECT_FALSE(result.as_expected);
}

TEST(BrokenMonitor, IsNamedInADirectStartTooButBlamesNoController) {
    // Fed for five seconds without turning: the winding suffers, with or without a limiter.
    const sim::StartResult result = sim::run_start(bundled("hut_inverter_direct"));
    ASSERT_EQ(result.monitors.size(), 1U);
    EXPECT_EQ(result.monitors.front().monitor, "standing_rotor_fed_too_long");
    EXPECT_TRUE(result.as_expected);
}

TEST(StoryOfTheController, PassesThroughEveryStateOfAGoodStartInOrder) {
    const sim::StartResult result = sim::run_start(bundled("reference_limited"));
    std::vector<State> states;
    for (const sim::ControllerStep& step : result.controller_steps) {
        if (states.empty() || states.back() != step.state) {
            states.push_back(step.state);
        }
    }
    EXPECT_EQ(states, (std::vector<State>{State::resting, State::listening, State::probing,
                                          State::climbing, State::handing_over, State::running}));
    EXPECT_TRUE(std::is_sorted(
        result.controller_steps.begin(), result.controller_steps.end(),
        [](const auto& one, const auto& other) { return one.time_s < other.time_s; }));
}

}  // namespace
