// Start aid "thermistor": a PTC resistor that lets the auxiliary winding have its current while it
// is cold, and heats itself until it all but cuts it off.
//
//   with a run capacitor      across it                          P = v_C^2 / R
//   without                   in series with the auxiliary       P = i_a^2 R
//
//   C dT/dt = P - D (T - T_amb)
//   ln R = ln R_cold + S / (1 + exp(-4 (b / S) (T - T_mid))),   S = ln(R_max / R_cold)
//   T_mid = T_sw + S / (4 b) ln(S / ln 2 - 1)
//
//   symbol | field                     | meaning                                   | unit
//   R_cold | cold_resistance_ohm       | rated resistance, at 25 C                 | ohm
//   T_sw   | switching_C               | R is twice R_cold there                   | C
//   b      | steepness_percent_per_K   | greatest slope of ln R (100 x b)          | 1/K
//   R_max  | maximum_resistance_ohm    | what R comes to far above                 | ohm
//   C      | heat_capacity_J_per_K     |                                           | J/K
//   D      | dissipation_mW_per_K      | C / D is the time constant of its cooling | W/K
//
// Switching temperature and steepness are defined as in the trade's data sheets (secondary; after
// IEC 60738-1, recalled). That ln R follows a logistic curve between its two ends is this project's
// own: smooth, straight over the steep part, and it meets all four figures (R at 25 C within 3 % at
// the corner of the bounds, 0.1 % with the defaults). That R falls with voltage is left out.
//
// Without a run capacitor, R / L of the winding grows without end. Above 30 times R_cold the branch
// therefore counts as open and its residual current is left out; the voltage across it keeps it
// hot (P = u^2 / R). It conducts again below 15 times R_cold.
//
// Defaults: 120 C (secondary: a data sheet of motor-start types, 3.3 to 47 ohm); dissipation such
// that holding takes the 3 W of the same sheet; heat capacity 2.5 J/K is a disc of 0.8 cm3 of
// barium titanate (computed, 3 J/cm3 K); they cool with 90 s. Steepness 15 %/K and R_max = 1000
// R_cold: engineering judgement. Parts for 230 V have 25 to 50 ohm (secondary).
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/unit/fitting_interface.hpp"

namespace plant_models {

struct ThermistorParameters {
    static constexpr std::string_view kind = "thermistor";

    double cold_resistance_ohm = 0.0;
    double switching_C = 0.0;
    double steepness_percent_per_K = 0.0;
    double maximum_resistance_ohm = 0.0;  ///< 0: 1000 x cold_resistance_ohm
    double heat_capacity_J_per_K = 0.0;
    double dissipation_mW_per_K = 0.0;

    /// The same parameters with every "0: derived" filled in.
    ThermistorParameters completed() const;

    static const ParameterTable<ThermistorParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

/// The model; its members are described in fitting_interface.hpp.
class Thermistor {
  public:
    enum StateIndex : std::size_t { body };  // C
    enum GuardIndex : std::size_t { cuts_off, conducts_again };
    static constexpr std::size_t state_count = 1;
    static constexpr std::size_t guard_count = 2;
    static constexpr std::size_t channel_count = 2;

    Thermistor(const ThermistorParameters& thermistor, const MotorParameters& motor,
               const Conditions& conditions);

    /// Held hot by the rated voltage during the last run, then `rest_s` of cooling.
    std::array<double, state_count> initial_state() const { return {initial_C_}; }
    void derivatives(const double* x, double* dxdt, const UnitSignals& signals) const;
    void guards(const double* x, const UnitSignals& signals, double* values) const;
    static bool guard_is_kink(std::size_t) { return false; }
    void on_guard(std::size_t guard, double* /*x*/) { conducts_ = guard == conducts_again; }
    static bool settled(const double* /*x*/) { return true; }
    void continue_from(const Thermistor& before) { conducts_ = before.conducts_; }
    /// It cools, and may conduct again.
    void rest(double* x, const RestStep& step);

    /// Whether the motor has a run capacitor for it to lie across.
    bool is_across_run_capacitor() const { return across_capacitor_; }
    /// It is the auxiliary winding's only path, and conducts. Changes with its two guards only.
    bool carries_auxiliary() const { return !across_capacitor_ && conducts_; }
    double resistance_at_ohm(double temperature_C) const;
    double resistance_ohm(const double* x) const { return resistance_at_ohm(x[body]); }
    /// Across the run capacitor; 0 if it lies in series.
    double conductance_S(const double* x) const {
        return across_capacitor_ ? 1.0 / resistance_ohm(x) : 0.0;
    }
    /// In series with the auxiliary winding; 0 if it lies across the run capacitor, or is cut off.
    double series_ohm(const double* x) const {
        return carries_auxiliary() ? resistance_ohm(x) : 0.0;
    }
    double cooling_time_constant_s() const { return capacity_J_per_K_ / dissipation_W_per_K_; }

    static std::array<std::string_view, channel_count> channel_names() {
        return {"thermistor_C", "thermistor_ohm"};
    }
    std::array<double, channel_count> channels(const double* x) const {
        return {x[body], resistance_ohm(x)};
    }

  private:
    double holding_temperature_C(double voltage_V) const;

    double cold_ohm_;
    double log_range_;       ///< S
    double rate_per_K_;      ///< 4 b / S
    double middle_C_ = 0.0;  ///< T_mid
    double capacity_J_per_K_;
    double dissipation_W_per_K_;
    double ambient_C_;
    bool across_capacitor_;
    double initial_C_ = 0.0;
    bool conducts_ = true;
};

}  // namespace plant_models
