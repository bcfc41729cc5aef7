#include "plant_models/supplies/generator.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/rest_integration.hpp"
#include "plant_models/numeric/select.hpp"
#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {
constexpr double root_two = 1.41421356237309504880;
constexpr double current_mean_time_constant_s = 0.020;
constexpr double stalled_drag_share = 0.20;
constexpr double remanence_share = 0.02;
}  // namespace

Generator::Generator(const GeneratorParameters& parameters)
    : parameters_(parameters.completed()),
      breaker_image_(parameters_.breaker_current_A, 2.0 * parameters_.breaker_current_A,
                     parameters_.breaker_double_time_s),
      omega_rad_per_s_(2.0 * pi * parameters.frequency_Hz),
      resistance_ohm_(0.01 * parameters.armature_resistance_percent *
                      parameters.base_impedance_ohm()),
      transient_ohm_(0.01 * parameters.transient_reactance_percent *
                     parameters.base_impedance_ohm()),
      armature_reaction_ohm_(0.01 * parameters.synchronous_reactance_percent *
                                 parameters.base_impedance_ohm() -
                             transient_ohm_),
      doubled_energy_J_(2.0 * parameters.inertia_constant_s * parameters.rated_power_VA),
      no_load_loss_W_(0.01 * parameters.no_load_loss_percent * parameters.rated_power_VA),
      droop_(0.01 * parameters.governor_droop_percent),
      knee_(0.01 * parameters.underfrequency_knee_percent),
      stall_speed_(0.01 * parameters.stall_speed_percent),
      field_ceiling_(0.01 * parameters.field_ceiling_percent),
      remanence_V_(remanence_share * parameters.voltage_V),
      regulator_gain_(100.0 / parameters.voltage_droop_percent) {}

std::array<double, Generator::state_count> Generator::initial_state() const {
    // Running without load: the throttle covers the loss, the field gives E = F.
    std::array<double, state_count> x{};
    const double loss_share = no_load_loss_W_ / parameters_.engine_power_W;
    x[angle] = degrees_to_radians(parameters_.phase_deg);
    x[speed] = (1.0 + droop_) / (1.0 + droop_ * loss_share);
    x[engine_torque] = loss_share * x[speed];
    x[transient_emf] =
        parameters_.voltage_V * (1.0 + regulator_gain_) / (1.0 + regulator_gain_ * x[speed]);
    x[field] = x[transient_emf];
    return x;
}

double Generator::emf_V(const double* x, double /*time_s*/) const {
    return root_two * x[transient_emf] * x[speed] * std::sin(x[angle]);
}

double Generator::terminal_voltage_V(const double* x) const {
    const double reactance = x[speed] * transient_ohm_;
    const double in_phase = x[transient_emf] * x[speed] - resistance_ohm_ * x[quadrature_mean] -
                            reactance * x[direct_mean];
    const double across = reactance * x[quadrature_mean] - resistance_ohm_ * x[direct_mean];
    return std::sqrt(in_phase * in_phase + across * across);
}

double Generator::wanted_throttle(const double* x) const {
    return (governor_setting_ * (1.0 + droop_) - x[speed]) / droop_;
}

double Generator::wanted_field_V(const double* x, double terminal_V) const {
    const double reference =
        parameters_.voltage_V * select(x[speed] < knee_, x[speed] / knee_, 1.0);
    return parameters_.voltage_V + regulator_gain_ * (reference - terminal_V);
}

