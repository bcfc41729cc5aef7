#include "plant_models/supplies/inverter.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/relaxation.hpp"
#include "plant_models/numeric/select.hpp"
#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {
constexpr double mean_time_constant_s = 0.020;
/// The resonator corrects slowly beside the voltage loop, so that it adds little phase lag.
constexpr double resonant_share_of_bandwidth = 0.15;
}  // namespace

Inverter::Inverter(const InverterParameters& inverter)
    : parameters_(inverter.completed()),
      reference_(std::sqrt(2.0) * inverter.voltage_V, inverter.frequency_Hz, inverter.phase_deg),
      limiter_(parameters_),
      overload_(parameters_),
      dc_side_(parameters_),
      inductance_H_(1e-3 * inverter.filter_inductance_mH),
      capacitance_F_(1e-6 * inverter.filter_capacitance_uF),
      bus_capacitance_F_(1e-6 * parameters_.bus_capacitance_uF),
      voltage_gain_A_per_V_(2.0 * pi * inverter.voltage_loop_bandwidth_Hz * capacitance_F_),
      resonant_rate_per_s_(2.0 * pi * inverter.voltage_loop_bandwidth_Hz *
                           resonant_share_of_bandwidth),
      current_gain_V_per_A_(2.0 * pi * inverter.current_loop_bandwidth_Hz * inductance_H_) {
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
    const auto limiter_state = limiter_.initial_state();
    std::copy(limiter_state.begin(), limiter_state.end(), x.begin() + first_limiter_state);
    x[battery_current_mean] = dc_side_.flow(x[bus_voltage], bridge_enabled_).battery_current_A;
    return x;
}

// Inline: a call costs a tenth of the right-hand side.
inline Inverter::Control Inverter::control(const double* x, double time_s,
                                           double line_current_A) const {
    Control c;
    double reference_V = reference_.value(time_s);
    double reference_rate = reference_.rate(time_s);
    if (limiter_.lowers_voltage()) {
        reference_V = limiter_.lowered_V(reference_V, line_current_A, x + first_limiter_state);
        reference_rate = limiter_.lowered_rate(reference_rate, x + first_limiter_state);
    }
    c.error_A = voltage_gain_A_per_V_ * (reference_V - x[output_voltage]);
    c.wanted_A = bridge_enabled_ *
                 (line_current_A + capacitance_F_ * reference_rate + c.error_A + x[resonator]);
    c.allowed_A = limiter_.allowed_A(c.wanted_A, x[inductor_current]);
    c.wanted_bridge_V = x[output_voltage] +
                        parameters_.filter_resistance_ohm * x[inductor_current] +
                        current_gain_V_per_A_ * (c.allowed_A - x[inductor_current]);
    return c;
}

SupplyPower Inverter::derivatives(const double* x, double* dxdt, double time_s,
                                  const SupplyLoading& loading) const {
    const double line_current = loading.line_current_A();
    const Control c = control(x, time_s, line_current);
    const double bridge = clamp(c.wanted_bridge_V, -x[bus_voltage], x[bus_voltage]);
    const DcFlow dc = dc_side_.flow(x[bus_voltage], bridge_enabled_);
    const double current = x[inductor_current];
    const double resistive = parameters_.filter_resistance_ohm * current;

    dxdt[inductor_current] = (bridge - resistive - x[output_voltage]) / inductance_H_;
    dxdt[output_voltage] = (current - line_current) / capacitance_F_;
    const double omega = 2.0 * pi * reference_.frequency_Hz();
    dxdt[resonator] = bridge_enabled_ * resonant_rate_per_s_ *
                          limiter_.resonator_input_A(c.error_A, c.allowed_A, c.wanted_A) -
                      omega * x[resonator_quadrature];
    dxdt[resonator_quadrature] = omega * x[resonator];
    dxdt[bus_voltage] = (dc.into_bus_W - bridge * current) / (bus_capacitance_F_ * x[bus_voltage]);
    dxdt[mean_square] = (line_current * line_current - x[mean_square]) / mean_time_constant_s;
    dxdt[timer] = overload_.rate(x[timer], x[mean_square]);
    limiter_.derivatives(x + first_limiter_state, dxdt + first_limiter_state, line_current,
                         x[mean_square]);
    dc_side_.derivatives(x + first_dc_state, dxdt + first_dc_state, dc.battery_current_A);
    // Conductors may lie between the filter's capacitor and the terminal.
    const double iron_drop_V = x[output_voltage] - loading.terminal_voltage_V;
    return {dc.source_W, resistive * current + dc.loss_W + iron_drop_V * loading.iron_current_A};
}

double Inverter::stored_energy_J(const double* x) const {
    return 0.5 * (inductance_H_ * x[inductor_current] * x[inductor_current] +
                  capacitance_F_ * x[output_voltage] * x[output_voltage] +
                  bus_capacitance_F_ * x[bus_voltage] * x[bus_voltage]);
}

