// The bound on a step against what the motor's currents really do.
#include "plant_models/motor/fastest_mode.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plant_models/motor/winding_inductances.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::fastest_mode_per_s;
using plant_models::MotorParameters;
using plant_models::SeriesImpedance;

/// The largest eigenvalue of R M by power iteration: how fast currents decay without a capacitor.
double fastest_decay_per_s(const MotorParameters& motor) {
    const auto m = plant_models::inverse_inductances(plant_models::winding_inductances(motor, 0.0),
                                                     plant_models::StatorConnection::both_on_line);
    const std::array<double, 4> r = {motor.main_resistance_ohm, motor.aux_resistance_ohm,
                                     motor.rotor_resistance_ohm, motor.rotor_resistance_ohm};
    std::array<double, 4> v = {1.0, 0.7, -0.6, -0.9};
    double rate = 0.0;
    for (int k = 0; k < 300; ++k) {
        std::array<double, 4> next{};
        double largest = 0.0;
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = 0; j < 4; ++j) {
                next[i] += r[i] * m[i][j] * v[j];
            }
            largest = std::max(largest, std::abs(next[i]));
        }
        rate = largest;
        for (std::size_t i = 0; i < 4; ++i) {
            v[i] = next[i] / largest;
        }
    }
    return rate;
}

TEST(FastestMode, IsNeverSlowerThanTheCurrentsDecay) {
    for (const double resistance : {0.1, 1.0, 10.0, 100.0}) {
        for (const double ratio : {0.5, 1.15, 2.0}) {
            MotorParameters motor = support::two_pole_motor();
            motor.main_resistance_ohm *= resistance;
            motor.rotor_resistance_ohm *= resistance;
            motor.turns_ratio = ratio;
            motor.run_capacitor_uF = 0.0;
            const double decay = fastest_decay_per_s(motor);
            EXPECT_GE(fastest_mode_per_s(motor, {}), decay * (1.0 - 1e-9));
            EXPECT_LE(fastest_mode_per_s(motor, {}), 4.0 * decay);
        }
    }
}

TEST(FastestMode, OfASmallCapacitorIsItsSwingAgainstTheAuxiliarysTransientInductance) {
    MotorParameters motor = support::two_pole_motor();
    motor.run_capacitor_uF = 0.5;
    // The other windings as short circuits: rotor leakage, seen by the auxiliary, beside n^2 L_m.
    const double n2 = motor.turns_ratio * motor.turns_ratio;
    const double parallel = motor.magnetizing_reactance_ohm * motor.rotor_leakage_reactance_ohm /
                            (motor.magnetizing_reactance_ohm + motor.rotor_leakage_reactance_ohm);
    const double inductance = (motor.aux_leakage_reactance_ohm + n2 * parallel) /
                              motor.rated_angular_frequency_rad_per_s();
    EXPECT_NEAR(fastest_mode_per_s(motor, {}), 1.0 / std::sqrt(inductance * 0.5e-6),
                1e-6 / std::sqrt(inductance * 0.5e-6));
}

TEST(FastestMode, SeesTheLineInSeries) {
    const MotorParameters motor = support::two_pole_motor();
    EXPECT_GT(fastest_mode_per_s(motor, SeriesImpedance{20.0, 0.0}),
              3.0 * fastest_mode_per_s(motor, {}));
}

}  // namespace
