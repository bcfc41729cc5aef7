// The outcomes in which the unit itself, or the direction of rotation, has the last word:
// `protector_open`, `running_backwards`, and what a contactor that let go has to do with a stall.
// First from a last instant made by hand, then from whole runs that end so.
#include <gtest/gtest.h>

#include <set>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "bench/ending.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/bench/verdict.hpp"

namespace {

using firmware::State;
using sim_test::bundled;

using sim_test::Ending;
using sim_test::expect;

Ending on_the_line(double speed) {
    Ending ending;
    ending.has_limiter = false;
    ending.plant.speed_rad_per_s = speed;
    ending.plant.line_connected = true;
    ending.plant.main_conducting = true;
    return ending;
}

Ending off_the_line(double speed = 0.0) {
    Ending ending = on_the_line(speed);
    ending.plant.line_connected = false;
    ending.plant.main_conducting = false;
    return ending;
}

Ending limited(Ending ending, State state) {
    ending.has_limiter = true;
    ending.controller.state = state;
    ending.controller.reason = firmware::Reason::current_lost;
    return ending;
}

const std::vector<State>& all_states() {
    static const std::vector<State> states = {
        State::resting,      State::listening, State::probing,     State::climbing,
        State::handing_over, State::running,   State::backing_off, State::locked_out};
    return states;
}

TEST(ProtectorOpen, IsTheVerdictWhateverTheControllerMakesOfIt) {
    for (const std::string_view cause :
         {"protector_opened", "module_saw_no_start", "module_saw_locked_rotor"}) {
        for (Ending ending : {off_the_line(), on_the_line(0.0), on_the_line(99.0)}) {
            ending.plant.unit_trip = cause;
            expect(ending.verdict(), sim::Outcome::protector_open, std::string(cause));
            for (const State state : all_states()) {
                expect(limited(ending, state).verdict(), sim::Outcome::protector_open,
                       std::string(cause));
            }
        }
    }
}

TEST(ProtectorOpen, IsOverOnceNothingHoldsTheUnitOff) {
    Ending ending = on_the_line(95.0);
    ending.plant.unit_trip = "";
    expect(ending.verdict(), sim::Outcome::running, "");
}

TEST(ProtectorOpen, GivesWayToASupplyThatHasTripped) {
    Ending ending = off_the_line();
    ending.plant.unit_trip = "protector_opened";
    ending.plant.supply_trip = "generator_stalled";
    expect(ending.verdict(), sim::Outcome::supply_tripped, "generator_stalled");
}

TEST(RunningBackwards, BeginsBeyondAFifthOfSynchronousSpeed) {
    expect(on_the_line(-20.001).verdict(), sim::Outcome::running_backwards,
           "rotor_turns_backwards");
    expect(on_the_line(-19.999).verdict(), sim::Outcome::stalled, "rotor_stayed_slow");
    expect(on_the_line(-99.0).verdict(), sim::Outcome::running_backwards, "rotor_turns_backwards");
    expect(on_the_line(99.0).verdict(), sim::Outcome::running, "");
}

TEST(RunningBackwards, IsNotSaidOfARotorThatRocksAgainstTheGas) {
    Ending rocking = on_the_line(-90.0);
    rocking.backwards_s = 0.249;
    EXPECT_EQ(rocking.verdict().outcome, sim::Outcome::stalled);
    rocking.backwards_s = 0.25;
    EXPECT_EQ(rocking.verdict().outcome, sim::Outcome::running_backwards);
}

TEST(RunningBackwards, IsOnlySaidOfAMotorThatIsFed) {
    // A rotor that coasts backwards after the call has gone is stopped, as asked.
    Ending coasting = off_the_line(-80.0);
    expect(coasting.verdict(), sim::Outcome::not_started, "contactor_open");
    coasting.call = false;
    expect(coasting.verdict(), sim::Outcome::stopped, "");
    for (const State state :
         {State::probing, State::climbing, State::handing_over, State::running}) {
        expect(limited(on_the_line(-80.0), state).verdict(), sim::Outcome::running_backwards,
               "rotor_turns_backwards");
    }
    // Between two pulses the thyristors block; the contactor still feeds the motor.
    Ending between_pulses = on_the_line(-80.0);
    between_pulses.plant.main_conducting = false;
    expect(limited(between_pulses, State::climbing).verdict(), sim::Outcome::running_backwards,
           "rotor_turns_backwards");
    // Where the controller has let go, its own reason tells more.
    expect(limited(off_the_line(-80.0), State::backing_off).verdict(), sim::Outcome::resting,
           "current_lost");
    expect(limited(off_the_line(-80.0), State::locked_out).verdict(), sim::Outcome::locked_out,
           "current_lost");
}

TEST(ContactorThatLetGo, IsTheCauseOfAStallAndOfNothingElse) {
    Ending again_and_again = on_the_line(10.0);
    again_and_again.plant.contactor_drop_outs = 3;
    expect(again_and_again.verdict(), sim::Outcome::stalled, "contactor_dropped_out");
    // Caught just while it is open.
    Ending open = off_the_line(10.0);
    open.plant.contactor_drop_outs = 1;
    expect(open.verdict(), sim::Outcome::stalled, "contactor_dropped_out");
    // It came up all the same.
    Ending up = on_the_line(95.0);
    up.plant.contactor_drop_outs = 1;
    expect(up.verdict(), sim::Outcome::running, "");
    // The call has gone: the contactor is open because it was told to be.
    open.call = false;
    expect(open.verdict(), sim::Outcome::stopped, "");
    expect(limited(again_and_again, State::climbing).verdict(), sim::Outcome::stalled,
           "contactor_dropped_out");
}

// Whole runs.

sim::Scenario held_rotor() {
    sim::Scenario scenario = bundled("reference_direct");
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 400.0;
    scenario.run.duration_s = 1.0;
    return scenario;
}

plant_models::LineBreakParameters protector(double ultimate_A, double trip_A, double trip_s) {
    plant_models::LineBreakParameters protector;
    protector.ultimate_trip_A = ultimate_A;
    protector.trip_current_A = trip_A;
    protector.trip_time_s = trip_s;
    protector.reference_C = 25.0;
    protector.opens_C = 107.0;
    protector.closes_C = 71.0;
    return protector;
}

plant_models::ProtectionModuleParameters start_watch(double expected_A) {
    plant_models::ProtectionModuleParameters module;
    module.expected_start_current_A = expected_A;
    module.running_current_A = 20.0;
    module.inrush_window_s = 0.3;
    module.start_time_s = 0.3;
    module.lockout_s = 300.0;
    module.tries = 4;
    module.current_lag_ms = 20.0;
    return module;
}

void expect_end(const sim::StartResult& result, sim::Outcome outcome, const std::string& cause) {
    EXPECT_EQ(sim::word_of(result.outcome), sim::word_of(outcome)) << result.scenario;
    EXPECT_EQ(result.cause, cause) << result.scenario;
    EXPECT_LT(result.energy.closure(), 1e-3) << result.scenario;
}

TEST(ProtectorOpen, EndsADirectStartWhoseRotorIsHeld) {
    sim::Scenario scenario = held_rotor();
    // 80 A with its rotor locked, so the protector's own law says 0.5 s.
    scenario.unit.protector = protector(12.0, 80.0, 0.5);
    expect_end(sim::run_start(scenario), sim::Outcome::protector_open, "protector_opened");
    // Just before, it is a rotor that never turned.
    scenario.run.duration_s = 0.4;
    expect_end(sim::run_start(scenario), sim::Outcome::stalled, "rotor_never_turned");
}

TEST(ProtectorOpen, EndsALimitedStartToo) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.unit.protector = protector(5.0, 20.0, 0.3);
    scenario.run.duration_s = 1.5;
    const sim::StartResult result = sim::run_start(scenario);
    expect_end(result, sim::Outcome::protector_open, "protector_opened");
    // The controller has noticed by itself that its current is gone.
    ASSERT_FALSE(result.controller_steps.empty());
    EXPECT_FALSE(firmware::feeds_motor(result.controller_steps.back().state));
    EXPECT_FALSE(result.as_expected);
    scenario.expect.outcome = sim::Outcome::protector_open;
    EXPECT_EQ(sim::run_start(scenario).as_expected, result.monitors.empty());
}

