// A motor that is known gives its nameplate; the fit of that nameplate must leave room for it.
#include <gtest/gtest.h>

#include <map>
#include <string>

#include "plant_models/motor/steady_state.hpp"
#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/nameplate_fit.hpp"

namespace {

using plant_models::MotorParameters;

/// In the proportions of a residential compressor, but no product of the fit: round numbers.
MotorParameters three_kilowatt_motor() {
    MotorParameters motor;
    motor.poles = 2;
    motor.rated_voltage_V = 230;
    motor.rated_frequency_Hz = 60;
    motor.main_resistance_ohm = 0.6;
    motor.main_leakage_reactance_ohm = 1.1;
    motor.aux_resistance_ohm = 2;
    motor.aux_leakage_reactance_ohm = 2.2;
    motor.turns_ratio = 1.3;
    motor.rotor_resistance_ohm = 1.2;
    motor.rotor_leakage_reactance_ohm = 0.9;
    motor.magnetizing_reactance_ohm = 38;
    motor.inertia_kg_m2 = 0.0022;
    motor.run_capacitor_uF = 35;
    motor.run_capacitor_esr_ohm = 0.075;
    motor.iron_loss_W = 90;
    motor.friction_loss_W = 30;
    motor.windage_loss_W = 20;
    return motor;
}

MotorParameters one_kilowatt_50_Hz_motor() {
    MotorParameters motor = three_kilowatt_motor();
    motor.rated_frequency_Hz = 50;
    motor.main_resistance_ohm = 2;
    motor.main_leakage_reactance_ohm = 3.2;
    motor.aux_resistance_ohm = 7;
    motor.aux_leakage_reactance_ohm = 4.5;
    motor.turns_ratio = 1.25;
    motor.rotor_resistance_ohm = 3.4;
    motor.rotor_leakage_reactance_ohm = 2.9;
    motor.magnetizing_reactance_ohm = 85;
    motor.inertia_kg_m2 = 0.0012;
    motor.run_capacitor_uF = 22;
    motor.run_capacitor_esr_ohm = 0.145;
    motor.iron_loss_W = 45;
    motor.friction_loss_W = 15;
    motor.windage_loss_W = 10;
    return motor;
}

/// What would be printed on it: line current and power at the shaft at `slip`, and locked rotor.
sim::Nameplate nameplate_of(const MotorParameters& motor, double slip, bool with_power) {
    const plant_models::SinusoidalSupply supply{motor.rated_voltage_V, motor.rated_frequency_Hz, 0,
                                                0};
    const auto connection = run_connection(motor);
    const auto rated = steady_state(motor, supply, connection, slip);
    sim::Nameplate plate;
    plate.voltage_V = motor.rated_voltage_V;
    plate.frequency_Hz = motor.rated_frequency_Hz;
    plate.rated_load_current_A = std::abs(rated.line_current_A);
    plate.locked_rotor_current_A = std::abs(locked_rotor(motor, supply, connection).line_current_A);
    plate.run_capacitor_uF = motor.run_capacitor_uF;
    if (with_power) {
        plate.shaft_power_W = rated.shaft_power_W;
    } else {
        plate.cooling_capacity_W = 3.0 * rated.shaft_power_W;
    }
    return plate;
}

void expect_room_for(const MotorParameters& truth, double slip, bool with_power) {
    const sim::Nameplate plate = nameplate_of(truth, slip, with_power);
    ASSERT_EQ(plate.inconsistency(), "");
    const sim::NameplateFit fit = sim::fit_nameplate(plate);
    EXPECT_TRUE(meets_printed_figures(fit.motor_class, fit.fitted.figures));
    // The test is about a motor that belongs to the class.
    sim::OperatingPoint point = fit.fitted.point;
    point.rated_slip = slip;
    const sim::Candidate known = sim::with_figures(truth, point);
    ASSERT_TRUE(is_accepted(fit.motor_class, known));

    std::map<std::string, double> true_values;
    for (const auto& row : MotorParameters::table()) {
        if (const auto* member = std::get_if<double MotorParameters::*>(&row.member)) {
            true_values[std::string(row.key)] = truth.**member;
        }
    }
    true_values["locked_rotor_torque_Nm"] = known.figures.locked_rotor_torque_Nm;
    true_values["locked_rotor_power_factor"] = known.figures.locked_rotor_power_factor;
    true_values["breakdown_torque_Nm"] = known.figures.breakdown_torque_Nm;
    true_values["rated_torque_Nm"] = known.figures.rated_torque_Nm;
    true_values["rated_speed_rpm"] = known.figures.rated_speed_rpm;
    true_values["rated_power_factor"] = known.figures.rated_power_factor;
    true_values["shaft_power_W"] = known.figures.shaft_power_W;
    true_values["efficiency"] = known.figures.efficiency;
    true_values["capacitor_voltage_ratio"] = known.figures.capacitor_voltage_ratio;
    for (const sim::OpenRange& range : fit.open) {
        ASSERT_EQ(true_values.count(std::string(range.name)), 1U) << range.name;
        const double value = true_values.at(std::string(range.name));
        EXPECT_GE(value, range.lowest) << range.name;
        EXPECT_LE(value, range.highest) << range.name;
        EXPECT_GE(range.fitted, range.lowest * (1 - 1e-5)) << range.name;
        EXPECT_LE(range.fitted, range.highest * (1 + 1e-5)) << range.name;
    }
}

TEST(AKnownMotor, LiesInWhatItsNameplateLeavesOpen) {
    expect_room_for(three_kilowatt_motor(), 0.045, true);
    expect_room_for(one_kilowatt_50_Hz_motor(), 0.045, true);
}

TEST(AKnownMotor, LiesInWhatItsCoolingCapacityLeavesOpen) {
    expect_room_for(three_kilowatt_motor(), 0.045, false);
}

TEST(AKnownMotor, LeavesLessOpenTheMoreIsPrinted) {
    const sim::NameplateFit with_power =
        sim::fit_nameplate(nameplate_of(three_kilowatt_motor(), 0.045, true));
    const sim::NameplateFit without =
        sim::fit_nameplate(nameplate_of(three_kilowatt_motor(), 0.045, false));
    ASSERT_EQ(with_power.open.size(), without.open.size());
    for (std::size_t k = 0; k < without.open.size(); ++k) {
        if (without.open[k].name == "shaft_power_W") {
            EXPECT_LT(with_power.open[k].highest - with_power.open[k].lowest,
                      0.2 * (without.open[k].highest - without.open[k].lowest));
        }
    }
}

}  // namespace
