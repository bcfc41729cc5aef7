// Supply "split_phase": the North American service, two legs and a neutral from a centre-tapped
// transformer, with a resistive standing load on each leg. The unit hangs on both legs (240 V) or
// on leg 1 and neutral (120 V).
//
// The network (split_phase_network.hpp) is reduced to an EMF behind R and L, as the unit sees it:
//
//   e(t) = sqrt(2) |V_th| sin(2 pi f t + phase + arg V_th)    R + j 2 pi f L = Z_th
//
// Exact for sinusoids at f. For the decaying direct part of an inrush and for harmonics the
// impedance is wrong by at most |z|^2 / R_load of a leg: under 1 % of z with 5 kW on each leg.
// The energy of the audit begins at this equivalent: what the household itself draws is not in it.
//
// The channels are voltages and the neutral current at the panel, leg 1 and leg 2 both counted from
// neutral, so that they are in opposition. They follow from the unit's current by the same
// phasors, with j = (1 / w) d/dt; the rate of the current is its difference from a one-pole mean of
// 0.2 ms, so that the inductive part of a drop lags by 4 degrees. Only the channels suffer from it.
//
// Defaults: impedances of a 25 kVA pole transformer with a short service drop, engineering
// judgement (a bolted short circuit leg to leg then draws 4.3 kA).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "plant_models/supplies/sine_reference.hpp"
#include "plant_models/supplies/split_phase_network.hpp"
#include "plant_models/supplies/supply_interface.hpp"

namespace plant_models {

struct SplitPhaseParameters {
    static constexpr std::string_view kind = "split_phase";

    std::string_view connection = "leg_to_leg";
    double leg_voltage_V = 120.0;  ///< RMS, leg to neutral, no load at all
    double frequency_Hz = 60.0;
    double leg_resistance_ohm = 0.0;
    double leg_inductance_mH = 0.0;
    double neutral_resistance_ohm = 0.0;
    double neutral_inductance_mH = 0.0;
    double leg_1_load_W = 0.0;  ///< at leg_voltage_V; a resistance
    double leg_2_load_W = 0.0;
    double phase_deg = 0.0;  ///< of leg 1's sine at t = 0

    bool is_leg_to_leg() const { return connection == "leg_to_leg"; }
    double nominal_voltage_V() const {
        return is_leg_to_leg() ? 2.0 * leg_voltage_V : leg_voltage_V;
    }

    static const ParameterTable<SplitPhaseParameters>& table();
    static const WordTable<SplitPhaseParameters>& word_table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const { return {}; }
};

/// The network that the parameters describe.
SplitPhaseNetwork split_phase_network(const SplitPhaseParameters& parameters);

/// The model; its members are described in supply_interface.hpp.
class SplitPhase {
  public:
    using Parameters = SplitPhaseParameters;
    enum StateIndex { mean_current };
    static constexpr std::size_t state_count = 1;
    static constexpr std::size_t guard_count = 0;
    static constexpr std::size_t channel_count = 3;

    explicit SplitPhase(const SplitPhaseParameters& parameters);

    double series_resistance_ohm() const { return resistance_ohm_; }
    double series_inductance_H() const { return inductance_H_; }
    double largest_step_s() const { return 100e-6; }
    double frequency_Hz(const double* /*x*/) const { return emf_.frequency_Hz(); }

    void set_origin(double time_s) { emf_.set_origin(time_s); }
    void set_frequency_share(double share, double time_s) {
        emf_.set_frequency_share(share, time_s);
    }
    std::array<double, state_count> initial_state() const { return {}; }
    double emf_V(const double* /*x*/, double time_s) const { return emf_.value(time_s); }
    SupplyPower derivatives(const double* x, double* dxdt, double time_s,
                            const SupplyLoading& loading) const {
        dxdt[mean_current] = current_rate_A_per_s(x, loading);
        return {emf_.value(time_s) * loading.winding_current_A +
                    loading.terminal_voltage_V * loading.iron_current_A,
                0.0};
    }
    double stored_energy_J(const double* /*x*/) const { return 0.0; }

    void guards(const double* /*x*/, double /*time_s*/, const SupplyLoading& /*loading*/,
                double* /*values*/) const {}
    static bool guard_is_kink(std::size_t /*guard*/) { return false; }
    void on_guard(std::size_t /*guard*/, double* /*x*/) {}
    std::string_view trip_cause() const { return {}; }
    bool disconnected() const { return false; }

    bool settled(const double* /*x*/) const { return true; }
    double whole_rest_s(double wanted_s) const { return wanted_s; }
    void rest(double* x, double /*begin_s*/, double /*end_s*/) const { x[mean_current] = 0.0; }

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x, double time_s,
                                               const SupplyLoading& loading) const;

  private:
    using Phasor = SplitPhaseNetwork::Phasor;
    /// A quantity of the panel as what it is without the unit, in terms of the EMF, and what a
    /// unit's ampere adds.
    struct PanelQuantity {
        Phasor per_emf_V;
        Phasor per_unit_A;
    };
    SplitPhase(const SplitPhaseParameters& parameters, const SplitPhaseNetwork& network);
    double current_rate_A_per_s(const double* x, const SupplyLoading& loading) const;

    SineReference emf_;
    double omega_rad_per_s_;
    double resistance_ohm_;
    double inductance_H_;
    std::array<PanelQuantity, channel_count> panel_;
};

}  // namespace plant_models
