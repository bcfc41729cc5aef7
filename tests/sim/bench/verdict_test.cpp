// From the last instant to one word.
#include "sim/bench/verdict.hpp"

#include <gtest/gtest.h>

#include "bench/ending.hpp"

namespace {

using sim_test::Ending;
using sim_test::expect;

Ending direct(double speed, bool connected = true) {
    Ending ending;
    ending.has_limiter = false;
    ending.plant.speed_rad_per_s = speed;
    ending.plant.line_connected = connected;
    return ending;
}

Ending limited(firmware::State state, double speed = 0.0) {
    Ending ending;
    ending.controller.state = state;
    ending.controller.reason = firmware::Reason::stages_used_up;
    ending.plant.speed_rad_per_s = speed;
    ending.plant.line_connected = true;
    return ending;
}

TEST(Verdict, OfADirectStartFollowsSpeedAndContactor) {
    expect(direct(90.0).verdict(), sim::Outcome::running, "");
    expect(direct(89.999).verdict(), sim::Outcome::stalled, "rotor_stayed_slow");
    Ending never_turned = direct(0.0);
    never_turned.highest_speed_rpm = 1.0;
    expect(never_turned.verdict(), sim::Outcome::stalled, "rotor_never_turned");
    Ending stopped = direct(95.0, false);
    stopped.call = false;
    expect(stopped.verdict(), sim::Outcome::stopped, "");
    expect(direct(95.0, false).verdict(), sim::Outcome::not_started, "contactor_open");
}

TEST(Verdict, OfALimitedStartFollowsTheController) {
    expect(limited(firmware::State::running, 95.0).verdict(), sim::Outcome::running, "");
    expect(limited(firmware::State::running, 80.0).verdict(), sim::Outcome::stalled,
           "rotor_stayed_slow");
    expect(limited(firmware::State::climbing, 10.0).verdict(), sim::Outcome::stalled,
           "rotor_stayed_slow");
    expect(limited(firmware::State::backing_off).verdict(), sim::Outcome::resting,
           "stages_used_up");
    expect(limited(firmware::State::locked_out).verdict(), sim::Outcome::locked_out,
           "stages_used_up");
    expect(limited(firmware::State::listening).verdict(), sim::Outcome::not_started,
           "stages_used_up");
    Ending resting = limited(firmware::State::resting);
    resting.call = false;
    expect(resting.verdict(), sim::Outcome::stopped, "");
    resting.call = true;
    expect(resting.verdict(), sim::Outcome::not_started, "stages_used_up");
}

/// Somebody else's controller gives no reason; its frames have to do.
TEST(Verdict, OfAControllerThatTellsNoStatesFollowsItsOutputs) {
    const auto seen = [](sim::SeenDoing doing, double speed = 0.0, bool call = true) {
        plant_models::PlantOutputs plant;
        plant.speed_rad_per_s = speed;
        plant.line_connected = doing != sim::SeenDoing::off && doing != sim::SeenDoing::let_go;
        firmware::Telemetry nearest;
        nearest.state = sim::nearest_state(doing);
        sim::LastInstant last{plant, call, sim_test::hand_made_synchronous_rad_per_s, 900.0,
                              &nearest};
        last.seen = doing;
        return sim::judge(last);
    };
    expect(seen(sim::SeenDoing::bypassed, 95.0), sim::Outcome::running, "");
    expect(seen(sim::SeenDoing::feeding, 95.0), sim::Outcome::running, "");
    expect(seen(sim::SeenDoing::feeding_with_start_capacitor, 50.0), sim::Outcome::stalled,
           "rotor_stayed_slow");
    expect(seen(sim::SeenDoing::let_go), sim::Outcome::resting, "let_go");
    expect(seen(sim::SeenDoing::off), sim::Outcome::not_started, "contactor_not_permitted");
    expect(seen(sim::SeenDoing::off, 0.0, false), sim::Outcome::stopped, "");
}

TEST(Verdict, OfATrippedSupplyComesBeforeEverythingElse) {
    for (Ending ending : {direct(95.0), limited(firmware::State::running, 95.0),
                          limited(firmware::State::backing_off)}) {
        ending.plant.supply_trip = "dc_bus_low";
        expect(ending.verdict(), sim::Outcome::supply_tripped, "dc_bus_low");
    }
}

}  // namespace
