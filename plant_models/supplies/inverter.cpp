#include "plant_models/supplies/inverter.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/select.hpp"

namespace plant_models {

namespace {
/// Usual size of the bus capacitors of a transformerless inverter; engineering judgement.
constexpr double bus_energy_J_per_VA = 0.040;
}  // namespace

InverterParameters InverterParameters::completed() const {
    InverterParameters full = *this;
    if (full.bus_voltage_V == 0.0) {
        full.bus_voltage_V = 1.75 * voltage_V;
    }
    if (full.bus_minimum_V == 0.0) {
        full.bus_minimum_V = 1.30 * voltage_V;
    }
    if (full.rated_current_A == 0.0) {
        full.rated_current_A = peak_current_limit_A / (1.5 * std::sqrt(2.0));
    }
    if (full.refill_power_W == 0.0) {
        full.refill_power_W = voltage_V * full.rated_current_A;
    }
    if (full.bus_capacitance_uF == 0.0) {
        const double stored_J = bus_energy_J_per_VA * voltage_V * full.rated_current_A;
        full.bus_capacitance_uF = 1e6 * 2.0 * stored_J / (full.bus_voltage_V * full.bus_voltage_V);
    }
    return full;
}

const ParameterTable<InverterParameters>& InverterParameters::table() {
    using I = InverterParameters;
    static const ParameterTable<I> rows = {
        {"voltage_V", &I::voltage_V, 50, 300, {}, "output voltage, RMS"},
        {"frequency_Hz", &I::frequency_Hz, 45, 65, {}, "frequency"},
        {"peak_current_limit_A",
         &I::peak_current_limit_A,
         1,
         2000,
         {},
         "instantaneous limit of the bridge current"},
        {"phase_deg", &I::phase_deg, -360, 360, 0.0,
         "phase of the voltage's sine when the run begins; 0 is its rising zero"},
        {"filter_inductance_mH", &I::filter_inductance_mH, 0.1, 10, 1.0, "output filter"},
        {"filter_resistance_ohm", &I::filter_resistance_ohm, 0, 5, 0.05, "output filter"},
        {"filter_capacitance_uF", &I::filter_capacitance_uF, 1, 100, 10.0, "output filter"},
        {"current_loop_bandwidth_Hz", &I::current_loop_bandwidth_Hz, 100, 5000, 2000.0,
         "inner loop"},
        {"voltage_loop_bandwidth_Hz", &I::voltage_loop_bandwidth_Hz, 20, 1000, 400.0, "outer loop"},
        {"bus_voltage_V", &I::bus_voltage_V, 0, 900, 0.0, "DC bus; 0: 1.75 x voltage_V"},
        {"bus_minimum_V", &I::bus_minimum_V, 0, 900, 0.0,
         "DC bus undervoltage trip; 0: 1.30 x voltage_V"},
        {"bus_capacitance_uF", &I::bus_capacitance_uF, 0, 1e6, 0.0,
         "DC bus storage; 0: 40 J per kVA of voltage_V x rated_current_A"},
        {"refill_power_W", &I::refill_power_W, 0, 1e5, 0.0,
         "most that the DC side can bring; 0: voltage_V x rated_current_A"},
        {"rated_current_A", &I::rated_current_A, 0, 1000, 0.0,
         "RMS current it may carry for ever; 0: peak_current_limit_A / (1.5 sqrt 2)"},
        {"overload_time_s", &I::overload_time_s, 0.05, 600, 5.0,
         "time above the rated current until it trips"},
    };
    return rows;
}

std::string_view InverterParameters::inconsistency() const {
    const InverterParameters full = completed();
    if (full.bus_voltage_V <= full.bus_minimum_V) {
        return "bus_minimum_V must be below bus_voltage_V";
    }
    if (full.bus_voltage_V < std::sqrt(2.0) * voltage_V) {
        return "bus_voltage_V must be at least the crest of voltage_V (1.414 x voltage_V)";
    }
    return {};
}

namespace {
constexpr double mean_time_constant_s = 0.020;
constexpr double refill_sag = 0.05;
/// The resonator corrects slowly beside the voltage loop, so that it adds little phase lag.
constexpr double resonant_share_of_bandwidth = 0.15;
}  // namespace

Inverter::Inverter(const InverterParameters& inverter)
    : parameters_(inverter.completed()),
      reference_(std::sqrt(2.0) * inverter.voltage_V, inverter.frequency_Hz, inverter.phase_deg),
      inductance_H_(1e-3 * inverter.filter_inductance_mH),
      capacitance_F_(1e-6 * inverter.filter_capacitance_uF),
      bus_capacitance_F_(1e-6 * parameters_.bus_capacitance_uF),
      voltage_gain_A_per_V_(2.0 * pi * inverter.voltage_loop_bandwidth_Hz * capacitance_F_),
      resonant_rate_per_s_(2.0 * pi * inverter.voltage_loop_bandwidth_Hz *
                           resonant_share_of_bandwidth),
      current_gain_V_per_A_(2.0 * pi * inverter.current_loop_bandwidth_Hz * inductance_H_),
      refill_slope_W_per_V_(parameters_.refill_power_W / (refill_sag * parameters_.bus_voltage_V)) {
    // A quarter of a radian of the fastest mode: short enough to see each brief touch of a limit.
    const double resonance = 1.0 / std::sqrt(inductance_H_ * capacitance_F_);
    const double current_loop = current_gain_V_per_A_ / inductance_H_;
    largest_step_s_ = std::min(100e-6, 0.25 / std::max(resonance, current_loop));
}

std::array<double, Inverter::state_count> Inverter::initial_state() const {
    // Running unloaded: the filter capacitor's own current flows.
    std::array<double, state_count> x{};
    x[output_voltage] = reference_.value(0.0);
    x[inductor_current] = capacitance_F_ * reference_.rate(0.0);
    x[bus_voltage] = parameters_.bus_voltage_V;
    return x;
}

double Inverter::wanted_current_A(const double* x, double time_s,
                                  const SupplyLoading& loading) const {
    return bridge_enabled_ *
           (loading.line_current_A() + capacitance_F_ * reference_.rate(time_s) +
            voltage_gain_A_per_V_ * (reference_.value(time_s) - x[output_voltage]) + x[resonator]);
}

double Inverter::limited(double current_A) const {
    return clamp(current_A, -parameters_.peak_current_limit_A, parameters_.peak_current_limit_A);
}

double Inverter::wanted_bridge_voltage_V(const double* x, double limited_current_A) const {
    return x[output_voltage] + parameters_.filter_resistance_ohm * x[inductor_current] +
           current_gain_V_per_A_ * (limited_current_A - x[inductor_current]);
}

SupplyPower Inverter::derivatives(const double* x, double* dxdt, double time_s,
                                  const SupplyLoading& loading) const {
    const double wanted = wanted_current_A(x, time_s, loading);
    const double allowed = limited(wanted);
    const double bridge =
        clamp(wanted_bridge_voltage_V(x, allowed), -x[bus_voltage], x[bus_voltage]);
    const double refill =
        clamp(refill_slope_W_per_V_ * (parameters_.bus_voltage_V - x[bus_voltage]), 0.0,
              parameters_.refill_power_W);
    const double current = x[inductor_current];
    const double line_current = loading.line_current_A();
    const double resistive = parameters_.filter_resistance_ohm * current;

    dxdt[inductor_current] = (bridge - resistive - x[output_voltage]) / inductance_H_;
    dxdt[output_voltage] = (current - line_current) / capacitance_F_;
    const double omega = 2.0 * pi * reference_.frequency_Hz();
    dxdt[resonator] = bridge_enabled_ * resonant_rate_per_s_ *
                          (voltage_gain_A_per_V_ * (reference_.value(time_s) - x[output_voltage]) +
                           (allowed - wanted)) -
                      omega * x[resonator_quadrature];
    dxdt[resonator_quadrature] = omega * x[resonator];
    dxdt[bus_voltage] = (refill - bridge * current) / (bus_capacitance_F_ * x[bus_voltage]);
    dxdt[mean_square] = (line_current * line_current - x[mean_square]) / mean_time_constant_s;
    const double rated_square = parameters_.rated_current_A * parameters_.rated_current_A;
    dxdt[timer] = select(x[mean_square] > rated_square, 1.0, select(x[timer] > 0.0, -1.0, 0.0));
    return {refill, resistive * current};
}

double Inverter::stored_energy_J(const double* x) const {
    return 0.5 * (inductance_H_ * x[inductor_current] * x[inductor_current] +
                  capacitance_F_ * x[output_voltage] * x[output_voltage] +
                  bus_capacitance_F_ * x[bus_voltage] * x[bus_voltage]);
}

void Inverter::guards(const double* x, double time_s, const SupplyLoading& loading,
                      double* values) const {
    const double wanted = wanted_current_A(x, time_s, loading);
    const double bridge = wanted_bridge_voltage_V(x, limited(wanted));
    const double sag = parameters_.bus_voltage_V - x[bus_voltage];
    values[current_limit_positive] = parameters_.peak_current_limit_A - wanted;
    values[current_limit_negative] = parameters_.peak_current_limit_A + wanted;
    values[bridge_limit_positive] = x[bus_voltage] - bridge;
    values[bridge_limit_negative] = x[bus_voltage] + bridge;
    values[refill_begins] = sag;
    values[refill_is_full] = refill_sag * parameters_.bus_voltage_V - sag;
    values[rating_passed] =
        parameters_.rated_current_A * parameters_.rated_current_A - x[mean_square];
    values[timer_empty] = x[timer] == 0.0 ? 1.0 : x[timer];
    const bool tripped = !trip_cause_.empty();
    values[timer_full] = tripped ? 1.0 : parameters_.overload_time_s - x[timer];
    values[bus_too_low] = tripped ? 1.0 : x[bus_voltage] - parameters_.bus_minimum_V;
}

void Inverter::on_guard(std::size_t guard, double* x) {
    switch (guard) {
        case timer_empty:
            x[timer] = 0.0;
            break;
        case timer_full:
            trip_cause_ = "inverter_overload";
            bridge_enabled_ = 0.0;
            break;
        case bus_too_low:
            trip_cause_ = "dc_bus_low";
            bridge_enabled_ = 0.0;
            break;
        default:
            break;
    }
}

std::array<std::string_view, Inverter::channel_count> Inverter::channel_names() {
    return {"inverter_current_A", "inverter_current_limit_active", "dc_bus_V", "overload_timer_s"};
}

std::array<double, Inverter::channel_count> Inverter::channels(const double* x, double time_s,
                                                               const SupplyLoading& loading) const {
    const double wanted = wanted_current_A(x, time_s, loading);
    const bool active = magnitude(wanted) > parameters_.peak_current_limit_A;
    return {x[inductor_current], active ? 1.0 : 0.0, x[bus_voltage], x[timer]};
}

}  // namespace plant_models
