// Protector "line_break": a bimetal disc with a heater, in the common lead, against the shell.
//
//   tau dT/dt = T_shell + k i^2 - T           opens at T_open, closes again at T_close
//   k = (T_open - T_ref) / I_ult^2            I_ult held for ever just opens it at T_ref
//   tau = t_trip / ln(I_trip^2 / (I_trip^2 - I_ult^2))
//
//   symbol | field            | on a data sheet
//   I_ult  | ultimate_trip_A  | ultimate trip current
//   I_trip | trip_current_A   | current of the short-time trip, mostly the locked-rotor current
//   t_trip | trip_time_s      | short-time trip, from cold
//   T_ref  | reference_C      | temperature around the protector in both of these tests
//
// At a constant current after a long preload I_p (T_shell = T_ref) it opens after
//   t = tau ln((I^2 - I_p^2) / (I^2 - I_ult^2))
// which is the thermal characteristic of IEC 60255-149, earlier 60255-8 (secondary: manuals of
// protection relays quote it). It resets after tau ln((T_open - T_shell) / (T_close - T_shell)),
// or not before the shell has cooled below T_close.
//
// The instantaneous current is squared: a sine counts by its RMS, and its ripple moves a trip by
// about a millisecond.
//
// Defaults: opens 107 C (225 F), closes 71 C (160 F): secondary, one service page. Short-time trip
// 8 s: engineering judgement within 5 to 15 s (recalled).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

struct LineBreakParameters {
    static constexpr std::string_view kind = "line_break";

    double ultimate_trip_A = 0.0;  ///< RMS
    double trip_current_A = 0.0;   ///< RMS
    double trip_time_s = 0.0;
    double reference_C = 0.0;
    double opens_C = 0.0;
    double closes_C = 0.0;

    static const ParameterTable<LineBreakParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in fitting_interface.hpp.
class LineBreakProtector {
  public:
    enum StateIndex : std::size_t { disc };  // C
    enum GuardIndex : std::size_t { opens, closes };
    static constexpr std::size_t state_count = 1;
    static constexpr std::size_t guard_count = 2;
    static constexpr std::size_t channel_count = 1;

    /// `shell_C`: of the shell when the run begins; ambient where heat is not modelled.
    LineBreakProtector(const LineBreakParameters& protector, const Conditions& conditions,
                       double shell_C);

    /// Warm from the last run: the rise of a rated current decays over `rest_s`. (Rated current:
    /// I_ult / 1.4, after the most that NEC 440.52 lets a protector carry; recalled.)
    std::array<double, state_count> initial_state() const { return {initial_C_}; }
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* x, const UnitSignals& signals, double* values) const;
    static bool guard_is_kink(std::size_t) { return false; }
    void on_guard(std::size_t guard, double* x);
    static bool settled(const double* /*x*/) { return true; }
    /// It follows the shell's temperature, taken as a straight line, and may close meanwhile.
    void rest(double* x, const RestStep& step);

    void continue_from(const LineBreakProtector& before) {
        closed_ = before.closed_;
        trips_ = before.trips_;
    }

    bool closed() const { return closed_; }
    /// While it is open, else empty.
    std::string_view trip_cause() const { return closed_ ? "" : "protector_opened"; }
    int trips() const { return trips_; }
    double time_constant_s() const { return time_constant_s_; }

    static std::array<std::string_view, channel_count> channel_names() { return {"protector_C"}; }
    std::array<double, channel_count> channels(const double* x) const { return {x[disc]}; }

  private:
    LineBreakParameters parameters_;
    double time_constant_s_;
    double rise_K_per_A2_;
    double initial_C_;
    bool closed_ = true;
    int trips_ = 0;
};

}  // namespace plant_models
