#include "plant_models/supplies/split_phase.hpp"

#include <algorithm>
#include <cmath>

namespace plant_models {

namespace {
constexpr double mean_time_constant_s = 0.0002;
}  // namespace

const ParameterTable<SplitPhaseParameters>& SplitPhaseParameters::table() {
    using S = SplitPhaseParameters;
    static const ParameterTable<S> rows = {
        {"leg_voltage_V", &S::leg_voltage_V, 50, 150, 120.0,
         "voltage from a leg to neutral without any load, RMS"},
        {"frequency_Hz", &S::frequency_Hz, 45, 65, 60.0, "frequency"},
        {"leg_resistance_ohm", &S::leg_resistance_ohm, 0, 5, 0.020,
         "transformer and service conductor of one leg"},
        {"leg_inductance_mH", &S::leg_inductance_mH, 0, 10, 0.050,
         "transformer and service conductor of one leg"},
        {"neutral_resistance_ohm", &S::neutral_resistance_ohm, 0, 5, 0.010, "neutral conductor"},
        {"neutral_inductance_mH", &S::neutral_inductance_mH, 0, 10, 0.015, "neutral conductor"},
        {"leg_1_load_W", &S::leg_1_load_W, 0, 30000, 0.0,
         "standing load of the household on leg 1, a resistance, at leg_voltage_V"},
        {"leg_2_load_W", &S::leg_2_load_W, 0, 30000, 0.0,
         "standing load of the household on leg 2, a resistance, at leg_voltage_V"},
        {"phase_deg", &S::phase_deg, -360, 360, 0.0,
         "phase of leg 1's sine when the run begins; 0 is its rising zero"},
    };
    return rows;
}

const WordTable<SplitPhaseParameters>& SplitPhaseParameters::word_table() {
    using S = SplitPhaseParameters;
    static const WordTable<S> rows = {
        {"connection",
         &S::connection,
         {"leg_to_leg", "leg_to_neutral"},
         "leg_to_leg",
         "what the unit is connected to\n"
         "leg_to_leg: both legs, twice leg_voltage_V\n"
         "leg_to_neutral: leg 1 and neutral"},
    };
    return rows;
}

SplitPhaseNetwork split_phase_network(const SplitPhaseParameters& parameters) {
    const double omega_per_mH = 1e-3 * 2.0 * pi * parameters.frequency_Hz;
    const double square = parameters.leg_voltage_V * parameters.leg_voltage_V;
    SplitPhaseNetwork network;
    network.leg_voltage_V = parameters.leg_voltage_V;
    network.leg_ohm = {parameters.leg_resistance_ohm, omega_per_mH * parameters.leg_inductance_mH};
    network.neutral_ohm = {parameters.neutral_resistance_ohm,
                           omega_per_mH * parameters.neutral_inductance_mH};
    network.load_1_S = parameters.leg_1_load_W / square;
    network.load_2_S = parameters.leg_2_load_W / square;
    network.unit_is_leg_to_leg = parameters.is_leg_to_leg();
    return network;
}

SplitPhase::SplitPhase(const SplitPhaseParameters& parameters)
    : SplitPhase(parameters, split_phase_network(parameters)) {}

SplitPhase::SplitPhase(const SplitPhaseParameters& parameters, const SplitPhaseNetwork& network)
    : emf_(std::sqrt(2.0) * std::abs(network.solve(0.0).unit_V), parameters.frequency_Hz,
           parameters.phase_deg + (180.0 / pi) * std::arg(network.solve(0.0).unit_V)),
      omega_rad_per_s_(2.0 * pi * parameters.frequency_Hz) {
    const SplitPhaseNetwork::Voltages open = network.solve(0.0);
    const SplitPhaseNetwork::Voltages one_ampere = network.solve(1.0);
    const Phasor impedance = open.unit_V - one_ampere.unit_V;
    // Rounding may leave a trace below zero where there is no inductance or no resistance.
    resistance_ohm_ = std::max(impedance.real(), 0.0);
    inductance_H_ = std::max(impedance.imag(), 0.0) / omega_rad_per_s_;
    panel_ = {PanelQuantity{open.leg_1_V / open.unit_V, one_ampere.leg_1_V - open.leg_1_V},
              PanelQuantity{open.leg_2_V / open.unit_V, one_ampere.leg_2_V - open.leg_2_V},
              PanelQuantity{open.neutral_A / open.unit_V, one_ampere.neutral_A - open.neutral_A}};
}

double SplitPhase::current_rate_A_per_s(const double* x, const SupplyLoading& loading) const {
    return (loading.winding_current_A - x[mean_current]) / mean_time_constant_s;
}

std::array<std::string_view, SplitPhase::channel_count> SplitPhase::channel_names() {
    return {"leg_1_V", "leg_2_V", "neutral_A"};
}

std::array<double, SplitPhase::channel_count> SplitPhase::channels(
    const double* x, double time_s, const SupplyLoading& loading) const {
    const double emf = emf_.value(time_s);
    const double emf_quadrature = emf_.rate(time_s) / omega_rad_per_s_;
    const double current = loading.winding_current_A;
    const double current_quadrature = current_rate_A_per_s(x, loading) / omega_rad_per_s_;
    std::array<double, channel_count> values{};
    for (std::size_t k = 0; k < channel_count; ++k) {
        const PanelQuantity& quantity = panel_[k];
        values[k] = quantity.per_emf_V.real() * emf + quantity.per_emf_V.imag() * emf_quadrature +
                    quantity.per_unit_A.real() * current +
                    quantity.per_unit_A.imag() * current_quadrature;
    }
    return values;
}

}  // namespace plant_models
