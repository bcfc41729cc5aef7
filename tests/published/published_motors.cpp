#include "published_motors.hpp"

namespace published {

plant_models::MotorParameters permanent_capacitor_motor() {
    constexpr double main_H = 80.6e-3;
    constexpr double auxiliary_H = 196e-3;
    constexpr double rotor_H = 4.7e-6;
    constexpr double rotor_ohm = 37.6e-6;
    constexpr double main_mutual_H = 0.588e-3;
    constexpr double auxiliary_mutual_H = 0.909e-3;
    constexpr double omega = 2.0 * 3.14159265358979323846 * 60.0;
    // Referring the rotor by mutual / rotor inductance leaves it without leakage; the stator's
    // self-inductances keep their values, and nothing that can be measured changes.
    constexpr double referral = main_mutual_H / rotor_H;
    constexpr double ratio = auxiliary_mutual_H / main_mutual_H;
    constexpr double magnetizing_H = main_mutual_H * referral;

    plant_models::MotorParameters motor;
    motor.poles = 2;
    motor.rated_voltage_V = 230.0;
    motor.rated_frequency_Hz = 60.0;
    motor.main_resistance_ohm = 0.58;
    motor.main_leakage_reactance_ohm = omega * (main_H - magnetizing_H);
    motor.aux_resistance_ohm = 3.37;
    motor.aux_leakage_reactance_ohm = omega * (auxiliary_H - ratio * ratio * magnetizing_H);
    motor.turns_ratio = ratio;
    motor.rotor_resistance_ohm = rotor_ohm * referral * referral;
    motor.rotor_leakage_reactance_ohm = 0.0;
    motor.magnetizing_reactance_ohm = omega * magnetizing_H;
    motor.inertia_kg_m2 = 0.00197;
    motor.run_capacitor_uF = 35.0;
    motor.friction_loss_W = 40.0 * 3600.0 / 3500.0;
    return motor;
}

plant_models::MotorParameters quarter_horsepower_motor() {
    plant_models::MotorParameters motor;
    motor.poles = 4;
    motor.rated_voltage_V = 110.0;
    motor.rated_frequency_Hz = 60.0;
    motor.main_resistance_ohm = 2.02;
    motor.main_leakage_reactance_ohm = 2.79;
    motor.aux_resistance_ohm = 7.14;
    motor.aux_leakage_reactance_ohm = 3.22;
    motor.turns_ratio = 1.18;
    motor.rotor_resistance_ohm = 4.12;
    motor.rotor_leakage_reactance_ohm = 2.12;
    motor.magnetizing_reactance_ohm = 66.8;
    motor.inertia_kg_m2 = 0.0146;
    return motor;
}

plant_models::MotorParameters reference_motor() {
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

plant_models::GridParameters reference_grid() {
    plant_models::GridParameters grid;
    grid.voltage_V = 230.0;
    grid.frequency_Hz = 60.0;
    grid.resistance_ohm = 0.08;
    grid.inductance_mH = 0.15;
    return grid;
}

plant_models::PolynomialLoadParameters reference_load() {
    plant_models::PolynomialLoadParameters load;
    load.breakaway_torque_Nm = 0.6;
    load.constant_torque_Nm = 0.6;
    load.square_torque_Nm = 5.5;
    load.reference_speed_rpm = 3447.0;
    return load;
}

plant_models::MotorParameters second_motor() {
    plant_models::MotorParameters motor;
    motor.poles = 4;
    motor.rated_voltage_V = 230.0;
    motor.rated_frequency_Hz = 50.0;
    motor.main_resistance_ohm = 1.1;
    motor.main_leakage_reactance_ohm = 1.7;
    motor.aux_resistance_ohm = 3.0;
    motor.aux_leakage_reactance_ohm = 2.6;
    motor.turns_ratio = 1.3;
    motor.rotor_resistance_ohm = 1.5;
    motor.rotor_leakage_reactance_ohm = 1.6;
    motor.magnetizing_reactance_ohm = 46.0;
    motor.inertia_kg_m2 = 0.006;
    motor.run_capacitor_uF = 30.0;
    motor.run_capacitor_esr_ohm = 0.3;
    motor.iron_loss_W = 60.0;
    motor.friction_loss_W = 15.0;
    motor.windage_loss_W = 10.0;
    return motor;
}

plant_models::GridParameters second_grid() {
    plant_models::GridParameters grid;
    grid.voltage_V = 230.0;
    grid.frequency_Hz = 50.0;
    grid.resistance_ohm = 0.35;
    grid.inductance_mH = 0.4;
    grid.phase_deg = 63.0;
    return grid;
}

plant_models::PolynomialLoadParameters second_load() {
    plant_models::PolynomialLoadParameters load;
    load.breakaway_torque_Nm = 0.7;
    load.constant_torque_Nm = 0.5;
    load.square_torque_Nm = 7.0;
    load.reference_speed_rpm = 1440.0;
    return load;
}

}  // namespace published
