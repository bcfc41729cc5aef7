#include "plant_models/unit/oil_viscosity.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace {

using plant_models::OilViscosity;

constexpr std::array<OilViscosity::Figures, 4> grades = {
    plant_models::oil_vg_22, plant_models::oil_vg_32, plant_models::oil_vg_46,
    plant_models::oil_vg_68};

TEST(OilViscosity, PassesThroughItsTwoFigures) {
    for (const auto& grade : grades) {
        const OilViscosity oil(grade);
        EXPECT_NEAR(oil.kinematic_mm2_per_s(40.0), grade.at_40_C_mm2_per_s, 1e-9);
        EXPECT_NEAR(oil.kinematic_mm2_per_s(100.0), grade.at_100_C_mm2_per_s, 1e-10);
    }
}

// Three calculations by the same standard that were published with their result (secondary, seen):
// a gear oil 404 / 28 mm2/s is 132.126 at 60 C; 68 at 40 C with 14.85 at 80 C gives 8.8 at 100 C;
// 32 / 5.4 is 8.5 at 80 C.
TEST(OilViscosity, AgreesWithPublishedUsesOfTheStandard) {
    EXPECT_NEAR(OilViscosity({404.0, 28.0}).kinematic_mm2_per_s(60.0), 132.126, 0.001);
    EXPECT_NEAR(OilViscosity({68.0, 8.8}).kinematic_mm2_per_s(80.0), 14.85, 0.03);
    EXPECT_NEAR(OilViscosity({32.0, 5.4}).kinematic_mm2_per_s(80.0), 8.5, 0.05);
}

/// The oil that has these two viscosities at 30 and 100 C.
OilViscosity from_30_and_100_C(double at_30_C, double at_100_C) {
    double low = at_100_C * 1.01;
    double high = at_30_C;
    for (int k = 0; k < 100; ++k) {
        const double middle = 0.5 * (low + high);
        (OilViscosity({middle, at_100_C}).kinematic_mm2_per_s(30.0) < at_30_C ? low : high) =
            middle;
    }
    return OilViscosity({low, at_100_C});
}

// Measured dynamic viscosities of real oils at 30, 60 and 100 C, mPa s: Stachowiak, Batchelor,
// Engineering Tribology, table 2.3 (secondary, seen). Their density is not given: 0.87 g/cm3 is
// taken, which hardly matters to a value between the other two.
TEST(OilViscosity, LiesOnRealOilsBetweenTheirMeasuredPoints) {
    struct Measured {
        double at_30_C, at_60_C, at_100_C;
    };
    constexpr std::array<Measured, 5> oils = {
        {{107, 23.3, 6.4}, {122, 26.3, 7.3}, {171, 31, 7.5}, {250, 50.5, 12.6}, {45, 12, 3.9}}};
    constexpr double density = 0.87;
    for (const auto& oil : oils) {
        const auto line = from_30_and_100_C(oil.at_30_C / density, oil.at_100_C / density);
        EXPECT_NEAR(line.kinematic_mm2_per_s(60.0) * density / oil.at_60_C, 1.0, 0.03);
    }
}

TEST(OilViscosity, DragIsOneWhenWarmAndRisesTowardsTheCold) {
    for (const auto& grade : grades) {
        const OilViscosity oil(grade);
        EXPECT_DOUBLE_EQ(oil.drag_factor(OilViscosity::warm_C), 1.0);
        for (double t = -60.0; t < 149.6; t += 0.37) {
            EXPECT_GT(oil.drag_factor(t), oil.drag_factor(t + 0.37)) << t;
        }
    }
}

TEST(OilViscosity, DragFollowsViscosityNearWarmAndStaysBelowTheLimitInTheCold) {
    const OilViscosity oil(plant_models::oil_vg_32);
    const auto ratio = [&](double t) {
        return oil.kinematic_mm2_per_s(t) / oil.kinematic_mm2_per_s(60.0);
    };
    EXPECT_NEAR(oil.drag_factor(55.0) / ratio(55.0), 1.0, 0.02);
    EXPECT_NEAR(oil.drag_factor(40.0) / ratio(40.0), 1.0, 0.10);
    EXPECT_LT(oil.drag_factor(0.0), 0.5 * ratio(0.0));
    EXPECT_LT(oil.drag_factor(-60.0), OilViscosity::largest_drag_factor);
    EXPECT_GT(oil.drag_factor(-60.0), 0.99 * OilViscosity::largest_drag_factor);
}

TEST(OilViscosity, TableOfTheDragIsTrueToTheEquation) {
    const OilViscosity oil(plant_models::oil_vg_32);
    for (double t = -59.5; t < 150.0; t += 1.0) {
        const double q = oil.kinematic_mm2_per_s(t) / oil.kinematic_mm2_per_s(60.0);
        const double c = 1.0 / (OilViscosity::largest_drag_factor - 1.0);
        EXPECT_NEAR(oil.drag_factor(t) / ((1.0 + c) * q / (1.0 + c * q)), 1.0, 1e-3) << t;
    }
}

TEST(OilViscosity, IsHeldBeyondItsTemperatures) {
    const OilViscosity oil(plant_models::oil_vg_68);
    EXPECT_EQ(oil.drag_factor(-200.0), oil.drag_factor(-60.0));
    EXPECT_EQ(oil.drag_factor(1e4), oil.drag_factor(150.0));
    EXPECT_EQ(oil.kinematic_mm2_per_s(1e4), oil.kinematic_mm2_per_s(150.0));
    EXPECT_TRUE(std::isfinite(oil.kinematic_mm2_per_s(-300.0)));
}

TEST(OilViscosity, UnitWithoutAChoiceHasGrade32) {
    const OilViscosity oil(plant_models::oil_vg_32);
    for (const double t : {-20.0, 10.0, 25.3, 60.0, 95.0}) {
        EXPECT_EQ(plant_models::oil_drag_factor(t), oil.drag_factor(t));
    }
}

}  // namespace
