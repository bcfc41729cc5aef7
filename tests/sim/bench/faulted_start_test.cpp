// Whole starts in which something breaks.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "bench/cases.hpp"
#include "faults/make_fault.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/campaigns/single_faults.hpp"
#include "timeline/allocation_counter.hpp"
#include "timeline/output_digest.hpp"

namespace {

using sim::Fault;
using sim_test::fault;

sim::Scenario start_with(std::initializer_list<Fault> faults,
                         const std::string& name = "reference_limited") {
    sim::Scenario scenario = sim_test::bundled(name);
    scenario.faults.insert(scenario.faults.end(), faults);
    return scenario;
}

struct Seen {
    sim::StartResult result;
    std::uint64_t digest = 0;
};
Seen run(const sim::Scenario& scenario) {
    sim_test::DigestObserver observer;
    Seen seen;
    seen.result = sim::run_start(scenario, &observer);
    seen.digest = observer.value();
    return seen;
}

TEST(FaultedStart, EveryFaultChangesTheTraceAndClosesItsEnergy) {
    for (const char* name : {"reference_limited", "hut_inverter"}) {
        int count = 0;
        for (sim::SingleFault& single : sim::single_faults(sim_test::bundled(name))) {
            // While the main winding climbs.
            single.fault.timing.at_s = single.only_from_the_beginning ? 0.0 : 0.35;
            const Seen seen = run(start_with({single.fault}, name));
            // A drag of nothing at the same times: steps end there, and nothing else happens.
            Fault nothing = single.fault;
            nothing.what = sim::ExtraLoad{0.0};
            EXPECT_NE(seen.digest, run(start_with({nothing}, name)).digest)
                << name << " " << single.name;
            EXPECT_LT(seen.result.energy.closure(), 1e-3) << name << " " << single.name;
            ++count;
        }
        EXPECT_EQ(count, 37);
    }
}

TEST(FaultedStart, IsTheSameEveryTime) {
    const sim::Scenario scenario = start_with({fault(sim::SupplyChatter{90.0, 30.0}, 0.2, 0.5),
                                               fault(sim::ThyristorShorted{}, 0.3),
                                               fault(sim::ControllerUnpowered{}, 0.4, 0.05)});
    EXPECT_EQ(run(scenario).digest, run(scenario).digest);
}

TEST(FaultedStart, AFaultThatIsOverBeforeTheCallLeavesAllAsItWas) {
    // Nothing is on the line then, and the contacts have their travel to come back.
    sim::Scenario whole = sim_test::bundled("reference_limited");
    whole.run.call_on_s = 0.2;
    const sim::StartResult undisturbed = run(whole).result;
    for (const Fault& over :
         {fault(sim::BypassWelded{"at_once"}, 0.0, 0.1),
          fault(sim::StartContactStuckIn{}, 0.0, 0.1), fault(sim::ThyristorDead{}, 0.0, 0.1),
          fault(sim::RotorSeized{}, 0.0, 0.1), fault(sim::RunCapacitorOpen{}, 0.0, 0.1),
          fault(sim::RunCapacitorShorted{}, 0.0, 0.1), fault(sim::MotorDisconnected{}, 0.0, 0.1),
          fault(sim::CallRemoved{}, 0.0, 0.1), fault(sim::ExtraLoad{5.0}, 0.0, 0.1)}) {
        sim::Scenario scenario = whole;
        scenario.faults.push_back(over);
        const sim::StartResult result = run(scenario).result;
        EXPECT_EQ(result.outcome, undisturbed.outcome) << over.kind();
        EXPECT_NEAR(result.figures.time_to_speed_s.value_or(0.0),
                    undisturbed.figures.time_to_speed_s.value_or(0.0), 2e-3)
            << over.kind();
    }
}

TEST(FaultedStart, TwoFaultsTogetherEndAsNeitherAlone) {
    const Fault dragged = fault(sim::ExtraLoad{0.3});
    const Fault weak = fault(sim::SupplyVoltage{85.0});
    EXPECT_EQ(run(start_with({dragged}, "reference_direct")).result.outcome, sim::Outcome::running);
    EXPECT_EQ(run(start_with({weak}, "reference_direct")).result.outcome, sim::Outcome::running);
    const Seen both = run(start_with({dragged, weak}, "reference_direct"));
    EXPECT_NE(both.result.outcome, sim::Outcome::running);
    EXPECT_LT(both.result.energy.closure(), 1e-3);
}

TEST(FaultedStart, SwappedWindingsTurnTheRotorBackwards) {
    const Seen seen = run(start_with({fault(sim::WindingsSwapped{})}, "reference_direct"));
    EXPECT_LT(seen.result.figures.final_speed_rpm, 0.0);
    EXPECT_LE(seen.result.figures.highest_speed_rpm, 1.0);
    EXPECT_LT(seen.result.energy.closure(), 1e-3);
}

TEST(FaultedStart, SwappedWindingsWarmTheirOwnCopper) {
    // The heavier current is in the winding with less copper and more resistance.
    sim::Scenario scenario = start_with({fault(sim::WindingsSwapped{})}, "reference_direct");
    const auto plain = sim::describe_plant(sim_test::bundled("reference_direct"));
    scenario.unit.heat = plant_models::table_defaults<plant_models::HeatParameters>();
    const auto swapped = sim::describe_plant(scenario);
    const auto& heat = std::get<plant_models::HeatParameters>(swapped.unit.heat);
    const auto own =
        plant_models::table_defaults<plant_models::HeatParameters>().completed(plain.motor);
    EXPECT_EQ(heat.main_winding_mass_kg, own.aux_winding_mass_kg);
    EXPECT_EQ(heat.aux_winding_mass_kg, own.main_winding_mass_kg);
    EXPECT_EQ(heat.rotor_mass_kg, own.rotor_mass_kg);
}

/// The truth and the commands at one instant.
class At final : public sim::TickObserver {
  public:
    explicit At(double time_s) : time_s_(time_s) {}
    void observe(const sim::TickView& view) override {
        if (view.plant.time_s > time_s_ - 5e-5 && view.plant.time_s < time_s_ + 5e-5) {
            plant = view.plant;
            commands = view.commands;
            call = view.call_for_cooling;
            state = view.controller != nullptr ? view.controller->state : firmware::State::resting;
            seen = true;
        }
    }
    plant_models::PlantOutputs plant;
    sim::PowerCommands commands;
    firmware::State state = firmware::State::resting;
    bool call = false;
    bool seen = false;

