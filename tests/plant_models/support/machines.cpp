#include "support/machines.hpp"

namespace support {

plant_models::MotorParameters two_pole_motor() {
    plant_models::MotorParameters motor;
    motor.poles = 2;
    motor.rated_voltage_V = 230.0;
    motor.rated_frequency_Hz = 60.0;
    motor.main_resistance_ohm = 0.55;
    motor.main_leakage_reactance_ohm = 1.05;
    motor.aux_resistance_ohm = 1.6;
    motor.aux_leakage_reactance_ohm = 1.35;
    motor.turns_ratio = 1.15;
    motor.rotor_resistance_ohm = 1.05;
    motor.rotor_leakage_reactance_ohm = 1.25;
    motor.magnetizing_reactance_ohm = 52.0;
    motor.inertia_kg_m2 = 0.0045;
    motor.run_capacitor_uF = 40.0;
    return motor;
}

plant_models::MotorParameters lossy_motor() {
    plant_models::MotorParameters motor;
    motor.poles = 4;
    motor.rated_voltage_V = 230.0;
    motor.rated_frequency_Hz = 50.0;
    motor.main_resistance_ohm = 2.4;
    motor.main_leakage_reactance_ohm = 3.1;
    motor.aux_resistance_ohm = 5.2;
    motor.aux_leakage_reactance_ohm = 4.4;
    motor.turns_ratio = 1.35;
    motor.rotor_resistance_ohm = 2.9;
    motor.rotor_leakage_reactance_ohm = 2.6;
    motor.magnetizing_reactance_ohm = 78.0;
    motor.inertia_kg_m2 = 0.006;
    motor.run_capacitor_uF = 25.0;
    motor.run_capacitor_esr_ohm = 0.4;
    motor.iron_loss_W = 55.0;
    motor.friction_loss_W = 12.0;
    motor.windage_loss_W = 9.0;
    return motor;
}

plant_models::GridParameters ideal_grid(double voltage_V, double frequency_Hz) {
    plant_models::GridParameters grid;
    grid.voltage_V = voltage_V;
    grid.frequency_Hz = frequency_Hz;
    return grid;
}

plant_models::GridParameters weak_grid() {
    plant_models::GridParameters grid = ideal_grid(230.0, 50.0);
    grid.resistance_ohm = 1.3;
    grid.inductance_mH = 2.0;
    grid.phase_deg = 35.0;
    return grid;
}

plant_models::InverterParameters small_inverter() {
    auto inverter = table_defaults<plant_models::InverterParameters>();
    inverter.voltage_V = 230.0;
    inverter.frequency_Hz = 60.0;
    inverter.peak_current_limit_A = 60.0;
    return inverter;
}

plant_models::PolynomialLoadParameters fan() {
    plant_models::PolynomialLoadParameters load;
    load.breakaway_torque_Nm = 1.5;
    load.constant_torque_Nm = 0.6;
    load.square_torque_Nm = 2.4;
    load.reference_speed_rpm = 1500.0;
    return load;
}

}  // namespace support
