#include "plant_models/supplies/inverter/dc_side.hpp"

#include <algorithm>

#include "plant_models/numeric/relaxation.hpp"

namespace plant_models {

namespace {
constexpr double refill_sag = 0.05;
constexpr double mean_time_constant_s = 0.020;
/// 4 u (1 - u) of the battery's most, with the input at u = 60 % of the open-circuit voltage.
constexpr double usable_share_of_most = 0.96;

double loop_resistance_ohm(const InverterParameters& p) {
    return 1e-3 * (p.battery_resistance_mohm + p.battery_cable_mohm);
}
double efficiency(const InverterParameters& p) {
    return 1.0 - 1e-2 * p.boost_loss_percent;
}
}  // namespace

double DcSide::largest_refill_W(const InverterParameters& completed) {
    if (!completed.has_battery()) {
        return completed.refill_power_W;
    }
    const double most_W = completed.battery_voltage_V * completed.battery_voltage_V /
                          (4.0 * loop_resistance_ohm(completed));
    return std::min(
        completed.refill_power_W,
        efficiency(completed) * (usable_share_of_most * most_W - completed.idle_draw_W));
}

DcSide::DcSide(const InverterParameters& completed)
    : battery_(completed.has_battery()),
      bus_voltage_V_(completed.bus_voltage_V),
      slope_W_per_V_(completed.refill_power_W / (refill_sag * completed.bus_voltage_V)),
      largest_W_(largest_refill_W(completed)),
      // Reduced with the power; times exactly 1 without battery.
      sag_at_full_V_(refill_sag * completed.bus_voltage_V *
                     (largest_W_ / completed.refill_power_W)),
      idle_W_(completed.idle_draw_W),
      inverse_efficiency_(1.0 / efficiency(completed)),
      battery_V_(completed.battery_voltage_V),
      battery_resistance_ohm_(1e-3 * completed.battery_resistance_mohm),
      loop_resistance_ohm_(loop_resistance_ohm(completed)),
      minimum_V_(completed.battery_minimum_V),
      protection_A_(completed.battery_protection_A),
      protection_s_(completed.battery_protection_s),
      short_circuit_A_(completed.battery_short_circuit_A) {}

void DcSide::derivatives(const double* x, double* dxdt, double battery_current_A) const {
    if (!battery_) {
        dxdt[protection_timer] = 0.0;
        dxdt[current_mean] = 0.0;
        return;
    }
    const double ratio = battery_current_A / protection_A_;
    const double rate = (ratio * ratio - 1.0) * (1.0 / 3.0);
    dxdt[protection_timer] = select(rate > 0.0 || x[protection_timer] > 0.0, rate, 0.0);
    dxdt[current_mean] = (battery_current_A - x[current_mean]) / mean_time_constant_s;
}

void DcSide::rest(double* x, double idle_current_A, double duration_s) const {
    double rate[state_count] = {};
    derivatives(x, rate, idle_current_A);
    x[protection_timer] = std::max(x[protection_timer] + rate[protection_timer] * duration_s, 0.0);
    if (battery_) {
        x[current_mean] =
            relaxed(x[current_mean], idle_current_A, mean_time_constant_s, duration_s);
    }
}

double DcSide::protection_room(const double* x, double battery_current_A) const {
    return armed()
               ? std::min(protection_s_ - x[protection_timer], short_circuit_A_ - battery_current_A)
               : 1.0;
}

}  // namespace plant_models
