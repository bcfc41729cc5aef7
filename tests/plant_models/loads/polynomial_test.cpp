#include "plant_models/loads/polynomial.hpp"

#include <gtest/gtest.h>

#include "support/machines.hpp"

namespace {

using plant_models::PolynomialLoad;
using plant_models::PolynomialLoadParameters;

constexpr double reference_rad_per_s = 157.07963267948966;  // 1500 r/min

double friction_Nm(double speed_rad_per_s) {
    const PolynomialLoad load(support::fan());
    return load.torque<double>(nullptr, {speed_rad_per_s, 1.0}).opposing_Nm;
}

TEST(PolynomialLoad, TorqueIsConstantPlusSquareOfTheSpeedRatio) {
    EXPECT_DOUBLE_EQ(friction_Nm(0.0), 0.6);
    EXPECT_NEAR(friction_Nm(reference_rad_per_s), 3.0, 1e-12);
    EXPECT_NEAR(friction_Nm(0.5 * reference_rad_per_s), 1.2, 1e-12);
    EXPECT_NEAR(friction_Nm(2.0 * reference_rad_per_s), 10.2, 1e-12);
}

TEST(PolynomialLoad, IsAllFrictionAndTheSameInBothDirections) {
    for (double speed = 0.0; speed < 400.0; speed += 7.0) {
        EXPECT_EQ(friction_Nm(speed), friction_Nm(-speed));
        EXPECT_GE(friction_Nm(speed), 0.0);
        const PolynomialLoad load(support::fan());
        EXPECT_EQ(load.torque<double>(nullptr, {speed, 1.0}).driving_Nm, 0.0);
    }
}

TEST(PolynomialLoad, RestingShaftWithstandsAtLeastWhatItTakesToTurnIt) {
    const PolynomialLoad load(support::fan());
    EXPECT_EQ(load.breakaway_torque_Nm(nullptr, 1.0), 1.5);
    EXPECT_GE(load.breakaway_torque_Nm(nullptr, 1.0), friction_Nm(0.0));
}

TEST(PolynomialLoad, StaticFrictionIsNeverBelowTheSlidingOne) {
    PolynomialLoadParameters parameters = support::fan();
    parameters.breakaway_torque_Nm = 0.0;
    const PolynomialLoad load(parameters);
    EXPECT_EQ(load.breakaway_torque_Nm(nullptr, 1.0), parameters.constant_torque_Nm);
}

}  // namespace
