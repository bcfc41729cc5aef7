#include "plant_models/unit/heat_network.hpp"

#include <cmath>
#include <numeric>

#include "plant_models/numeric/select.hpp"

namespace plant_models {

namespace {

constexpr double copper_J_per_kg_K = 385.0;
constexpr double rotor_J_per_kg_K = 526.0;
constexpr double shell_J_per_kg_K = 500.0;

constexpr double copper_kg_per_m3 = 8960.0;
constexpr double copper_ohm_m = 1.724e-8;
constexpr double locked_rotor_A_per_m2 = 30e6;

constexpr double least_mass_kg = 0.01;

/// Current from the two series impedances; the magnetizing branch takes a few per cent only.
double main_winding_mass_kg(const MotorParameters& motor) {
    const double resistance = motor.main_resistance_ohm + motor.rotor_resistance_ohm;
    const double reactance = motor.main_leakage_reactance_ohm + motor.rotor_leakage_reactance_ohm;
    const double square_A2 = motor.rated_voltage_V * motor.rated_voltage_V /
                             (resistance * resistance + reactance * reactance);
    return square_A2 * motor.main_resistance_ohm * copper_kg_per_m3 /
           (locked_rotor_A_per_m2 * locked_rotor_A_per_m2 * copper_ohm_m);
}

}  // namespace

HeatParameters HeatParameters::completed(const MotorParameters& motor) const {
    HeatParameters full = *this;
    if (full.main_winding_mass_kg == 0.0) {
        full.main_winding_mass_kg = plant_models::main_winding_mass_kg(motor);
    }
    if (full.aux_winding_mass_kg == 0.0) {
        full.aux_winding_mass_kg = 0.5 * full.main_winding_mass_kg;
    }
    if (full.rotor_mass_kg == 0.0) {
        full.rotor_mass_kg = 2.5 * full.main_winding_mass_kg;
    }
    if (full.shell_mass_kg == 0.0) {
        full.shell_mass_kg = 10.0 * full.main_winding_mass_kg;
    }
    return full;
}

const ParameterTable<HeatParameters>& HeatParameters::table() {
    using H = HeatParameters;
    static const ParameterTable<H> rows = {
        {"resistance_temperature_C", &H::resistance_temperature_C, 0, 130, 25.0,
         "temperature at which the motor's three resistances are given"},
        {"main_winding_mass_kg", &H::main_winding_mass_kg, 0, 100, 0.0,
         "copper of the main winding; 0: from the motor, 30 A/mm2 with the rotor locked"},
        {"aux_winding_mass_kg", &H::aux_winding_mass_kg, 0, 100, 0.0,
         "copper of the auxiliary winding; 0: 0.5 x main_winding_mass_kg"},
        {"rotor_mass_kg", &H::rotor_mass_kg, 0, 200, 0.0,
         "rotor, cage and core; 0: 2.5 x main_winding_mass_kg"},
        {"shell_mass_kg", &H::shell_mass_kg, 0, 1000, 0.0,
         "shell, stator core, pump and oil; 0: 10 x main_winding_mass_kg"},
        {"winding_time_constant_s", &H::winding_time_constant_s, 5, 3600, 150.0,
         "windings towards the shell"},
        {"rotor_time_constant_s", &H::rotor_time_constant_s, 5, 3600, 300.0,
         "rotor towards the shell"},
        {"shell_time_constant_s", &H::shell_time_constant_s, 60, 1e5, 2400.0,
         "the whole unit towards ambient, at rest"},
        {"running_shell_time_constant_s", &H::running_shell_time_constant_s, 60, 1e5, 600.0,
         "the whole unit towards ambient while the refrigerant carries heat off"},
        {"winding_rise_K", &H::winding_rise_K, 0, 100, 25.0,
         "windings above the shell after a long run"},
        {"rotor_rise_K", &H::rotor_rise_K, 0, 100, 30.0, "rotor above the shell after a long run"},
        {"shell_rise_K", &H::shell_rise_K, 0, 100, 35.0, "shell above ambient after a long run"},
    };
    return rows;
}

std::string_view HeatParameters::inconsistency() const {
    const auto is_too_light = [](double mass_kg) {
        return mass_kg != 0.0 && mass_kg < least_mass_kg;
    };
    if (is_too_light(main_winding_mass_kg) || is_too_light(aux_winding_mass_kg)) {
        return "main_winding_mass_kg and aux_winding_mass_kg must each be 0 or at least 0.01";
    }
    if (is_too_light(rotor_mass_kg) || is_too_light(shell_mass_kg)) {
        return "rotor_mass_kg and shell_mass_kg must each be 0 or at least 0.01";
    }
    if (winding_time_constant_s >= shell_time_constant_s ||
        rotor_time_constant_s >= shell_time_constant_s) {
        return "shell_time_constant_s must be longer than those of the windings and the rotor";
    }
    if (running_shell_time_constant_s > shell_time_constant_s) {
        return "running_shell_time_constant_s must be at most shell_time_constant_s";
    }
    return {};
}

HeatNetwork::HeatNetwork(const HeatParameters& heat, const MotorParameters& motor,
                         const Conditions& conditions)
    : parameters_(heat.completed(motor)), conditions_(conditions) {
    const HeatParameters& p = parameters_;
    capacity_J_per_K_ = {copper_J_per_kg_K * p.main_winding_mass_kg,
                         copper_J_per_kg_K * p.aux_winding_mass_kg,
                         rotor_J_per_kg_K * p.rotor_mass_kg, shell_J_per_kg_K * p.shell_mass_kg};
    to_shell_W_per_K_ = {capacity_J_per_K_[main_winding] / p.winding_time_constant_s,
                         capacity_J_per_K_[aux_winding] / p.winding_time_constant_s,
                         capacity_J_per_K_[rotor] / p.rotor_time_constant_s};
    const double whole_J_per_K =
        std::accumulate(capacity_J_per_K_.begin(), capacity_J_per_K_.end(), 0.0);
    at_rest_W_per_K_ = whole_J_per_K / p.shell_time_constant_s;
    running_gain_W_per_K_s_ = (whole_J_per_K / p.running_shell_time_constant_s - at_rest_W_per_K_) /
                              motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz);
}

