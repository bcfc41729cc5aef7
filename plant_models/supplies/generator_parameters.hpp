// Parameters of the supply "generator"; the model is in generator.hpp.
//
// Only voltage, frequency and rating must be given. Shares in per cent are of the alternator's own
// base: voltage_V, rated_power_VA, frequency_Hz.
//
// Origin of the defaults: reactances, time constants and losses are of the order that textbooks
// give for small salient-pole machines (recalled, not seen); engine, governor, exciter and breaker
// are engineering judgement for a set of 3 to 20 kVA.
#pragma once

#include <string_view>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct GeneratorParameters {
    static constexpr std::string_view kind = "generator";

    double voltage_V = 0.0;     ///< RMS, without load, at rated frequency
    double frequency_Hz = 0.0;  ///< at full engine torque; without load it is higher by the droop
    double rated_power_VA = 0.0;
    double engine_power_W = 0.0;          ///< most, at rated speed; 0: 1.1 x rated_power_VA
    double governor_droop_percent = 0.0;  ///< fall of frequency from no to full engine torque
    double governor_lag_s = 0.0;
    double inertia_constant_s = 0.0;  ///< H: kinetic energy at rated speed / rated_power_VA
    double no_load_loss_percent = 0.0;
    double synchronous_reactance_percent = 0.0;
    double transient_reactance_percent = 0.0;
    double armature_resistance_percent = 0.0;
    double field_time_constant_s = 0.0;  ///< open circuit
    double exciter_lag_s = 0.0;
    double voltage_droop_percent = 0.0;        ///< fall of voltage that doubles the no-load field
    double field_ceiling_percent = 0.0;        ///< of the no-load field, at full terminal voltage
    double underfrequency_knee_percent = 0.0;  ///< below it the voltage follows the frequency
    double stall_speed_percent = 0.0;
    double breaker_current_A = 0.0;  ///< RMS; 0: rated_power_VA / voltage_V
    double breaker_double_time_s = 0.0;
    double breaker_instant_current_A = 0.0;  ///< instantaneous; 0: 10 x breaker_current_A
    double phase_deg = 0.0;

    double nominal_voltage_V() const { return voltage_V; }
    double base_impedance_ohm() const { return voltage_V * voltage_V / rated_power_VA; }

    /// The same parameters with every "0: derived" filled in.
    GeneratorParameters completed() const;

    static const ParameterTable<GeneratorParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const;
};

}  // namespace plant_models