SupplyPower Generator::derivatives(const double* x, double* dxdt, double /*time_s*/,
                                   const SupplyLoading& loading) const {
    const double sine = std::sin(x[angle]);
    const double cosine = std::cos(x[angle]);
    const double line_A = loading.line_current_A();
    const double engine_W = engine_runs_ * parameters_.engine_power_W * x[engine_torque];
    const double drag_W = (1.0 - engine_runs_) * stalled_drag_share * parameters_.engine_power_W;
    const double loss_W = (no_load_loss_W_ + drag_W) * x[speed];
    const double emf_at_rated_speed = root_two * x[transient_emf] * sine;
    const double terminal_V = terminal_voltage_V(x);

    dxdt[angle] = omega_rad_per_s_ * x[speed];
    dxdt[speed] = (engine_W - loss_W - emf_at_rated_speed * line_A) / doubled_energy_J_;
    dxdt[engine_torque] =
        (clamp(wanted_throttle(x), 0.0, 1.0) - x[engine_torque]) / parameters_.governor_lag_s;
    const double direct_A = -root_two * line_A * cosine;
    const double quadrature_A = root_two * line_A * sine;
    dxdt[transient_emf] = (x[field] - x[transient_emf] - armature_reaction_ohm_ * direct_A) /
                          parameters_.field_time_constant_s;
    const double wanted_V = clamp(wanted_field_V(x, terminal_V), remanence_V_,
                                  remanence_V_ + field_ceiling_ * terminal_V);
    dxdt[field] = (wanted_V - x[field]) / parameters_.exciter_lag_s;
    dxdt[direct_mean] = (direct_A - x[direct_mean]) / current_mean_time_constant_s;
    dxdt[quadrature_mean] = (quadrature_A - x[quadrature_mean]) / current_mean_time_constant_s;
    dxdt[breaker_heat] = breaker_image_.rate_per_s(x[breaker_heat], line_A);

    const double iron_drop_V = emf_at_rated_speed * x[speed] - loading.terminal_voltage_V;
    return {engine_W * x[speed], loss_W * x[speed] + iron_drop_V * loading.iron_current_A};
}

void Generator::guards(const double* x, double /*time_s*/, const SupplyLoading& loading,
                       double* values) const {
    const double throttle = wanted_throttle(x);
    const double terminal_V = terminal_voltage_V(x);
    const double wanted_V = wanted_field_V(x, terminal_V);
    const bool tripped = !trip_cause_.empty();
    values[governor_shut] = throttle;
    values[governor_open] = 1.0 - throttle;
    values[field_at_remanence] = wanted_V - remanence_V_;
    values[field_at_ceiling] = remanence_V_ + field_ceiling_ * terminal_V - wanted_V;
    values[underfrequency] = x[speed] - knee_;
    values[stalled] = tripped ? 1.0 : x[speed] - stall_speed_;
    values[breaker_warm] = tripped ? 1.0 : ThermalImage::margin(x[breaker_heat]);
    values[breaker_instant] =
        tripped ? 1.0 : parameters_.breaker_instant_current_A - magnitude(loading.line_current_A());
}

void Generator::on_guard(std::size_t guard, double* /*x*/) {
    switch (guard) {
        case stalled:
            trip_cause_ = "generator_stalled";
            engine_runs_ = 0.0;
            break;
        case breaker_warm:
        case breaker_instant:
            trip_cause_ = "generator_breaker";
            breaker_open_ = true;
            break;
        default:
            break;
    }
}

void Generator::rest(double* x, double begin_s, double end_s) const {
    using State = std::array<double, state_count>;
    constexpr RestAccuracy accuracy{1e-9, 1e-9};
    constexpr double still_share_per_s = 1e-10;
    const double duration_s = end_s - begin_s;
    const double heat = breaker_image_.later(x[breaker_heat], 0.0, duration_s);
    const double angle_before = x[angle];
    State state{};
    std::copy(x, x + state_count, state.begin());
    state[angle] = 0.0;
    state[breaker_heat] = 0.0;
    const double steady_s = integrate_rest(
        state, duration_s, accuracy,
        [this](const State& at, State& rate) {
            derivatives(at.data(), rate.data(), 0.0, SupplyLoading{});
        },
        [this](const State&, const State& rate) {
            const double volts = std::max(std::abs(rate[transient_emf]), std::abs(rate[field]));
            const double shares = std::max(std::abs(rate[speed]), std::abs(rate[engine_torque]));
            return std::max(volts / parameters_.voltage_V, shares) < still_share_per_s;
        });
    state[angle] += angle_before + omega_rad_per_s_ * state[speed] * steady_s;
    state[breaker_heat] = heat;
    std::copy(state.begin(), state.end(), x);
}

std::array<std::string_view, Generator::channel_count> Generator::channel_names() {
    return {"generator_frequency_Hz", "generator_field_percent", "engine_torque_percent",
            "generator_breaker_percent"};
}

std::array<double, Generator::channel_count> Generator::channels(
    const double* x, double /*time_s*/, const SupplyLoading& /*loading*/) const {
    return {frequency_Hz(x), 100.0 * x[field] / parameters_.voltage_V,
            100.0 * engine_runs_ * x[engine_torque],
            ThermalImage::percent_of_trip(x[breaker_heat])};
}

}  // namespace plant_models