TEST(ProtectorOpen, NamesTheModulesOwnVerdict) {
    sim::Scenario scenario = held_rotor();
    scenario.unit.protection_module = start_watch(40.0);
    expect_end(sim::run_start(scenario), sim::Outcome::protector_open, "module_saw_locked_rotor");
    // More than this motor ever draws.
    scenario.unit.protection_module = start_watch(400.0);
    expect_end(sim::run_start(scenario), sim::Outcome::protector_open, "module_saw_no_start");
    // A healthy start takes half a second; 0.3 s are too short for it, one is not.
    sim::Scenario healthy = bundled("reference_direct");
    auto patient = start_watch(40.0);
    patient.start_time_s = 1.0;
    healthy.unit.protection_module = patient;
    expect_end(sim::run_start(healthy), sim::Outcome::running, "");
    healthy.unit.protection_module = start_watch(40.0);
    expect_end(sim::run_start(healthy), sim::Outcome::protector_open, "module_saw_locked_rotor");
}

TEST(RunningBackwards, EndsADirectStartOfARotorThatWasDrivenBackwards) {
    sim::Scenario scenario = bundled("reference_direct");
    scenario.run.duration_s = 1.0;
    scenario.run.initial_speed_rpm = -2500.0;
    const sim::StartResult result = sim::run_start(scenario);
    expect_end(result, sim::Outcome::running_backwards, "rotor_turns_backwards");
    // It does not only coast: the backward field of a single-phase motor holds it near synchronism.
    EXPECT_LT(result.figures.final_speed_rpm, -3400.0);
    // From far enough below, the run capacitor's torque turns it round.
    scenario.run.initial_speed_rpm = -500.0;
    expect_end(sim::run_start(scenario), sim::Outcome::running, "");
}

