// Made-up results for the writers.
#pragma once

#include "sim/bench/start_result.hpp"

namespace sim_test {

/// A limited start that succeeded; every number differs from every other.
inline sim::StartResult full_result() {
    sim::StartResult result;
    result.scenario = "cellar";
    result.title = "Cellar cold room";
    result.outcome = sim::Outcome::running;
    result.as_expected = true;
    result.has_limiter = true;
    result.synchronous_speed_rpm = 3600.0;
    result.supply_voltage_V = 230.0;
    sim::StartFigures& figures = result.figures;
    figures.time_to_speed_s = 0.8125;
    figures.handover_s = 0.9375;
    figures.final_speed_rpm = 3507.5;
    figures.highest_speed_rpm = 3512.0;
    figures.line_current_peak_A = 50.25;
    figures.line_current_peak_at_s = 0.125;
    figures.line_current_half_cycle_rms_max_A = 33.5;
    figures.line_current_one_cycle_rms_max_A = 32.75;
    figures.line_current_inrush_100ms_rms_A = 27.625;
    figures.line_voltage_half_cycle_rms_min_V = 226.5;
    figures.line_voltage_one_cycle_rms_min_V = 227.25;
    figures.start_capacitor_in_s = 0.6875;
    result.energy.source_J = 1000.0;
    result.energy.copper_J = 300.0;
    result.energy.wiring_J = 40.0;
    result.energy.switch_J = 25.0;
    result.energy.iron_J = 15.0;
    result.energy.friction_J = 12.0;
    result.energy.load_J = 350.0;
    result.energy.stored_J = 257.75;
    result.controller_steps = {{0.0, firmware::State::resting, firmware::Reason::none, 0},
                               {0.25, firmware::State::climbing, firmware::Reason::none, 1}};
    for (int k = 1; k <= 50; ++k) {
        result.course.push_back({0.02 * k, 70.0 * k, 25.0, 229.0});
    }
    return result;
}

/// A direct start of 5 ms: nothing that needs a half cycle was measured.
inline sim::StartResult empty_result() {
    sim::StartResult result;
    result.scenario = "cellar";
    result.title = "Cellar cold room";
    result.outcome = sim::Outcome::stalled;
    result.cause = "rotor_never_turned";
    result.synchronous_speed_rpm = 3600.0;
    result.supply_voltage_V = 230.0;
    result.course = full_result().course;
    return result;
}

}  // namespace sim_test
