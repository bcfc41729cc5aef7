#include "plant_models/switches/limiter_parameters.hpp"

namespace plant_models {

const ParameterTable<LimiterParameters>& LimiterParameters::table() {
    using P = LimiterParameters;
    static const ParameterTable<P> rows = {
        {"start_capacitor_uF", &P::start_capacitor_uF, 0, 1000, 130.0,
         "start capacitor; 0: none fitted"},
        {"start_capacitor_esr_ohm", &P::start_capacitor_esr_ohm, 0.005, 20, 0.15,
         "series resistance of the start capacitor"},
        {"start_capacitor_bleed_ohm", &P::start_capacitor_bleed_ohm, 100, 1e7, 15000.0,
         "resistor that discharges the start capacitor while it is out"},
        {"thyristor_threshold_V", &P::thyristor_threshold_V, 0, 3, 0.85,
         "thyristor on-state drop at vanishing current"},
        {"thyristor_slope_ohm", &P::thyristor_slope_ohm, 0, 0.5, 0.008,
         "thyristor on-state drop per ampere"},
        {"thyristor_latching_mA", &P::thyristor_latching_mA, 0, 1000, 80.0,
         "current that must flow at the end of a gate pulse for conduction to last"},
        {"bypass_resistance_ohm", &P::bypass_resistance_ohm, 0, 0.5, 0.002,
         "resistance of the closed bypass contact"},
        {"contact_close_ms", &P::contact_close_ms, 0, 100, 12.0, "coil on to first touch"},
        {"contact_open_ms", &P::contact_open_ms, 0, 100, 8.0, "coil off to contacts parted"},
        {"contact_bounce_ms", &P::contact_bounce_ms, 0, 20, 1.5, "first touch to lasting contact"},
    };
    return rows;
}

}  // namespace plant_models