TEST(ContactorThatLetGo, IsNamedByAStartOnALineTooWeakForItsCoil) {
    sim::Scenario scenario = bundled("reference_direct");
    auto& grid = std::get<plant_models::GridParameters>(scenario.source);
    grid.resistance_ohm = 4.0;  // 80 A leave the coil far less than its drop-out voltage
    plant_models::ContactorParameters contactor;
    contactor.pick_up_percent = 85.0;
    contactor.drop_out_percent = 60.0;
    contactor.coil_lag_ms = 20.0;
    contactor.contact_close_ms = 15.0;
    contactor.contact_open_ms = 10.0;
    contactor.contact_bounce_ms = 2.0;
    scenario.unit.contactor = contactor;
    scenario.run.duration_s = 1.0;
    expect_end(sim::run_start(scenario), sim::Outcome::stalled, "contactor_dropped_out");
}

TEST(EveryOutcome, IsTheEndOfSomeRun) {
    // Of the bundled scenarios and the few above; nothing in the documented list is unreachable.
    std::set<std::string_view> seen;
    const auto add = [&seen](const sim::Scenario& scenario) {
        seen.insert(sim::word_of(sim::run_start(scenario).outcome));
    };
    add(bundled("reference_limited"));
    add(bundled("hut_inverter_direct"));
    sim::Scenario scenario = held_rotor();
    scenario.run.duration_s = 0.2;
    add(scenario);
    scenario.run.call_off_s = 0.1;
    add(scenario);
    scenario = held_rotor();
    scenario.unit.protector = protector(12.0, 80.0, 0.5);
    add(scenario);
    scenario = bundled("reference_direct");
    scenario.run.initial_speed_rpm = -2500.0;
    scenario.run.duration_s = 0.3;
    add(scenario);
    scenario = bundled("reference_limited");
    std::get<plant_models::GridParameters>(scenario.source).voltage_V = 70.0;
    scenario.run.duration_s = 0.5;
    add(scenario);
    scenario = bundled("reference_limited");
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 400.0;
    add(scenario);
    sim_test::limiter_of(scenario).settings.tries = 1;
    add(scenario);
    for (const sim::OutcomeWord& row : sim::outcome_words()) {
        // Takes a controller from outside.
        if (row.outcome != sim::Outcome::controller_failed) {
            EXPECT_EQ(seen.count(row.word), 1U) << row.word;
        }
    }
}

}  // namespace
