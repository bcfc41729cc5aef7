#include "plant_models/motor/motor_equations.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::MotorEquations;
using Currents = plant_models::WindingCurrents<double>;

Currents moved(const Currents& i, const Currents& rate, double h) {
    return {i.main_A + h * rate.main_A, i.aux_A + h * rate.aux_A,
            i.rotor_main_A + h * rate.rotor_main_A, i.rotor_aux_A + h * rate.rotor_aux_A};
}

// Only one torque closes this balance; a wrong sign or factor shows at once.
TEST(MotorEquations, ElectricalInputIsCopperLossPlusStoredEnergyPlusShaftPower) {
    support::RandomNumbers random(2);
    for (const auto& parameters : {support::two_pole_motor(), support::lossy_motor()}) {
        const MotorEquations<double> motor(parameters);
        for (int k = 0; k < 500; ++k) {
            const auto ampere = [&] { return random.between(-80.0, 80.0); };
            const Currents i = {ampere(), ampere(), ampere(), ampere()};
            const double speed = random.between(-400.0, 400.0);
            Currents rate = {random.between(-5e4, 5e4), random.between(-5e4, 5e4), 0.0, 0.0};
            // The cage is short-circuited: its flux changes by its drop and by rotation.
            const double electrical = parameters.poles / 2.0 * speed;
            const double r = parameters.rotor_resistance_ohm;
            const double flux_main_rate =
                -r * i.rotor_main_A + electrical * motor.rotor_aux_flux(i);
            const double flux_aux_rate = -r * i.rotor_aux_A - electrical * motor.rotor_main_flux(i);
            const double omega = parameters.rated_angular_frequency_rad_per_s();
            const double Lm = parameters.magnetizing_reactance_ohm / omega;
            const double Lr = Lm + parameters.rotor_leakage_reactance_ohm / omega;
            rate.rotor_main_A = (flux_main_rate - Lm * rate.main_A) / Lr;
            rate.rotor_aux_A = (flux_aux_rate - parameters.turns_ratio * Lm * rate.aux_A) / Lr;

            const auto resistances = motor.rated_resistances();
            const double input = motor.main_voltage_V(i, rate, resistances) * i.main_A +
                                 motor.aux_voltage_V(i, rate, resistances) * i.aux_A;
            // Stored energy is quadratic: the central difference is exact.
            const double h = 1e-4;
            const double stored = (motor.stored_energy_J(moved(i, rate, h)) -
                                   motor.stored_energy_J(moved(i, rate, -h))) /
                                  (2.0 * h);
            const double shaft = motor.torque_Nm(i) * speed;
            const double size = std::abs(input) + std::abs(stored) + std::abs(shaft);
            EXPECT_NEAR(input, motor.copper_loss_W(i, resistances) + stored + shaft, 1e-9 * size);
        }
    }
}

TEST(MotorEquations, TorqueNeedsCurrentOnBothSidesOfTheAirGap) {
    const MotorEquations<double> motor(support::two_pole_motor());
    EXPECT_EQ(motor.torque_Nm({30.0, -12.0, 0.0, 0.0}), 0.0);
    EXPECT_EQ(motor.torque_Nm({0.0, 0.0, 25.0, -40.0}), 0.0);
    // Currents on the same axis do not turn the rotor.
    EXPECT_EQ(motor.torque_Nm({30.0, 0.0, 25.0, 0.0}), 0.0);
    EXPECT_EQ(motor.torque_Nm({0.0, 30.0, 0.0, 25.0}), 0.0);
}

TEST(MotorEquations, TorqueHasTheSizeAndSignWorkedOutByHand) {
    auto parameters = support::lossy_motor();  // two pole pairs, n = 1.35
    parameters.magnetizing_reactance_ohm = parameters.rated_angular_frequency_rad_per_s() * 0.25;
    const MotorEquations<double> motor(parameters);
    EXPECT_NEAR(motor.torque_Nm({4.0, 0.0, 0.0, 3.0}), 6.0, 1e-12);
    EXPECT_NEAR(motor.torque_Nm({0.0, 4.0, 3.0, 0.0}), -8.1, 1e-12);
    EXPECT_NEAR(motor.torque_Nm({-4.0, 0.0, 0.0, 3.0}), -6.0, 1e-12);
    EXPECT_NEAR(motor.torque_Nm({0.0, -4.0, 3.0, 0.0}), 8.1, 1e-12);
}

TEST(MotorEquations, CopperLossIsEachResistanceTimesItsCurrentSquared) {
    const MotorEquations<double> motor(support::lossy_motor());
    EXPECT_NEAR(motor.copper_loss_W({2.0, 0.0, 0.0, 0.0}, motor.rated_resistances()), 4.0 * 2.4,
                1e-12);
    EXPECT_NEAR(motor.copper_loss_W({0.0, -2.0, 0.0, 0.0}, motor.rated_resistances()), 4.0 * 5.2,
                1e-12);
    EXPECT_NEAR(motor.copper_loss_W({0.0, 0.0, 2.0, 0.0}, motor.rated_resistances()), 4.0 * 2.9,
                1e-12);
    EXPECT_NEAR(motor.copper_loss_W({0.0, 0.0, 0.0, -2.0}, motor.rated_resistances()), 4.0 * 2.9,
                1e-12);
}

TEST(MotorEquations, FieldEnergyIsNeverNegative) {
    support::RandomNumbers random(3);
    const MotorEquations<double> motor(support::two_pole_motor());
    for (int k = 0; k < 2000; ++k) {
        const auto ampere = [&] { return random.between(-80.0, 80.0); };
        const Currents i = {ampere(), ampere(), ampere(), ampere()};
        EXPECT_GT(motor.stored_energy_J(i), 0.0);
        // Nor when the rotor all but cancels the field.
        EXPECT_GT(motor.stored_energy_J({i.main_A, i.aux_A, -i.main_A, -1.15 * i.aux_A}), 0.0);
    }
}

TEST(MotorParameters, SynchronousSpeedFollowsPolesAndFrequency) {
    auto motor = support::two_pole_motor();
    EXPECT_NEAR(motor.synchronous_speed_rad_per_s(60.0), 376.99111843, 1e-7);
    motor.poles = 4;
    EXPECT_NEAR(motor.synchronous_speed_rad_per_s(50.0), 157.07963268, 1e-7);
    EXPECT_NEAR(motor.rated_angular_frequency_rad_per_s(), 376.99111843, 1e-7);
}

}  // namespace
