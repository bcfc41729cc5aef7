#include "fixed_starts.hpp"

#include <variant>

#include "published_motors.hpp"

namespace published {

namespace {

constexpr sim::Instant millisecond{1'000'000};
constexpr sim::Instant tick{100'000};

/// A prime number of ticks apart, so that no phase of the line is preferred.
std::vector<sim::Instant> reads(sim::Instant apart, int count) {
    std::vector<sim::Instant> result;
    for (int k = 1; k <= count; ++k) {
        result.push_back(k * apart);
    }
    return result;
}

}  // namespace

StartScript reference_start(double initial_speed_rad_per_s) {
    StartScript script;
    script.plant.motor = reference_motor();
    script.plant.load = reference_load();
    script.plant.supply = reference_grid();
    script.plant.initial_speed_rad_per_s = initial_speed_rad_per_s;
    script.reads = reads(2 * 113 * tick, 20);
    return script;
}

plant_models::GridParameters fifty_hertz_grid() {
    plant_models::GridParameters grid = second_grid();
    grid.phase_deg = 0.0;
    return grid;
}

StartScript thyristor_fed_start() {
    StartScript script;
    script.plant.motor = second_motor();
    plant_models::PolynomialLoadParameters load = second_load();
    load.breakaway_torque_Nm = 8.0;
    load.constant_torque_Nm = 6.0;
    script.plant.load = load;
    script.plant.supply = fifty_hertz_grid();
    script.plant.connection = sim::Connection::through_limiter;
    script.plant.limiter.start_capacitor_uF = 100.0;
    script.plant.limiter.start_capacitor_esr_ohm = 0.15;
    script.plant.limiter.start_capacitor_bleed_ohm = 15000.0;
    script.plant.limiter.thyristor_threshold_V = 0.85;
    script.plant.limiter.thyristor_slope_ohm = 0.008;
    script.plant.limiter.thyristor_latching_mA = 80.0;
    for (int half_cycle = 0; half_cycle < 15; ++half_cycle) {
        const sim::Instant begin = half_cycle * 10 * millisecond;
        script.pulses.push_back({begin + 5 * millisecond, begin + 9 * millisecond + 6 * tick});
    }
    script.reads = reads(2 * 37 * tick, 20);
    return script;
}

StartScript inverter_start(const plant_models::InverterParameters& inverter) {
    StartScript script = reference_start(0.0);
    script.plant.supply = inverter;
    script.reads = reads(31 * tick, 20);
    return script;
}

plant_models::InverterParameters default_inverter(double peak_current_limit_A) {
    plant_models::InverterParameters inverter;
    for (const auto& row : plant_models::InverterParameters::table()) {
        const auto* member = std::get_if<double plant_models::InverterParameters::*>(&row.member);
        if (member != nullptr && row.default_value) {
            inverter.*(*member) = *row.default_value;
        }
    }
    inverter.voltage_V = 230.0;
    inverter.frequency_Hz = 60.0;
    inverter.peak_current_limit_A = peak_current_limit_A;
    return inverter;
}

}  // namespace published
