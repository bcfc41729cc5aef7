// The figures of a motor against a textbook machine and against a plain search of its curve.
#include "sim/fitting/motor_figures.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"

namespace {

using plant_models::MotorParameters;

/// A. E. Fitzgerald, C. Kingsley, S. D. Umans, "Electric Machinery", 6th ed., example 9.5 (seen,
/// re-run), in conventional form (computed). Its rotational loss is left out of the parameters.
MotorParameters textbook_motor() {
    MotorParameters motor;
    motor.poles = 2;
    motor.rated_voltage_V = 230;
    motor.rated_frequency_Hz = 60;
    motor.main_resistance_ohm = 0.58;
    motor.main_leakage_reactance_ohm = 2.65305;
    motor.aux_resistance_ohm = 3.37;
    motor.aux_leakage_reactance_ohm = 7.61354;
    motor.turns_ratio = 1.545918;
    motor.rotor_resistance_ohm = 0.5885;
    motor.rotor_leakage_reactance_ohm = 0;
    motor.magnetizing_reactance_ohm = 27.73243;
    motor.run_capacitor_uF = 35;
    return motor;
}

TEST(MotorFigures, AreThoseOfTheTextbookMotor) {
    const sim::OperatingPoint at_3500_rpm{100.0 / 3600.0, 0.0, 7000.0};
    const sim::MotorFigures figures = sim::figures_of(textbook_motor(), at_3500_rpm);
    // Seen: 18.5 A, 394 V over the capacitor, 9.75 N m. Computed: the rest.
    EXPECT_NEAR(figures.rated_load_current_A, 18.5, 0.1);
    EXPECT_NEAR(figures.capacitor_voltage_ratio, 394.0 / 230.0, 0.005);
    EXPECT_NEAR(figures.rated_torque_Nm, 9.75, 0.02);
    EXPECT_NEAR(figures.rated_speed_rpm, 3500.0, 1e-6);
    EXPECT_NEAR(figures.locked_rotor_torque_Nm, 0.596, 0.001);
    EXPECT_NEAR(figures.locked_rotor_current_A, 76.06, 0.01);
    EXPECT_NEAR(figures.locked_rotor_power_factor, 0.420, 0.001);
    EXPECT_NEAR(figures.breakdown_torque_Nm, 18.54, 0.01);
    EXPECT_NEAR(figures.breakdown_ratio, 18.54 / 9.75, 0.005);
    EXPECT_NEAR(figures.cooling_ratio, 7000.0 / figures.shaft_power_W, 1e-9);
}

TEST(MotorFigures, GiveTheTorqueAtTheShaft) {
    MotorParameters motor = textbook_motor();
    const double without_Nm = sim::figures_of(motor, {0.03, 0, 0}).rated_torque_Nm;
    motor.friction_loss_W = 40;
    const sim::MotorFigures figures = sim::figures_of(motor, {0.03, 0, 0});
    EXPECT_NEAR(without_Nm - figures.rated_torque_Nm, 40.0 / (120.0 * plant_models::pi), 1e-9);
    EXPECT_NEAR(figures.breakdown_torque_Nm, 18.54 - 0.106, 0.01);
    EXPECT_EQ(figures.cooling_ratio, 0.0);
}

TEST(MotorFigures, HaveTheBreakdownTorqueOfTheCurve) {
    for (const double capacitor_uF : {20.0, 35.0, 80.0}) {
        MotorParameters motor = textbook_motor();
        motor.run_capacitor_uF = capacitor_uF;
        motor.rotor_resistance_ohm = 0.2 + 0.02 * capacitor_uF;
        double largest_Nm = 0.0;
        for (const auto& point : plant_models::torque_speed_curve(
                 motor, {230, 60, 0, 0}, plant_models::run_connection(motor), 20001)) {
            largest_Nm = std::max(largest_Nm, point.torque_Nm);
        }
        EXPECT_NEAR(sim::figures_of(motor, {0.03, 0, 0}).breakdown_torque_Nm, largest_Nm,
                    1e-5 * largest_Nm);
    }
}

TEST(MotorFigures, WithoutACapacitorStartOnTheThermistorAndRunWithoutIt) {
    MotorParameters motor = textbook_motor();
    motor.run_capacitor_uF = 0;
    const sim::MotorFigures figures = sim::figures_of(motor, {0.03, 10.0, 0});
    // Two windings of a locked rotor do not see each other: each has its own impedance.
    const plant_models::SinusoidalSupply supply{230, 60, 0, 0};
    const auto main_alone = locked_rotor(motor, supply, {});
    EXPECT_GT(figures.locked_rotor_current_A, std::abs(main_alone.line_current_A));
    EXPECT_GT(figures.locked_rotor_torque_Nm, 1.0);
    EXPECT_LT(sim::figures_of(motor, {0.03, 1000.0, 0}).locked_rotor_torque_Nm, 0.5);
    EXPECT_EQ(figures.capacitor_voltage_ratio, 0.0);
    EXPECT_DOUBLE_EQ(figures.rated_load_current_A,
                     std::abs(steady_state(motor, supply, {}, 0.03).line_current_A));
}

}  // namespace
