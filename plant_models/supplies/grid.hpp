// Supply "grid": an ideal sinusoidal EMF behind a resistance and an inductance (Thevenin).
//
//   v(t) = e(t) - R i - L di/dt        e(t) = sqrt(2) V sin(2 pi f t + phase)
//
// i is positive out of the supply. Phase 0 closes the circuit at the voltage's rising zero.
// It never trips and holds no energy but L i^2 / 2.
//
// For tests and lessons the EMF can sag once (voltage_sag.hpp); V is then a trapezoid in time. A
// sag to 0 % is an outage of a grid that other loads short-circuit: its impedance stays connected.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "plant_models/parameter_table.hpp"
#include "plant_models/supplies/sine_reference.hpp"
#include "plant_models/supplies/supply_interface.hpp"
#include "plant_models/supplies/voltage_sag.hpp"

namespace plant_models {

struct GridParameters {
    static constexpr std::string_view kind = "grid";

    double voltage_V = 0.0;  ///< RMS, open circuit
    double frequency_Hz = 0.0;
    double resistance_ohm = 0.0;
    double inductance_mH = 0.0;
    double phase_deg = 0.0;  ///< of the EMF's sine at t = 0
    double sag_begin_s = 0.0;
    double sag_fall_s = 0.0;
    double sag_length_s = 0.0;      ///< from the begin of the fall to the return
    double sag_to_percent = 100.0;  ///< 100: no sag

    double nominal_voltage_V() const { return voltage_V; }
    static const ParameterTable<GridParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in supply_interface.hpp.
class Grid {
  public:
    using Parameters = GridParameters;
    static constexpr std::size_t state_count = 0;
    static constexpr std::size_t guard_count = 1;  ///< the next corner of the sag
    static constexpr std::size_t channel_count = 0;

    explicit Grid(const GridParameters& grid)
        : emf_(std::sqrt(2.0) * grid.voltage_V, grid.frequency_Hz, grid.phase_deg),
          resistance_ohm_(grid.resistance_ohm),
          inductance_H_(1e-3 * grid.inductance_mH),
          sag_({grid.sag_begin_s, grid.sag_fall_s, grid.sag_length_s, 0.01 * grid.sag_to_percent}) {
    }

    double series_resistance_ohm() const { return resistance_ohm_; }
    double series_inductance_H() const { return inductance_H_; }
    double largest_step_s() const { return 200e-6; }
    double frequency_Hz(const double* /*x*/) const { return emf_.frequency_Hz(); }

    void set_origin(double time_s) { emf_.set_origin(time_s); }
    void set_frequency_share(double share, double time_s) {
        emf_.set_frequency_share(share, time_s);
    }
    std::array<double, 0> initial_state() const { return {}; }
    double emf_V(const double* /*x*/, double time_s) const {
        return emf_.value(time_s) * sag_.share(time_s);
    }

    SupplyPower derivatives(const double* x, double* /*dxdt*/, double time_s,
                            const SupplyLoading& loading) const {
        // The iron current is taken at the terminal: its drop across R and L is neglected.
        return {emf_V(x, time_s) * loading.winding_current_A +
                    loading.terminal_voltage_V * loading.iron_current_A,
                0.0};
    }
    double stored_energy_J(const double* /*x*/) const { return 0.0; }

    void guards(const double* /*x*/, double time_s, const SupplyLoading& /*loading*/,
                double* values) const {
        values[0] = sag_.until_next_corner_s(time_s);
    }
    static bool guard_is_kink(std::size_t /*guard*/) { return false; }
    void on_guard(std::size_t /*guard*/, double* /*x*/) { sag_.pass_corner(); }
    std::string_view trip_cause() const { return {}; }
    bool disconnected() const { return false; }

    bool settled(const double* /*x*/) const { return true; }
    double whole_rest_s(double wanted_s) const { return wanted_s; }
    /// A sag that comes and goes within the rest has then been.
    void rest(double* /*x*/, double /*begin_s*/, double end_s) {
        while (sag_.until_next_corner_s(end_s) <= 0.0) {
            sag_.pass_corner();
        }
    }

    static std::array<std::string_view, 0> channel_names() { return {}; }
    std::array<double, 0> channels(const double* /*x*/, double /*time_s*/,
                                   const SupplyLoading& /*loading*/) const {
        return {};
    }

  private:
    SineReference emf_;
    double resistance_ohm_;
    double inductance_H_;
    VoltageSag sag_;
};

}  // namespace plant_models
