// The motor with R and S exchanged is the same machine seen from the other winding.
#include "plant_models/motor/swapped_windings.hpp"

#include <gtest/gtest.h>

#include "plant_models/motor/motor_equations.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::MotorEquations;
using plant_models::MotorParameters;
using plant_models::with_swapped_windings;
using Currents = plant_models::WindingCurrents<double>;

constexpr double ratio = 1.35;  // of the motor below

MotorParameters motor() {
    return support::lossy_motor();
}

/// The same currents, named and referred as the swapped motor does.
Currents seen_from_the_other(const Currents& i) {
    return {i.aux_A, i.main_A, i.rotor_aux_A / ratio, -i.rotor_main_A / ratio};
}

Currents any(support::RandomNumbers& random) {
    return {random.between(-90, 90), random.between(-40, 40), random.between(-90, 90),
            random.between(-90, 90)};
}

class SwappedWindings : public ::testing::Test {
  protected:
    MotorEquations<double> own{motor()};
    MotorEquations<double> swapped{with_swapped_windings(motor())};
    support::RandomNumbers random{11};
};

TEST_F(SwappedWindings, ExchangeTheVoltagesOfTheStatorForAnyCurrentsAndRates) {
    for (int k = 0; k < 200; ++k) {
        const Currents i = any(random);
        const Currents rate = any(random);
        const Currents j = seen_from_the_other(i);
        const Currents rate_j = seen_from_the_other(rate);
        EXPECT_NEAR(swapped.main_voltage_V(j, rate_j, swapped.rated_resistances()),
                    own.aux_voltage_V(i, rate, own.rated_resistances()), 1e-9);
        EXPECT_NEAR(swapped.aux_voltage_V(j, rate_j, swapped.rated_resistances()),
                    own.main_voltage_V(i, rate, own.rated_resistances()), 1e-9);
    }
}

TEST_F(SwappedWindings, KeepTheVoltagesOfTheTurningRotorAtZeroTogether) {
    // What remains of each rotor equation, at any speed: the one of the swapped motor's main axis
    // is n times that of the own auxiliary axis, the other is -n times that of the main axis.
    const auto residuals = [](const MotorEquations<double>& m, const Currents& i,
                              const Currents& rate, double speed) {
        const double w = m.pole_pairs * speed;
        return std::make_pair(m.rotor_resistance_ohm * i.rotor_main_A + m.rotor_main_flux(rate) -
                                  w * m.rotor_aux_flux(i),
                              m.rotor_resistance_ohm * i.rotor_aux_A + m.rotor_aux_flux(rate) +
                                  w * m.rotor_main_flux(i));
    };
    for (int k = 0; k < 200; ++k) {
        const Currents i = any(random);
        const Currents rate = any(random);
        const double speed = random.between(-200.0, 200.0);
        const auto [of_main, of_aux] = residuals(own, i, rate, speed);
        const auto [new_main, new_aux] =
            residuals(swapped, seen_from_the_other(i), seen_from_the_other(rate), speed);
        EXPECT_NEAR(new_main, ratio * of_aux, 1e-8);
        EXPECT_NEAR(new_aux, -ratio * of_main, 1e-8);
    }
}

TEST_F(SwappedWindings, KeepTorqueFieldEnergyAndCopperLoss) {
    for (int k = 0; k < 200; ++k) {
        const Currents i = any(random);
        const Currents j = seen_from_the_other(i);
        EXPECT_NEAR(swapped.torque_Nm(j), own.torque_Nm(i), 1e-8);
        EXPECT_NEAR(swapped.stored_energy_J(j), own.stored_energy_J(i), 1e-8);
        EXPECT_NEAR(swapped.copper_loss_W(j, swapped.rated_resistances()),
                    own.copper_loss_W(i, own.rated_resistances()), 1e-6);
    }
}

TEST(WindingsSwappedTwice, AreTheMotorItself) {
    const MotorParameters twice = with_swapped_windings(with_swapped_windings(motor()));
    for (const auto& row : MotorParameters::table()) {
        std::visit(
            [&](auto member) {
                EXPECT_NEAR(static_cast<double>(twice.*member),
                            static_cast<double>(motor().*member), 1e-12)
                    << row.key;
            },
            row.member);
    }
}

}  // namespace
