// Refrigerant and gas torque against figures from outside of the project.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/loads/rolling_piston.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/refrigerant/cooling_rating.hpp"
#include "plant_models/refrigerant/saturation.hpp"

namespace {

using plant_models::Gas;
using plant_models::gas_named;
using plant_models::pi;

struct SaturationPoint {
    const char* gas;
    double temperature_C;
    double pressure_kPa;
};

// Computed independently of this project from the equations of state of Lemmon (R410A), Int. J.
// Thermophysics 24, 2003, and of Kamei et al. (R22), Int. J. Thermophysics 16, 1995; they agree
// with a published pressure-temperature chart. The R410A figures lie 0.3 % above ours: they are
// nearer to the bubble point, ours is the dew point.
constexpr std::array<SaturationPoint, 12> chart = {{{"R410A", 5.0, 936.0},
                                                    {"R410A", 10.0, 1088.0},
                                                    {"R410A", 25.0, 1657.0},
                                                    {"R410A", 35.0, 2145.0},
                                                    {"R410A", 45.0, 2734.0},
                                                    {"R410A", 55.0, 3440.0},
                                                    {"R22", 5.0, 584.0},
                                                    {"R22", 10.0, 681.0},
                                                    {"R22", 25.0, 1044.0},
                                                    {"R22", 35.0, 1355.0},
                                                    {"R22", 45.0, 1729.0},
                                                    {"R22", 55.0, 2175.0}}};

TEST(PublishedRefrigerant, SaturationPressuresOfR410AAndR22AgreeWithinHalfAPercent) {
    for (const auto& point : chart) {
        EXPECT_NEAR(saturation_pressure_kPa(gas_named(point.gas), point.temperature_C),
                    point.pressure_kPa, 0.005 * point.pressure_kPa)
            << point.gas << ' ' << point.temperature_C;
    }
}

// Normal boiling points, ASHRAE Handbook Fundamentals, refrigerant properties (memory). R410A: dew
// point.
TEST(PublishedRefrigerant, BoilingPointsAtOneAtmosphereAgreeWithinThreeTenthsOfAKelvin) {
    const auto boiling_C = [](const char* gas) {
        return saturation_temperature_C(gas_named(gas), 101.325);
    };
    EXPECT_NEAR(boiling_C("R22"), -40.8, 0.3);
    EXPECT_NEAR(boiling_C("R134a"), -26.1, 0.3);
    EXPECT_NEAR(boiling_C("R290"), -42.1, 0.3);
    // R32 (-51.7 C) and R410A (-51.4 C) boil below the range of the fit, and are held at its bound.
    EXPECT_EQ(boiling_C("R32"), -45.0);
    EXPECT_EQ(boiling_C("R410A"), -45.0);
}

// Computed from the equations of state that plant_models/refrigerant/gas.cpp names (computed): they
// check our short fit, not the equations.
TEST(PublishedRefrigerant, SaturationPressuresOfTheOtherGasesAt25CAgreeWithinHalfAPercent) {
    EXPECT_NEAR(saturation_pressure_kPa(gas_named("R134a"), 25.0), 665.4, 3.3);
    EXPECT_NEAR(saturation_pressure_kPa(gas_named("R290"), 25.0), 952.1, 4.8);
    EXPECT_NEAR(saturation_pressure_kPa(gas_named("R32"), 25.0), 1689.6, 8.4);
}

// Enthalpy differences at 7.2 C, kJ/kg, computed from the same equations of state (computed). Ours
// comes another way: from the slope of the pressure and a short form of the density.
TEST(PublishedRefrigerant, HeatsOfEvaporationAt7CAgreeWithinTwoPercent) {
    const auto heat = [](const char* gas) {
        return 1e-3 * evaporation_heat_J_per_kg(gas_named(gas), 7.2);
    };
    EXPECT_NEAR(heat("R410A"), 212.3, 0.02 * 212.3);
    EXPECT_NEAR(heat("R22"), 199.1, 0.02 * 199.1);
    EXPECT_NEAR(heat("R134a"), 193.0, 0.02 * 193.0);
    EXPECT_NEAR(heat("R290"), 364.5, 0.02 * 364.5);
    EXPECT_NEAR(heat("R32"), 303.7, 0.02 * 303.7);
}

struct TonOfCooling {
    const char* gas;
    double exponent;
    double displacement_cm3;
    double torque_Nm;
};

// Per ton (3517 W) at 7.2 / 54.4 C and 3500 r/min; computed independently of this project from the
// same equations of state as the chart.
constexpr std::array<TonOfCooling, 2> tons = {
    {{"R410A", 1.07, 10.7, 2.16}, {"R22", 1.10, 15.2, 1.99}}};

TEST(PublishedRefrigerant, DisplacementAndTorquePerTonAgreeWithinOnePercent) {
    for (const auto& ton : tons) {
        const Gas& gas = gas_named(ton.gas);
        EXPECT_NEAR(gas.isentropic_exponent, ton.exponent, 0.0051) << ton.gas;
        const double displacement = displacement_cm3(gas, {3517.0, 7.2, 54.4, 3500.0});
        EXPECT_NEAR(displacement, ton.displacement_cm3, 0.01 * ton.displacement_cm3) << ton.gas;
        const double work =
            isentropic_work_J(gas, 1e-6 * displacement, saturation_pressure_kPa(gas, 7.2),
                              saturation_pressure_kPa(gas, 54.4));
        EXPECT_NEAR(work / (2.0 * pi), ton.torque_Nm, 0.01 * ton.torque_Nm) << ton.gas;
    }
}

struct Shape {
    double peak_over_mean;
    double mean_Nm;
};

/// Turns the load by small exact steps, acting on its events as they pass.
template <class Load, class Parameters>
Shape torque_shape(Parameters parameters, double suction_kPa, double discharge_kPa) {
    parameters.displacement_cm3 = 10.0;
    parameters.reference_speed_rpm = 3500.0;
    Load load(parameters, {}, {});
    auto x = load.initial_state();
    x[Load::first_circuit_state] = suction_kPa;
    x[Load::first_circuit_state + 1] = discharge_kPa;
    const plant_models::LoadMotion<double> motion{366.5, 1.0};
    const int steps = 20000;
    double sum = 0.0;
    double peak = 0.0;
    for (int k = 0; k < 3 * steps; ++k) {
        x[Load::crank_angle] += 2.0 * pi / steps;
        std::array<double, Load::guard_count> guards{};
        load.guards(x.data(), motion, guards.data());
        for (std::size_t g = 0; g < Load::guard_count; ++g) {
            if (!Load::guard_is_kink(g) && guards[g] < 0.0) {
                load.on_guard(g, x.data());
            }
        }
        if (k >= 2 * steps) {
            const double torque = load.torque(x.data(), motion).driving_Nm;
            sum += torque;
            peak = std::max(peak, torque);
        }
    }
    return {peak * steps / sum, sum / steps};
}

// Ideal torque shapes, peak over mean, computed independently of this project: single
// reciprocating cylinder 5.4 at pressure ratio 2.5 to 6.3 at 3.4. The computation does not say with
// what clearance and rod it was made; ours has 4 % and 4, the defaults (without clearance and with
// an endless rod the peaks are 4.9 and 5.5).
TEST(PublishedTorqueShape, ReciprocatingCylinderPeaksAtFiveToSixTimesItsMean) {
    const plant_models::ReciprocatingParameters single;
    const auto low = torque_shape<plant_models::Reciprocating>(single, 1000.0, 2500.0);
    const auto high = torque_shape<plant_models::Reciprocating>(single, 1000.0, 3400.0);
    EXPECT_NEAR(low.peak_over_mean, 5.4, 0.02 * 5.4);
    EXPECT_NEAR(high.peak_over_mean, 6.3, 0.02 * 6.3);
}

// As above: one rolling piston 3.1 to 3.5, two at 180 degrees 1.6 to 1.7. Nothing is said of the
// radii either; a thin crescent, radius ratio 0.98, comes within 3 %. The default of 0.85, the
// shape that is built, has 2.9 to 3.2 and 1.5 to 1.6.
TEST(PublishedTorqueShape, RollingPistonPeaksAtThreeTimesItsMeanAndTwinsAtLessThanTwice) {
    plant_models::RollingPistonParameters rotary;
    rotary.radius_ratio = 0.98;
    const auto low = torque_shape<plant_models::RollingPiston>(rotary, 1000.0, 2500.0);
    const auto high = torque_shape<plant_models::RollingPiston>(rotary, 1000.0, 3400.0);
    EXPECT_NEAR(low.peak_over_mean, 3.1, 0.02 * 3.1);
    EXPECT_NEAR(high.peak_over_mean, 3.5, 0.02 * 3.5);
    rotary.cylinders = 2;
    const auto twin_low = torque_shape<plant_models::RollingPiston>(rotary, 1000.0, 2500.0);
    const auto twin_high = torque_shape<plant_models::RollingPiston>(rotary, 1000.0, 3400.0);
    EXPECT_NEAR(twin_low.peak_over_mean, 1.6, 0.03 * 1.6);
    EXPECT_NEAR(twin_high.peak_over_mean, 1.7, 0.02 * 1.7);
}

// Mean torque of a ton of R410A, from the crank-angle model rather than from the formula.
TEST(PublishedTorqueShape, MeanTorqueOfATonIsThatOfTheTable) {
    const Gas& gas = gas_named("R410A");
    plant_models::ReciprocatingParameters no_clearance;
    no_clearance.clearance_percent = 0.1;
    const auto shape = torque_shape<plant_models::Reciprocating>(
        no_clearance, saturation_pressure_kPa(gas, 7.2), saturation_pressure_kPa(gas, 54.4));
    EXPECT_NEAR(shape.mean_Nm * 10.7 / 10.0, 2.16, 0.01 * 2.16);
}

}  // namespace
