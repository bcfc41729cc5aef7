#include "bench/cases.hpp"

#include <algorithm>
#include <filesystem>

#include "plant_models/numeric/units.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim_test {

namespace {

std::filesystem::path scenario_folder() {
    return std::filesystem::path(RUNUP_SOURCE_FOLDER) / "sim/scenarios";
}

}  // namespace

sim::Scenario bundled(const std::string& name) {
    return sim::read_scenario((scenario_folder() / (name + ".toml")).string());
}

std::vector<std::string> bundled_names() {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(scenario_folder())) {
        names.push_back(entry.path().stem().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

const std::vector<InventedMotor>& invented_motors() {
    // clang-format off
    static const std::vector<InventedMotor> motors = {
        // name                       V   Hz p  LR A  r_m   x_m   r_a   x_a    n    r_r   x_r   X_m    J       run  start break loss
        {"fridge_115V_60Hz",         115, 60, 2, 12, 0.28, 0.38, 0.80, 0.52, 1.25, 0.38, 0.36,  8.0, 0.00035, 12,  60, 0.15, 0.08},
        {"fridge_100V_50Hz",         100, 50, 2, 13, 0.30, 0.36, 0.75, 0.50, 1.20, 0.40, 0.36,  8.5, 0.00040, 15,  80, 0.20, 0.08},
        {"window_unit_115V_60Hz",    115, 60, 2, 45, 0.22, 0.38, 0.62, 0.48, 1.15, 0.36, 0.40, 13.0, 0.00110, 35, 160, 0.15, 0.05},
        {"freezer_220V_50Hz",        220, 50, 2, 18, 0.25, 0.37, 0.70, 0.50, 1.30, 0.38, 0.38, 10.0, 0.00080, 12,  60, 0.20, 0.06},
        {"two_ton_208V_60Hz",        208, 60, 2, 58, 0.20, 0.38, 0.58, 0.48, 1.20, 0.35, 0.42, 15.0, 0.00180, 35, 110, 0.15, 0.04},
        {"three_ton_240V_50Hz",      240, 50, 2, 82, 0.19, 0.37, 0.55, 0.46, 1.20, 0.35, 0.43, 17.0, 0.00300, 45, 150, 0.18, 0.04},
        {"four_ton_230V_60Hz",       230, 60, 2, 118, 0.18, 0.38, 0.52, 0.46, 1.15, 0.34, 0.44, 18.0, 0.00400, 60, 200, 0.15, 0.03},
        {"five_ton_230V_60Hz",       230, 60, 2, 141, 0.17, 0.38, 0.50, 0.46, 1.10, 0.34, 0.44, 19.0, 0.00550, 80, 250, 0.15, 0.03},
        {"milk_cooler_230V_50Hz_4p", 230, 50, 4, 40, 0.26, 0.38, 0.66, 0.50, 1.20, 0.36, 0.38, 10.0, 0.01000, 30, 100, 0.18, 0.05},
        {"cold_room_220V_60Hz_4p",   220, 60, 4, 60, 0.22, 0.38, 0.60, 0.48, 1.10, 0.36, 0.40, 11.0, 0.01200, 50, 150, 0.12, 0.04},
        {"slow_pump_250V_50Hz_6p",   250, 50, 6, 30, 0.30, 0.38, 0.70, 0.52, 1.20, 0.38, 0.38,  7.0, 0.01500, 25,  80, 0.12, 0.06},
    };
    // clang-format on
    return motors;
}

double rated_torque_Nm(const InventedMotor& motor) {
    const double rated_A = motor.locked_rotor_A / 5.0;
    const double shaft_W = 0.95 * 0.78 * motor.voltage_V * rated_A;
    const double speed = 0.96 * 4.0 * plant_models::pi * motor.frequency_Hz / motor.poles;
    return shaft_W / speed;
}

sim::Scenario limited_start(const InventedMotor& from) {
    const double base_ohm = from.voltage_V / from.locked_rotor_A;
    const double torque_Nm = rated_torque_Nm(from);
    const double rated_W = 0.95 * 0.78 * from.voltage_V * from.locked_rotor_A / 5.0;

    sim::Scenario scenario = bundled("reference_limited");
    scenario.name = from.name;
    scenario.title = from.name;
    plant_models::MotorParameters& motor = scenario.motor;
    motor.poles = from.poles;
    motor.rated_voltage_V = from.voltage_V;
    motor.rated_frequency_Hz = from.frequency_Hz;
    motor.main_resistance_ohm = from.main_resistance * base_ohm;
    motor.main_leakage_reactance_ohm = from.main_reactance * base_ohm;
    motor.aux_resistance_ohm = from.aux_resistance * base_ohm;
    motor.aux_leakage_reactance_ohm = from.aux_reactance * base_ohm;
    motor.turns_ratio = from.turns_ratio;
    motor.rotor_resistance_ohm = from.rotor_resistance * base_ohm;
    motor.rotor_leakage_reactance_ohm = from.rotor_reactance * base_ohm;
    motor.magnetizing_reactance_ohm = from.magnetizing_reactance * base_ohm;
    motor.inertia_kg_m2 = from.inertia_kg_m2;
    motor.run_capacitor_uF = from.run_capacitor_uF;
    motor.run_capacitor_esr_ohm = 0.01 * base_ohm;
    motor.iron_loss_W = 0.5 * from.loss_share * rated_W;
    motor.friction_loss_W = 0.25 * from.loss_share * rated_W;
    motor.windage_loss_W = 0.25 * from.loss_share * rated_W;

    plant_models::PolynomialLoadParameters load;
    load.breakaway_torque_Nm = from.breakaway_share * torque_Nm;
    load.constant_torque_Nm = load.breakaway_torque_Nm;
    load.square_torque_Nm = std::max(0.0, torque_Nm - load.constant_torque_Nm);
    load.reference_speed_rpm = 0.96 * 120.0 * from.frequency_Hz / from.poles;
    scenario.load = load;

    plant_models::GridParameters grid;
    grid.voltage_V = from.voltage_V;
    grid.frequency_Hz = from.frequency_Hz;
    grid.resistance_ohm = 0.03 * base_ohm;
    grid.inductance_mH = 1e3 * 0.02 * base_ohm / motor.rated_angular_frequency_rad_per_s();
    scenario.source = grid;

    limiter_of(scenario).parts.start_capacitor_uF = from.start_capacitor_uF;
    limiter_of(scenario).parts.start_capacitor_esr_ohm = 0.03 * base_ohm;
    return scenario;
}

sim::Scenario on_inverter(sim::Scenario scenario, double peak_current_limit_A) {
    auto inverter = std::get<plant_models::InverterParameters>(bundled("hut_inverter").source);
    inverter.voltage_V = scenario.motor.rated_voltage_V;
    inverter.frequency_Hz = scenario.motor.rated_frequency_Hz;
    inverter.peak_current_limit_A = peak_current_limit_A;
    scenario.source = inverter;
    return scenario;
}

sim::BuiltinLimiter& limiter_of(sim::Scenario& scenario) {
    return std::get<sim::BuiltinLimiter>(scenario.limiter);
}

}  // namespace sim_test
