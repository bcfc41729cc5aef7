#include "plant_models/loads/rolling_piston.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "support/turned_load.hpp"

namespace {

using plant_models::pi;
using plant_models::RefrigerantParameters;
using plant_models::RollingPiston;
using plant_models::RollingPistonParameters;
using plant_models::RollingPistonShape;

using Turned = support::TurnedLoad<RollingPiston>;
constexpr double never_s = 1e15;
constexpr double turn = 2.0 * pi;
constexpr double speed = 360.0;
/// The flow begins with a jump at a valve's opening: its error is in proportion to the step.
constexpr double fine_rad = 0.0004;

RollingPistonParameters rotary(int cylinders = 1) {
    RollingPistonParameters p;
    p.cylinders = cylinders;
    p.displacement_cm3 = 32.0;
    p.leak_s = never_s;
    p.breakaway_torque_Nm = 0.5;
    p.bearing_torque_Nm = 0.3;
    p.oil_torque_Nm = 0.4;
    p.reference_speed_rpm = 3450.0;
    return p;
}

RollingPiston load(const RollingPistonParameters& parameters, double rest_s = 600.0) {
    plant_models::Conditions conditions;
    conditions.rest_s = rest_s;
    return RollingPiston(parameters, RefrigerantParameters(), conditions);
}

Turned settled(const RollingPistonParameters& parameters, double suction_kPa, double discharge_kPa,
               double direction = 1.0) {
    Turned turned(load(parameters));
    turned.pressures_held = true;
    turned.set_pressures(suction_kPa, discharge_kPa);
    turned.turn(direction * 2.0 * turn, speed);
    turned.work_J = turned.pumped_kg = 0.0;
    return turned;
}

double chamber_kPa(const Turned& turned, std::size_t k = 0) {
    return turned.load.channels(turned.x.data())[3 + k];
}

/// Area between cylinder and piston from the vane to the contact, by rays from the cylinder's
/// centre: a count of area, not a formula for it. Radius of the cylinder 1.
double area_behind(double angle_rad, double a, int rays = 20000) {
    const double e = 1.0 - a;
    double area = 0.0;
    for (int k = 0; k < rays; ++k) {
        // The piston's centre stands at the contact's angle.
        const double from_contact = angle_rad * ((k + 0.5) / rays) - angle_rad;
        const double along = e * std::cos(from_contact);
        const double across = e * std::sin(from_contact);
        const double surface = along + std::sqrt(a * a - across * across);
        area += 0.5 * (1.0 - surface * surface) * angle_rad / rays;
    }
    return area;
}

TEST(RollingPistonShape, VolumeBehindTheContactIsTheAreaBetweenTheCircles) {
    for (const double a : {0.7, 0.85, 0.93}) {
        const RollingPistonShape shape(a);
        for (double angle = 0.3; angle < turn; angle += 0.7) {
            const double expected = area_behind(angle, a) / (pi * (1.0 - a * a));
            EXPECT_NEAR(shape.behind(angle).share, expected, 1e-7) << a << ' ' << angle;
        }
        EXPECT_NEAR(shape.behind(0.0).share, 0.0, 1e-15);
        EXPECT_NEAR(shape.behind(turn).share, 1.0, 1e-14);
    }
}

TEST(RollingPistonShape, SlopeIsTheDerivativeOfTheVolumeAndZeroAtTheVane) {
    const RollingPistonShape shape(0.82);
    for (double angle = 0.05; angle < turn; angle += 0.31) {
        const double difference =
            (shape.behind(angle + 1e-4).share - shape.behind(angle - 1e-4).share) / 2e-4;
        EXPECT_NEAR(shape.behind(angle).slope, difference, 1e-8);
    }
    EXPECT_NEAR(shape.behind(0.0).slope, 0.0, 1e-15);
    EXPECT_NEAR(shape.behind(turn).slope, 0.0, 1e-15);
}

TEST(RollingPiston, WorkOfATurnIsThatOfTheChargeClosedInAtThePort) {
    for (const int cylinders : {1, 2}) {
        for (const double clearance_percent : {0.1, 1.0, 5.0}) {
            RollingPistonParameters p = rotary(cylinders);
            p.clearance_percent = clearance_percent;
            Turned turned = settled(p, 1000.0, 3300.0);
            turned.turn(3.0 * turn, speed);
            const double n = turned.load.circuit().gas().isentropic_exponent;
            const double c = 0.01 * clearance_percent;
            const double port = plant_models::degrees_to_radians(25.0);
            const double trapped = 1.0 + c - RollingPistonShape(0.85).behind(port).share;
            // Compression and pushing out, but for what stays in the clearance.
            const double kPa =
                n / (n - 1.0) * 1000.0 * trapped * (std::pow(3.3, (n - 1.0) / n) - 1.0) -
                (3300.0 - 1000.0) * c;
            const double expected = 3.0 * 32e-3 * kPa;
            EXPECT_NEAR(turned.work_J, expected, 1e-5 * expected)
                << cylinders << ' ' << clearance_percent;
        }
    }
}

TEST(RollingPiston, WorkIsTheAreaOfTheIndicatorDiagram) {
    Turned turned = settled(rotary(), 600.0, 2100.0);
    const double start = turned.angle_rad();
    double area = 0.0;
    double volume = 0.0;
    double pressure = 0.0;
    for (int k = 0; k <= 3000; ++k) {
        const double angle = std::fmod(turned.angle_rad(), turn);
        const double now = area_behind(angle, 0.85, 2000) / (pi * (1.0 - 0.85 * 0.85));
        const double p_now = chamber_kPa(turned);
        if (k > 0 && now > volume) {  // the turn's end, where the volume behind begins anew
            area += (0.5 * (p_now + pressure) - 600.0) * (now - volume);
        }
        volume = now;
        pressure = p_now;
        turned.turn(start + (k + 1) * turn / 3000.0 - turned.angle_rad(), speed);
    }
    const double indicated_J = 1e3 * 32e-6 * area;
    EXPECT_NEAR(turned.work_J, indicated_J, 1e-3 * indicated_J);
}

TEST(RollingPiston, FlowIsTheChargeLessWhatTheClearanceKeeps) {
    for (const int cylinders : {1, 2}) {
        RollingPistonParameters p = rotary(cylinders);
        p.clearance_percent = 2.0;
        Turned turned = settled(p, 800.0, 3000.0);
        turned.turn(4.0 * turn, speed, fine_rad);
        const auto& circuit = turned.load.circuit();
        const double trapped = 1.02 - area_behind(plant_models::degrees_to_radians(25.0), 0.85) /
                                          (pi * (1.0 - 0.85 * 0.85));
        const double ratio = std::pow(3000.0 / 800.0, 1.0 / circuit.gas().isentropic_exponent);
        const double expected =
            4.0 * 32e-6 * circuit.suction_density_kg_per_m3(800.0) * (trapped - 0.02 * ratio);
        EXPECT_NEAR(turned.pumped_kg, expected, 1e-4 * expected);
        EXPECT_NEAR(circuit.mean_flow_kg_per_s(800.0, 3000.0), expected / 4.0 * 3450.0 / 60.0,
                    1e-6 * expected);
    }
}

TEST(RollingPiston, TwinsAreTwoOfHalfTheSizeHalfATurnApart) {
    RollingPistonParameters half = rotary();
    half.displacement_cm3 = 16.0;
    Turned first = settled(half, 1000.0, 3000.0);
    half.crank_angle_deg = 210.0;
    Turned second = settled(half, 1000.0, 3000.0);
    Turned both = settled(rotary(2), 1000.0, 3000.0);
    for (int k = 0; k < 60; ++k) {
        EXPECT_NEAR(both.torque_Nm(), first.torque_Nm() + second.torque_Nm(), 1e-6);
        first.turn(0.11, speed);
        second.turn(0.11, speed);
        both.turn(0.11, speed);
    }
}

TEST(RollingPiston, TorqueNeverHelpsForwardsAndIsContinuousThroughTheTurn) {
    Turned turned = settled(rotary(), 1000.0, 3000.0);
    double before = turned.torque_Nm();
    for (int k = 0; k < 3000; ++k) {
        turned.turn(turn / 1000.0, speed);
        EXPECT_GE(turned.torque_Nm(), 0.0);
        EXPECT_NEAR(turned.torque_Nm(), before, 0.3);
        before = turned.torque_Nm();
    }
}

TEST(RollingPiston, DrivenBackwardsItPumpsNothingAndDragsByAVacuum) {
    Turned turned = settled(rotary(), 1000.0, 3000.0, -1.0);
    double lowest = 1e9;
    for (int k = 0; k < 200; ++k) {
        turned.turn(-turn / 100.0, speed);
        lowest = std::min(lowest, chamber_kPa(turned));
        EXPECT_LE(turned.torque_Nm(), 0.0);
        EXPECT_LE(chamber_kPa(turned), 1000.0 + 1e-6);
    }
    EXPECT_EQ(turned.pumped_kg, 0.0);
    EXPECT_GT(turned.work_J, 1.0);
    EXPECT_GT(lowest, 0.0);
    EXPECT_LT(lowest, 30.0);
}

TEST(RollingPiston, RockingWithoutOpeningAnythingIsAGasSpring) {
    Turned turned(load(rotary()));
    turned.pressures_held = true;
    turned.set_pressures(1000.0, 3000.0);
    turned.turn(turn, speed);
    turned.turn(1.5, 30.0);
    const double torque = turned.torque_Nm();
    const double content = turned.x[RollingPiston::content];
    turned.work_J = 0.0;
    turned.events = 0;
    for (int k = 0; k < 20; ++k) {
        for (const double swing : {0.6, -0.6}) {
            turned.load.on_standstill(turned.x.data());
            turned.turn(swing, 30.0);
        }
    }
    EXPECT_GT(torque, 0.1);
    EXPECT_EQ(turned.events, 0);
    EXPECT_NEAR(turned.x[RollingPiston::content], content, 1e-6 * content);
    EXPECT_NEAR(turned.work_J, 0.0, 1e-9);
}

TEST(RollingPiston, RockingAcrossThePortAndTheVaneNeverGivesWork) {
    for (const int cylinders : {1, 2}) {
        Turned turned(load(rotary(cylinders)));
        turned.pressures_held = true;
        turned.set_pressures(1000.0, 2000.0);
        double before = -1e-9;
        for (int k = 0; k < 6; ++k) {
            for (const double swing : {4.0, -7.0, 3.0}) {
                turned.load.on_standstill(turned.x.data());
                turned.turn(swing, 40.0);
            }
            EXPECT_GE(turned.work_J, before);
            before = turned.work_J;
        }
        EXPECT_GT(turned.work_J, 1.0);
    }
}

TEST(RollingPiston, ReversalWhileTheValveIsOpenExpandsFromDischargePressure) {
    Turned turned = settled(rotary(), 1000.0, 2500.0);
    turned.turn(4.9 - std::fmod(turned.angle_rad(), turn), speed);
    ASSERT_DOUBLE_EQ(chamber_kPa(turned), 2500.0);
    turned.load.on_standstill(turned.x.data());
    turned.turn(-0.8, speed);
    const double total = pi * (1.0 - 0.85 * 0.85);
    const double from = 1.01 - area_behind(4.9, 0.85) / total;
    const double to = 1.01 - area_behind(4.1, 0.85) / total;
    const double n = turned.load.circuit().gas().isentropic_exponent;
    EXPECT_NEAR(chamber_kPa(turned), 2500.0 * std::pow(from / to, n), 0.01);
}

TEST(RollingPiston, PortAndVaneAreNoticedInBothDirectionsAndOnlyOnce) {
    for (const int cylinders : {1, 2}) {
        for (const double direction : {1.0, -1.0}) {
            Turned turned(load(rotary(cylinders)));
            turned.turn(direction * 1.0, speed);
            turned.events = 0;
            turned.turn(direction * 5.0 * turn, speed);
            EXPECT_EQ(turned.events, 10 * cylinders) << direction;
        }
    }
}

TEST(RollingPiston, GuardsArePositiveWhileClosedAndOneForAMissingCylinder) {
    Turned turned(load(rotary(), 20.0));
    turned.turn(1.0, speed);
    std::array<double, RollingPiston::guard_count> values{};
    turned.load.guards(turned.x.data(), {speed, 1.0}, values.data());
    EXPECT_GT(values[RollingPiston::port_or_vane], 0.0);
    EXPECT_GT(values[RollingPiston::discharge_valve], 0.0);
    EXPECT_EQ(values[RollingPiston::port_or_vane + 1], 1.0);
    EXPECT_EQ(values[RollingPiston::discharge_valve + 1], 1.0);
    EXPECT_FALSE(RollingPiston::guard_is_kink(RollingPiston::port_or_vane + 1));
    EXPECT_TRUE(RollingPiston::guard_is_kink(RollingPiston::discharge_valve));
    EXPECT_TRUE(RollingPiston::guard_is_kink(RollingPiston::expansion_device));
}

TEST(RollingPiston, EveryStartAngleBeginsAtSuctionPressureWithoutGasTorque) {
    for (int degrees = -350; degrees <= 350; degrees += 10) {
        RollingPistonParameters p = rotary(2);
        p.crank_angle_deg = degrees;
        const RollingPiston l = load(p, 10.0);
        const auto x = l.initial_state();
        const auto values = l.channels(x.data());
        EXPECT_NEAR(values[0], (degrees + 360) % 360, 1e-9);
        EXPECT_NEAR(values[3], values[1], 1e-9 * values[1]);
        EXPECT_NEAR(values[4], values[1], 1e-9 * values[1]);
        EXPECT_NEAR(l.torque(x.data(), {0.0, 1.0}).driving_Nm, 0.0, 1e-9);
        std::array<double, RollingPiston::guard_count> guards{};
        l.guards(x.data(), {0.0, 1.0}, guards.data());
        EXPECT_GE(guards[RollingPiston::port_or_vane], -1e-12) << degrees;
        EXPECT_GE(guards[RollingPiston::port_or_vane + 1], -1e-12) << degrees;
    }
}

TEST(RollingPiston, RestingChamberEndsAtSuctionPressure) {
    RollingPistonParameters p = rotary();
    p.leak_s = 0.5;
    Turned turned(load(p));
    turned.pressures_held = true;
    turned.set_pressures(1000.0, 2500.0);
    turned.turn(4.8, speed);
    turned.rest(0.0);
    EXPECT_NEAR(chamber_kPa(turned), 2500.0, 1e-3);
    turned.rest(0.5);
    EXPECT_NEAR(chamber_kPa(turned), 1000.0 + 1500.0 * std::exp(-1.0), 5.0);
    turned.rest(4.0);
    EXPECT_NEAR(chamber_kPa(turned), 1000.0, 1.0);
}

TEST(RollingPiston, ChargeIsConstantThroughARun) {
    Turned turned(load(rotary(2), 60.0));
    const auto& circuit = turned.load.circuit();
    const auto charge = [&] {
        return circuit.suction_capacitance_kg_per_kPa() * turned.suction_kPa() +
               circuit.discharge_capacitance_kg_per_kPa() * turned.discharge_kPa();
    };
    const double before = charge();
    const double suction_before = turned.suction_kPa();
    turned.turn(200.0 * turn, speed, 0.01);
    EXPECT_NEAR(charge(), before, 1e-11 * before);
    EXPECT_LT(turned.suction_kPa(), suction_before - 50.0);
}

TEST(RollingPiston, RefusesAClearanceThatLeavesNothingToPump) {
    RollingPistonParameters p = rotary();
    RefrigerantParameters freezer;
    freezer.gas = "R134a";
    freezer.evaporating_C = -30.0;
    EXPECT_TRUE(p.inconsistency_with(freezer).empty());
    p.clearance_percent = 20.0;
    EXPECT_EQ(p.inconsistency_with(freezer).substr(0, 17), "clearance_percent");
}

TEST(RollingPiston, FrictionIsThatOfItsBearings) {
    const RollingPiston l = load(rotary());
    const auto x = l.initial_state();
    const double reference = plant_models::rpm_to_rad_per_s(3450.0);
    EXPECT_NEAR(l.torque(x.data(), {reference, 2.0}).opposing_Nm, 1.1, 1e-12);
    EXPECT_DOUBLE_EQ(l.breakaway_torque_Nm(x.data(), 3.0), 0.75);
}

TEST(RollingPiston, BothAtOnceGivesTheSameBitsAsOneAfterTheOther) {
    Turned turned(load(rotary(2), 30.0));
    for (int k = 0; k < 40; ++k) {
        turned.turn(0.31, speed);
        std::array<double, RollingPiston::state_count> one{};
        std::array<double, RollingPiston::state_count> other{};
        turned.load.derivatives(turned.x.data(), one.data(), {speed, 2.0});
        const auto t =
            turned.load.torque_and_derivatives(turned.x.data(), other.data(), {speed, 2.0});
        EXPECT_EQ(one, other);
        EXPECT_EQ(t.driving_Nm, turned.load.torque(turned.x.data(), {speed, 2.0}).driving_Nm);
    }
}

}  // namespace
