#include "plant_models/supplies/generator_parameters.hpp"

#include <cmath>

namespace plant_models {

GeneratorParameters GeneratorParameters::completed() const {
    GeneratorParameters full = *this;
    if (full.engine_power_W == 0.0) {
        full.engine_power_W = 1.1 * rated_power_VA;
    }
    if (full.breaker_current_A == 0.0) {
        full.breaker_current_A = rated_power_VA / voltage_V;
    }
    if (full.breaker_instant_current_A == 0.0) {
        full.breaker_instant_current_A = 10.0 * full.breaker_current_A;
    }
    return full;
}

const ParameterTable<GeneratorParameters>& GeneratorParameters::table() {
    using G = GeneratorParameters;
    static const ParameterTable<G> rows = {
        {"voltage_V", &G::voltage_V, 50, 300, {}, "voltage without load, RMS"},
        {"frequency_Hz",
         &G::frequency_Hz,
         45,
         65,
         {},
         "frequency at full engine torque; without load it is higher by governor_droop_percent"},
        {"rated_power_VA", &G::rated_power_VA, 500, 100000, {}, "rating of the alternator"},
        {"engine_power_W", &G::engine_power_W, 0, 200000, 0.0,
         "most that the engine gives at rated speed; 0: 1.1 x rated_power_VA"},
        {"governor_droop_percent", &G::governor_droop_percent, 0.5, 15, 5.0,
         "fall of the frequency from no to full engine torque"},
        {"governor_lag_s", &G::governor_lag_s, 0.01, 2, 0.10, "lag of governor and throttle"},
        {"inertia_constant_s", &G::inertia_constant_s, 0.05, 10, 0.8,
         "kinetic energy of the set at rated speed, divided by rated_power_VA"},
        {"no_load_loss_percent", &G::no_load_loss_percent, 0.1, 30, 6.0,
         "friction, iron and excitation of the alternator at rated speed, of rated_power_VA"},
        {"synchronous_reactance_percent", &G::synchronous_reactance_percent, 10, 400, 160.0,
         "synchronous reactance, direct axis"},
        {"transient_reactance_percent", &G::transient_reactance_percent, 2, 100, 20.0,
         "reactance in series with the EMF during a start"},
        {"armature_resistance_percent", &G::armature_resistance_percent, 0, 20, 4.0,
         "resistance of the armature"},
        {"field_time_constant_s", &G::field_time_constant_s, 0.02, 10, 0.5,
         "time constant of the field with the terminals open"},
        {"exciter_lag_s", &G::exciter_lag_s, 0.005, 2, 0.02, "lag of the voltage regulator"},
        {"voltage_droop_percent", &G::voltage_droop_percent, 0.5, 20, 4.0,
         "fall of the voltage at which the regulator doubles the no-load field"},
        {"field_ceiling_percent", &G::field_ceiling_percent, 110, 1000, 450.0,
         "most field at full terminal voltage, of the no-load field; it falls with the voltage"},
        {"underfrequency_knee_percent", &G::underfrequency_knee_percent, 50, 100, 95.0,
         "frequency below which the regulator lets the voltage follow it, of frequency_Hz"},
        {"stall_speed_percent", &G::stall_speed_percent, 20, 90, 55.0,
         "speed below which the engine dies, of rated speed"},
        {"breaker_current_A", &G::breaker_current_A, 0, 1000, 0.0,
         "RMS current that the breaker carries for ever; 0: rated_power_VA / voltage_V"},
        {"breaker_double_time_s", &G::breaker_double_time_s, 0.5, 600, 40.0,
         "time after which it opens at twice breaker_current_A, from cold"},
        {"breaker_instant_current_A", &G::breaker_instant_current_A, 0, 20000, 0.0,
         "instantaneous current at which it opens at once; 0: 10 x breaker_current_A"},
        {"phase_deg", &G::phase_deg, -360, 360, 0.0,
         "phase of the voltage's sine when the run begins; 0 is its rising zero"},
    };
    return rows;
}

std::string_view GeneratorParameters::inconsistency() const {
    const GeneratorParameters full = completed();
    if (full.engine_power_W < 2.0 * 0.01 * no_load_loss_percent * rated_power_VA) {
        return "engine_power_W must be at least twice the no-load loss (no_load_loss_percent of "
               "rated_power_VA)";
    }
    if (synchronous_reactance_percent < transient_reactance_percent) {
        return "synchronous_reactance_percent must be at least transient_reactance_percent";
    }
    if (full.breaker_instant_current_A < std::sqrt(2.0) * full.breaker_current_A) {
        return "breaker_instant_current_A must be at least the crest of breaker_current_A (1.414 "
               "times it)";
    }
    if (stall_speed_percent >= underfrequency_knee_percent) {
        return "stall_speed_percent must be below underfrequency_knee_percent";
    }
    return {};
}

}  // namespace plant_models
