#include "sim/scenario/safety_limits.hpp"

namespace sim {

const plant_models::ParameterTable<SafetyLimits>& SafetyLimits::table() {
    using L = SafetyLimits;
    static const plant_models::ParameterTable<L> rows = {
        {"start_capacitor_max_s", &L::start_capacitor_max_s, 0.05, 60, 3.0,
         "longest time that the start capacitor may stay in"},
        {"standing_rotor_max_s", &L::standing_rotor_max_s, 0.05, 60, 5.0,
         "longest time that a standing rotor may be fed"},
        {"winding_max_C", &L::winding_max_C, 60, 300, 160.0,
         "highest temperature of a stator winding"},
        {"minimum_rest_s", &L::minimum_rest_s, 0, 3600, 180.0, "shortest rest between two tries"},
        {"bypass_minimum_speed_percent", &L::bypass_minimum_speed_percent, 0, 100, 85.0,
         "lowest speed at which the bypass may close, of synchronous speed"},
        {"bypass_reaction_s", &L::bypass_reaction_s, 0.01, 10, 0.5,
         "time to open the bypass after the speed has fallen below that"},
        {"supply_low_percent", &L::supply_low_percent, 0, 100, 60.0,
         "lowest supply voltage that allows a gate pulse, RMS, of the motor's rated voltage"},
        {"supply_high_percent", &L::supply_high_percent, 100, 200, 120.0,
         "highest supply voltage that allows a gate pulse, RMS, of the motor's rated voltage"},
        {"supply_frequency_low_Hz", &L::supply_frequency_low_Hz, 30, 60, 45.0,
         "lowest supply frequency that allows a gate pulse"},
        {"supply_frequency_high_Hz", &L::supply_frequency_high_Hz, 50, 80, 65.0,
         "highest supply frequency that allows a gate pulse"},
        {"supply_reaction_s", &L::supply_reaction_s, 0.01, 5, 0.05,
         "time to end the gate pulses after the supply has left these limits"},
    };
    return rows;
}

std::string_view SafetyLimits::inconsistency() const {
    if (supply_low_percent >= supply_high_percent) {
        return "supply_low_percent must be below supply_high_percent";
    }
    if (supply_frequency_low_Hz >= supply_frequency_high_Hz) {
        return "supply_frequency_low_Hz must be below supply_frequency_high_Hz";
    }
    return {};
}

}  // namespace sim
