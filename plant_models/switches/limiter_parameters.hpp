// The power parts of the limiter: what sits between the line and the motor, without its controller.
//
// Defaults are engineering judgement for a 40 A class thyristor pair and relay-type contacts.
#pragma once

#include "plant_models/parameter_table.hpp"

namespace plant_models {

struct LimiterParameters {
    double start_capacitor_uF = 0.0;  ///< 0: none fitted
    double start_capacitor_esr_ohm = 0.0;
    double start_capacitor_bleed_ohm = 0.0;  ///< discharges it while its contact is open
    double thyristor_threshold_V = 0.0;      ///< on-state drop at vanishing current
    double thyristor_slope_ohm = 0.0;        ///< on-state drop per ampere
    double thyristor_latching_mA = 0.0;      ///< current that must flow when the gate pulse ends
    double bypass_resistance_ohm = 0.0;
    double contact_close_ms = 0.0;   ///< coil on to first touch
    double contact_open_ms = 0.0;    ///< coil off to contacts parted
    double contact_bounce_ms = 0.0;  ///< first touch to lasting contact

    static const ParameterTable<LimiterParameters>& table();
};

}  // namespace plant_models