void Inverter::guards(const double* x, double time_s, const SupplyLoading& loading,
                      double* values) const {
    const Control c = control(x, time_s, loading.line_current_A());
    const double* limiter_state = x + first_limiter_state;
    const double* dc_state = x + first_dc_state;
    values[current_limit_positive] = limiter_.positive_room_A(c.wanted_A);
    values[current_limit_negative] = limiter_.negative_room_A(c.wanted_A);
    values[bridge_limit_positive] = x[bus_voltage] - c.wanted_bridge_V;
    values[bridge_limit_negative] = x[bus_voltage] + c.wanted_bridge_V;
    values[refill_begins] = dc_side_.sag_V(x[bus_voltage]);
    values[refill_is_full] = dc_side_.room_to_full_V(x[bus_voltage]);
    values[rating_passed] = overload_.room_A2(x[mean_square]);
    values[timer_empty] = x[timer] == 0.0 ? 1.0 : x[timer];
    const bool blocked = bridge_enabled_ == 0.0;
    values[timer_full] = blocked ? 1.0 : overload_.left_s(x[timer]);
    values[bus_too_low] = blocked ? 1.0 : x[bus_voltage] - parameters_.bus_minimum_V;

    values[softening_begins] = limiter_.softening_room_A2(limiter_state, x[mean_square]);
    values[hold_begins] = limiter_.hold_begins_A(c.wanted_A, x[inductor_current]);
    values[limiting_ends] = limiter_.limiting_ends(limiter_state, c.wanted_A, x[inductor_current]);

    const double battery_A = dc_side_.flow(x[bus_voltage], bridge_enabled_).battery_current_A;
    values[battery_rating_passed] = dc_side_.rating_room_A(battery_A);
    values[battery_timer_empty] = dc_side_.timer_empty(dc_state);
    values[battery_protection_opens] = dc_side_.protection_room(dc_state, battery_A);
    values[battery_too_low] = blocked ? 1.0 : dc_side_.voltage_room_V(dc_state);
}

void Inverter::on_guard(std::size_t guard, double* x) {
    switch (guard) {
        case timer_empty:
            x[timer] = 0.0;
            break;
        case timer_full:
            block("inverter_overload");
            break;
        case bus_too_low:
            block("dc_bus_low");
            break;
        case hold_begins:
            limiter_.begin_hold(x[inductor_current]);
            break;
        case limiting_ends:
            limiter_.end_limiting(x + first_limiter_state);
            break;
        case battery_timer_empty:
            x[battery_timer] = 0.0;
            break;
        case battery_protection_opens:
            trip("battery_protection");
            dc_side_.disconnect();
            break;
        case battery_too_low:
            block("battery_voltage_low");
            break;
        default:
            break;
    }
}

bool Inverter::settled(const double* x) const {
    // Fourteen time constants of the mean after a start; the loops and the bus are faster.
    constexpr double hardly_any_A2 = 1e-3;
    return x[mean_square] < hardly_any_A2 && limiter_.settled(x + first_limiter_state);
}

double Inverter::whole_rest_s(double wanted_s) const {
    return std::floor(wanted_s * reference_.frequency_Hz()) / reference_.frequency_Hz();
}

void Inverter::rest(double* x, double begin_s, double end_s) {
    const double duration_s = end_s - begin_s;
    if (duration_s <= 0.0) {
        return;
    }
    x[mean_square] = relaxed(x[mean_square], 0.0, mean_time_constant_s, duration_s);
    x[timer] = std::max(x[timer] + overload_.rate(x[timer], 0.0) * duration_s, 0.0);
    limiter_.rest(x + first_limiter_state, duration_s);
    const double idle_A = dc_side_.flow(x[bus_voltage], bridge_enabled_).battery_current_A;
    dc_side_.rest(x + first_dc_state, idle_A, duration_s);
}

void Inverter::trip(std::string_view cause) {
    if (trip_cause_.empty()) {
        trip_cause_ = cause;
    }
}

void Inverter::block(std::string_view cause) {
    trip(cause);
    bridge_enabled_ = 0.0;
    limiter_.release();
}

std::array<std::string_view, Inverter::channel_count> Inverter::channel_names() {
    return {"inverter_current_A",
            "inverter_current_limit_active",
            "dc_bus_V",
            "overload_timer_s",
            "output_current_rms_A",
            "battery_current_A",
            "battery_voltage_V",
            "battery_timer_s"};
}

std::array<double, Inverter::channel_count> Inverter::channels(const double* x, double time_s,
                                                               const SupplyLoading& loading) const {
    const Control c = control(x, time_s, loading.line_current_A());
    const double battery_A = dc_side_.flow(x[bus_voltage], bridge_enabled_).battery_current_A;
    const bool active = limiter_.active(x + first_limiter_state, c.wanted_A);
    return {x[inductor_current],
            active ? 1.0 : 0.0,
            x[bus_voltage],
            x[timer],
            std::sqrt(select(x[mean_square] > 0.0, x[mean_square], 0.0)),
            battery_A,
            dc_side_.battery_terminal_V(battery_A),
            x[battery_timer]};
}

}  // namespace plant_models
