#include "plant_models/loads/friction.hpp"

#include <gtest/gtest.h>

namespace {

using namespace plant_models;

TEST(ScaleFriction, TightensWhatSticksAndDragsAndNothingElse) {
    PolynomialLoadParameters plain;
    plain.breakaway_torque_Nm = 1.0;
    plain.constant_torque_Nm = 0.5;
    plain.square_torque_Nm = 4.0;
    AnyLoadParameters any = plain;
    scale_friction(any, 1.5);
    const auto& load = std::get<PolynomialLoadParameters>(any);
    EXPECT_DOUBLE_EQ(load.breakaway_torque_Nm, 1.5);
    EXPECT_DOUBLE_EQ(load.constant_torque_Nm, 0.75);
    EXPECT_DOUBLE_EQ(load.square_torque_Nm, 4.0);

    ScrollParameters scroll;
    scroll.breakaway_torque_Nm = 1.0;
    scroll.bearing_torque_Nm = 0.2;
    scroll.oil_torque_Nm = 0.3;
    any = scroll;
    scale_friction(any, 1.5);
    const auto& compressor = std::get<ScrollParameters>(any);
    EXPECT_DOUBLE_EQ(compressor.breakaway_torque_Nm, 1.5);
    EXPECT_DOUBLE_EQ(compressor.bearing_torque_Nm, 1.5 * 0.2);
    EXPECT_DOUBLE_EQ(compressor.oil_torque_Nm, 0.3);
}

}  // namespace
