#include "plant_models/motor/winding_inductances.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::inverse_inductances;
using plant_models::MotorParameters;
using plant_models::StatorConnection;
using plant_models::winding_inductances;
using plant_models::WindingMatrix;

using Currents = std::array<double, 4>;

Currents times(const WindingMatrix& matrix, const Currents& vector) {
    Currents product{};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t k = 0; k < 4; ++k) {
            product[i] += matrix[i][k] * vector[k];
        }
    }
    return product;
}

struct Connection {
    std::string name;
    StatorConnection kind;
    std::vector<Currents> possible;  ///< every current pattern that the connection lets flow
};

const std::vector<Connection> connections = {
    {"both",
     StatorConnection::both_on_line,
     {{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}},
    {"main", StatorConnection::main_on_line, {{1, 0, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}},
    {"aux", StatorConnection::auxiliary_on_line, {{0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}},
    {"loop", StatorConnection::loop, {{1, -1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}},
    {"open", StatorConnection::open, {{0, 0, 1, 0}, {0, 0, 0, 1}}},
};

std::vector<WindingMatrix> machines() {
    std::vector<WindingMatrix> all;
    for (const double series_H : {0.0, 0.15e-3, 5e-3}) {
        all.push_back(winding_inductances(support::two_pole_motor(), series_H));
        all.push_back(winding_inductances(support::lossy_motor(), series_H));
    }
    return all;
}

/// 30, 60 and 25 mH for main, auxiliary and rotor, 20 mH magnetizing, n = 1.5.
MotorParameters round_motor() {
    MotorParameters motor = support::two_pole_motor();
    const double omega = motor.rated_angular_frequency_rad_per_s();
    motor.magnetizing_reactance_ohm = omega * 20e-3;
    motor.main_leakage_reactance_ohm = omega * 10e-3;
    motor.aux_leakage_reactance_ohm = omega * 15e-3;
    motor.rotor_leakage_reactance_ohm = omega * 5e-3;
    motor.turns_ratio = 1.5;
    return motor;
}

TEST(WindingInductances, EntriesAreLeakagePlusMagnetizingWithTheTurnsRatioOncePerWinding) {
    const WindingMatrix L = winding_inductances(round_motor(), 2e-3);
    const WindingMatrix expected = {{{32e-3, 2e-3, 20e-3, 0.0},
                                     {2e-3, 62e-3, 0.0, 30e-3},
                                     {20e-3, 0.0, 25e-3, 0.0},
                                     {0.0, 30e-3, 0.0, 25e-3}}};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t k = 0; k < 4; ++k) {
            EXPECT_NEAR(L[i][k], expected[i][k], 1e-15) << i << ", " << k;
        }
    }
}

// Main axis alone, in mH: [32 20; 20 25], determinant 400, inverse [25 -20; -20 32] / 400 per mH.
TEST(WindingInductances, InverseOfTheMainAxisIsTheOneWorkedOutByHand) {
    const WindingMatrix inverse = inverse_inductances(winding_inductances(round_motor(), 2e-3),
                                                      StatorConnection::main_on_line);
    EXPECT_NEAR(inverse[0][0], 62.5, 1e-10);
    EXPECT_NEAR(inverse[0][2], -50.0, 1e-10);
    EXPECT_NEAR(inverse[2][0], -50.0, 1e-10);
    EXPECT_NEAR(inverse[2][2], 80.0, 1e-10);
    EXPECT_NEAR(inverse[3][3], 40.0, 1e-10);
    EXPECT_EQ(inverse[2][3], 0.0);
}

// The series inductance carries no loop current. On each axis the leakage seen from the stator is
// L - M^2 / L_r: 30 - 16 = 14 mH and 60 - 36 = 24 mH; the loop's is their sum, 38 mH.
TEST(WindingInductances, LoopSeesTheSumOfBothTransientInductancesAndNoSeriesInductance) {
    for (const double series_H : {0.0, 2e-3, 50e-3}) {
        const WindingMatrix inverse = inverse_inductances(
            winding_inductances(round_motor(), series_H), StatorConnection::loop);
        EXPECT_NEAR(inverse[0][0], 1.0 / 38e-3, 1e-9) << series_H;
    }
}

TEST(WindingInductances, InverseTimesMatrixLeavesEveryPossibleCurrentAlone) {
    for (const WindingMatrix& L : machines()) {
        for (const Connection& c : connections) {
            const WindingMatrix inverse = inverse_inductances(L, c.kind);
            for (const Currents& pattern : c.possible) {
                const Currents back = times(inverse, times(L, pattern));
                for (std::size_t k = 0; k < 4; ++k) {
                    EXPECT_NEAR(back[k], pattern[k], 1e-11) << c.name << ", winding " << k;
                }
            }
        }
    }
}

TEST(WindingInductances, WhateverTheVoltagesOnlyPossibleCurrentsChange) {
    support::RandomNumbers random(1);
    for (const WindingMatrix& L : machines()) {
        for (const Connection& c : connections) {
            const WindingMatrix inverse = inverse_inductances(L, c.kind);
            for (int k = 0; k < 50; ++k) {
                Currents voltages;
                for (double& v : voltages) {
                    v = random.between(-400.0, 400.0);
                }
                const Currents rate = times(inverse, voltages);
                if (c.kind == StatorConnection::auxiliary_on_line ||
                    c.kind == StatorConnection::open) {
                    EXPECT_EQ(rate[0], 0.0) << c.name;
                }
                if (c.kind == StatorConnection::main_on_line || c.kind == StatorConnection::open) {
                    EXPECT_EQ(rate[1], 0.0) << c.name;
                }
                if (c.kind == StatorConnection::loop) {
                    EXPECT_EQ(rate[0], -rate[1]) << c.name;
                }
            }
        }
    }
}

TEST(WindingInductances, HeldRowsAreExactlyZeroAndLoopRowsExactlyOpposite) {
    for (const WindingMatrix& L : machines()) {
        for (std::size_t k = 0; k < 4; ++k) {
            const auto entry = [&](StatorConnection kind, std::size_t row) {
                return inverse_inductances(L, kind)[row][k];
            };
            EXPECT_EQ(entry(StatorConnection::main_on_line, 1), 0.0);
            EXPECT_EQ(entry(StatorConnection::auxiliary_on_line, 0), 0.0);
            EXPECT_EQ(entry(StatorConnection::open, 0), 0.0);
            EXPECT_EQ(entry(StatorConnection::open, 1), 0.0);
            EXPECT_EQ(entry(StatorConnection::loop, 0), -entry(StatorConnection::loop, 1));
        }
    }
}

// The right-hand side uses the rows as columns.
TEST(WindingInductances, MatrixAndEveryInverseAreSymmetric) {
    for (const WindingMatrix& L : machines()) {
        for (const Connection& c : connections) {
            const WindingMatrix inverse = inverse_inductances(L, c.kind);
            double largest = 0.0;
            for (std::size_t i = 0; i < 4; ++i) {
                largest = std::max(largest, std::abs(inverse[i][i]));
            }
            for (std::size_t i = 0; i < 4; ++i) {
                for (std::size_t k = 0; k < i; ++k) {
                    EXPECT_EQ(L[i][k], L[k][i]);
                    EXPECT_NEAR(inverse[i][k], inverse[k][i], 1e-13 * largest) << c.name;
                }
            }
        }
    }
}

}  // namespace
