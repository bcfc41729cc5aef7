// What the tests fit around a motor, and a compressor for it to turn.
#pragma once

#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/unit/fitted_unit.hpp"
#include "support/machines.hpp"

namespace support {

inline plant_models::HeatParameters heat() {
    return table_defaults<plant_models::HeatParameters>();
}

/// Trips at 30 A within a second or two from cold, so that a test need not wait.
inline plant_models::LineBreakParameters quick_protector() {
    auto protector = table_defaults<plant_models::LineBreakParameters>();
    protector.ultimate_trip_A = 12.0;
    protector.trip_current_A = 30.0;
    protector.trip_time_s = 1.0;
    return protector;
}

inline plant_models::ProtectionModuleParameters start_watch() {
    auto module = table_defaults<plant_models::ProtectionModuleParameters>();
    module.expected_start_current_A = 25.0;
    module.running_current_A = 12.0;
    module.inrush_window_s = 0.5;
    return module;
}

inline plant_models::ContactorParameters contactor() {
    return table_defaults<plant_models::ContactorParameters>();
}

inline plant_models::PotentialRelayParameters relay() {
    auto relay = table_defaults<plant_models::PotentialRelayParameters>();
    relay.start_capacitor_uF = 130.0;
    return relay;
}

inline plant_models::ThermistorParameters thermistor() {
    auto thermistor = table_defaults<plant_models::ThermistorParameters>();
    thermistor.cold_resistance_ohm = 33.0;
    return thermistor;
}

/// 32 cm3, one cylinder.
inline plant_models::ReciprocatingParameters piston() {
    plant_models::ReciprocatingParameters load;
    load.displacement_cm3 = 32.0;
    load.breakaway_torque_Nm = 0.8;
    load.bearing_torque_Nm = 0.3;
    load.oil_torque_Nm = 0.4;
    load.reference_speed_rpm = 3450.0;
    return load;
}

inline plant_models::MotorParameters without_run_capacitor(plant_models::MotorParameters motor) {
    motor.run_capacitor_uF = 0.0;
    return motor;
}

/// After a rest that leaves nothing of the last run.
inline plant_models::Conditions rested(double ambient_C = 25.0) {
    plant_models::Conditions conditions;
    conditions.ambient_C = ambient_C;
    conditions.rest_s = 1e6;
    return conditions;
}

}  // namespace support