std::array<double, HeatNetwork::state_count> HeatNetwork::initial_state() const {
    const HeatParameters& p = parameters_;
    const auto left = [this](double time_constant_s) {
        return std::exp(-conditions_.rest_s / time_constant_s);
    };
    const double kept_K = conditions_.oil_warming_K;
    const double shell_C =
        conditions_.ambient_C + kept_K + (p.shell_rise_K - kept_K) * left(p.shell_time_constant_s);
    const double winding_C = shell_C + p.winding_rise_K * left(p.winding_time_constant_s);
    const double rotor_C = shell_C + p.rotor_rise_K * left(p.rotor_time_constant_s);
    return {winding_C, winding_C, rotor_C, shell_C};
}

void HeatNetwork::derivatives(const double* x, double* dxdt, const UnitSignals& signals) const {
    const std::array<double, shell> losses_W = {signals.main_copper_W, signals.aux_copper_W,
                                                signals.cage_W};
    double into_shell_W = signals.iron_W + signals.friction_W;
    for (std::size_t k = 0; k < shell; ++k) {
        const double flow_W = to_shell_W_per_K_[k] * (x[k] - x[shell]);
        dxdt[k] = (losses_W[k] - flow_W) / capacity_J_per_K_[k];
        into_shell_W += flow_W;
    }
    dxdt[shell] =
        (into_shell_W - given_off_W(x, signals.speed_rad_per_s)) / capacity_J_per_K_[shell];
}

HeatNetwork::Cooling HeatNetwork::cooling(double duration_s) const {
    const auto product = [](const Cooling& a, const Cooling& b) {
        Cooling c{};
        for (std::size_t i = 0; i < state_count; ++i) {
            for (std::size_t k = 0; k < state_count; ++k) {
                for (std::size_t j = 0; j < state_count; ++j) {
                    c[i][j] += a[i][k] * b[k][j];
                }
            }
        }
        return c;
    };
    Cooling rate{};
    double shell_loss_W_per_K = at_rest_W_per_K_;
    for (std::size_t k = 0; k < shell; ++k) {
        rate[k][k] = -to_shell_W_per_K_[k] / capacity_J_per_K_[k];
        rate[k][shell] = -rate[k][k];
        rate[shell][k] = to_shell_W_per_K_[k] / capacity_J_per_K_[shell];
        shell_loss_W_per_K += to_shell_W_per_K_[k];
    }
    rate[shell][shell] = -shell_loss_W_per_K / capacity_J_per_K_[shell];

    // exp(A t) = exp(A t / 2^n)^(2^n), the inner one by its series, which is short where the
    // argument is small.
    constexpr double small = 0.25;
    double fastest_per_s = 0.0;
    for (std::size_t k = 0; k < state_count; ++k) {
        fastest_per_s = std::max(fastest_per_s, -rate[k][k]);
    }
    int halvings = 0;
    double part_s = duration_s;
    for (; fastest_per_s * part_s > small; part_s *= 0.5) {
        ++halvings;
    }
    Cooling argument = rate;
    Cooling result{};
    for (std::size_t i = 0; i < state_count; ++i) {
        result[i][i] = 1.0;
        for (double& entry : argument[i]) {
            entry *= part_s;
        }
    }
    constexpr int terms = 14;  // (2 x 0.25)^14 / 14! is far below rounding
    Cooling term = result;
    for (int n = 1; n <= terms; ++n) {
        term = product(term, argument);
        for (std::size_t i = 0; i < state_count; ++i) {
            for (std::size_t j = 0; j < state_count; ++j) {
                term[i][j] /= n;
                result[i][j] += term[i][j];
            }
        }
    }
    for (; halvings > 0; --halvings) {
        result = product(result, result);
    }
    return result;
}

void HeatNetwork::cool(double* x, const Cooling& cooling) const {
    std::array<double, state_count> above_K{};
    for (std::size_t k = 0; k < state_count; ++k) {
        above_K[k] = x[k] - conditions_.ambient_C;
    }
    for (std::size_t i = 0; i < state_count; ++i) {
        x[i] = conditions_.ambient_C;
        for (std::size_t k = 0; k < state_count; ++k) {
            x[i] += cooling[i][k] * above_K[k];
        }
    }
}

WindingFactors HeatNetwork::resistance_factors(const double* x) const {
    const double given_C = parameters_.resistance_temperature_C;
    return {resistance_ratio(copper_coefficient_per_K, x[main_winding], given_C),
            resistance_ratio(copper_coefficient_per_K, x[aux_winding], given_C),
            resistance_ratio(aluminium_coefficient_per_K, x[rotor], given_C)};
}

double HeatNetwork::given_off_W(const double* x, double speed_rad_per_s) const {
    return (at_rest_W_per_K_ + running_gain_W_per_K_s_ * magnitude(speed_rad_per_s)) *
           (x[shell] - conditions_.ambient_C);
}

double HeatNetwork::stored_energy_J(const double* x) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < state_count; ++k) {
        sum += capacity_J_per_K_[k] * (x[k] - conditions_.ambient_C);
    }
    return sum;
}

}  // namespace plant_models
