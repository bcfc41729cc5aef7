#include "sim/sizing/stiff_line.hpp"

#include "plant_models/numeric/units.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/sizing/sizing_run.hpp"

namespace sim {

namespace {

/// At rated voltage; a tenth of the impedance of a house's service (engineering judgement).
plant_models::GridParameters stiff_grid(const plant_models::MotorParameters& motor) {
    auto grid = plant_models::table_defaults<plant_models::GridParameters>();
    grid.voltage_V = motor.rated_voltage_V;
    grid.frequency_Hz = motor.rated_frequency_Hz;
    grid.resistance_ohm = 0.01;
    grid.inductance_mH = 0.02;
    return grid;
}

bool has_pressures(const Scenario& unit) {
    return !std::holds_alternative<plant_models::PolynomialLoadParameters>(unit.load);
}

}  // namespace

StiffLine on_stiff_line(const Scenario& unit) {
    Scenario stiff = unit;
    stiff.source = stiff_grid(unit.motor);
    stiff.wiring = plant_models::table_defaults<plant_models::WiringParameters>();
    StiffLine line;
    const std::optional<Scenario> direct = brought_up(stiff, Way::directly);
    Scenario running = direct ? *direct : *brought_up(stiff, Way::limiter);
    line.direct_start = decided_start_of(running);
    running.conditions.ambient_C = unit.refrigerant.rated_ambient_C + hot_day_K;
    running.run.duration_s = has_pressures(unit) ? run_until_s : 3.0;
    // Whether it starts under the pressures of a hot day is not what is asked here.
    running.run.initial_speed_rpm =
        0.95 * plant_models::rad_per_s_to_rpm(
                   unit.motor.synchronous_speed_rad_per_s(unit.motor.rated_frequency_Hz));
    running.run.call_on_s = 0.0;
    running.run.call_off_s = 0.0;
    const StartResult result = run_start(running, nullptr);
    if (result.outcome == Outcome::running && !result.course.empty()) {
        line.running_current_A = result.course.back().line_current_rms_A;
    }
    return line;
}

}  // namespace sim