  private:
    double time_s_;
};
At at(double time_s, const sim::Scenario& scenario) {
    At observer(time_s);
    sim::run_start(scenario, &observer);
    EXPECT_TRUE(observer.seen);
    return observer;
}

TEST(FaultedStart, AControllerWithoutPowerDrivesNothingAndBeginsAnew) {
    const sim::Scenario scenario = start_with({fault(sim::ControllerUnpowered{}, 0.5, 0.1)});
    EXPECT_EQ(at(0.5, scenario).state, firmware::State::climbing);
    const At off = at(0.5001, scenario);
    EXPECT_FALSE(off.commands.line_coil || off.commands.start_capacitor_coil ||
                 off.commands.bypass_coil);
    EXPECT_EQ(off.commands.gate_off, off.commands.gate_on);
    EXPECT_TRUE(off.call);
    EXPECT_EQ(off.state, firmware::State::resting);
    EXPECT_EQ(at(0.6, scenario).state, firmware::State::resting);
    // What it then makes of a call that stands is its own matter; it has power and does not rest.
    EXPECT_NE(at(0.61, scenario).state, firmware::State::resting);
}

TEST(FaultedStart, OfAControllerThatStaysWithoutPowerTheCauseIsThatAndNoReasonOfItsOwn) {
    const sim::StartResult result =
        run(start_with({fault(sim::ControllerUnpowered{}, 0.5)})).result;
    EXPECT_EQ(result.outcome, sim::Outcome::not_started);
    EXPECT_EQ(result.cause, "controller_unpowered");
}

TEST(FaultedStart, ARemovedCallIsOneForEverybody) {
    const sim::Scenario scenario = start_with({fault(sim::CallRemoved{}, 0.5, 0.1)});
    EXPECT_TRUE(at(0.4999, scenario).call);
    EXPECT_FALSE(at(0.5, scenario).call);
    EXPECT_FALSE(at(0.5999, scenario).call);
    EXPECT_TRUE(at(0.6, scenario).call);
}

TEST(FaultedStart, ContactsThatAreStuckHeedNoCommand) {
    const At out = at(0.5, start_with({fault(sim::StartContactStuckOut{})}));
    EXPECT_TRUE(out.commands.start_capacitor_coil);
    EXPECT_FALSE(out.plant.start_capacitor_in);
    EXPECT_TRUE(at(0.01, start_with({fault(sim::StartContactStuckIn{})})).plant.start_capacitor_in);
    EXPECT_TRUE(at(0.01, start_with({fault(sim::BypassWelded{"at_once"})})).plant.bypass_closed);
    const At open = at(1.2, start_with({fault(sim::BypassStuckOpen{})}));
    EXPECT_FALSE(open.plant.bypass_closed);
}

TEST(FaultedStart, ABypassWeldedInKeepsTheMotorOnAfterTheCallUntilTheContactorDrops) {
    sim::Scenario scenario = start_with({fault(sim::BypassWelded{})});
    scenario.run.call_off_s = 2.0;
    const At after = at(2.5, scenario);
    EXPECT_TRUE(after.plant.bypass_closed);
    EXPECT_FALSE(after.plant.line_connected);
    EXPECT_EQ(after.plant.line_current_A, 0.0);
}

TEST(FaultedStart, AFaultThatWaitsForAStateComesWithIt) {
    Fault gone = fault(sim::MotorDisconnected{});
    gone.timing.when = "running";
    gone.timing.after_s = 0.2;
    const sim::Scenario scenario = start_with({gone});
    double running_s = 0.0;
    for (const sim::ControllerStep& step : sim::run_start(scenario).controller_steps) {
        running_s = step.state == firmware::State::running ? step.time_s : running_s;
    }
    ASSERT_GT(running_s, 0.0);
    EXPECT_GT(std::abs(at(running_s + 0.195, scenario).plant.main_current_A) +
                  std::abs(at(running_s + 0.191, scenario).plant.main_current_A),
              0.5);
    EXPECT_EQ(at(running_s + 0.205, scenario).plant.main_current_A, 0.0);
}

TEST(FaultedStart, TakingTheLimiterOutTakesItsFaultsOutToo) {
    Fault waiting = fault(sim::CallRemoved{});
    waiting.timing.when = "running";
    const sim::Scenario direct = sim::without_limiter(
        start_with({fault(sim::BypassWelded{}), fault(sim::RotorSeized{}), waiting}));
    ASSERT_EQ(direct.faults.size(), 1U);
    EXPECT_EQ(direct.faults.front().kind(), "rotor_seized");
}

/// Of whole ticks, but for those at which a controller loses or gets its power.
class AllocationsBetweenTicks final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& /*view*/) override {
        const long now = sim_test::allocations();
        all_ += last_ >= 0 ? now - last_ : 0;
        last_ = now;
    }
    long all() const { return all_; }

  private:
    long last_ = -1;
    long all_ = 0;
};

TEST(FaultedStart, AllocatesNothingWhenSomethingBreaks) {
    AllocationsBetweenTicks counter;
    sim::run_start(start_with({fault(sim::SupplyChatter{50.0, 20.0}, 0.2, 0.3),
                               fault(sim::RunCapacitorShorted{}, 0.3, 0.2),
                               fault(sim::ThyristorShorted{}, 0.4),
                               fault(sim::MotorDisconnected{}, 0.7, 0.1)}),
                   &counter);
    EXPECT_EQ(counter.all(), 0);
}

}  // namespace
