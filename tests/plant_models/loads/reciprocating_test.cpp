#include "plant_models/loads/reciprocating.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "plant_models/numeric/units.hpp"
#include "plant_models/refrigerant/cooling_rating.hpp"
#include "support/turned_load.hpp"

namespace {

using plant_models::pi;
using plant_models::Reciprocating;
using plant_models::ReciprocatingParameters;
using plant_models::RefrigerantParameters;

using Turned = support::TurnedLoad<Reciprocating>;
constexpr double never_s = 1e15;  // leak time of a tight cylinder
constexpr double turn = 2.0 * pi;
constexpr double speed = 360.0;
/// The flow begins with a jump at a valve's opening: its error is in proportion to the step.
constexpr double fine_rad = 0.0004;

ReciprocatingParameters piston(int cylinders = 1) {
    ReciprocatingParameters p;
    p.cylinders = cylinders;
    p.displacement_cm3 = 32.0;
    p.ring_leak_s = never_s;
    p.breakaway_torque_Nm = 0.8;
    p.bearing_torque_Nm = 0.3;
    p.oil_torque_Nm = 0.4;
    p.reference_speed_rpm = 3450.0;
    return p;
}

Reciprocating load(const ReciprocatingParameters& parameters, double rest_s = 600.0) {
    plant_models::Conditions conditions;
    conditions.rest_s = rest_s;
    return Reciprocating(parameters, RefrigerantParameters(), conditions);
}

/// Between fixed pressures, after two turns that fill and empty the cylinders.
Turned settled(const ReciprocatingParameters& parameters, double suction_kPa, double discharge_kPa,
               double direction = 1.0) {
    Turned turned(load(parameters));
    turned.pressures_held = true;
    turned.set_pressures(suction_kPa, discharge_kPa);
    turned.turn(direction * 2.0 * turn, speed);
    turned.work_J = turned.pumped_kg = 0.0;
    return turned;
}

/// Piston position 0 .. 1 from the lengths of the mechanism (law of cosines), not from a formula
/// for the slope.
double position(double angle_rad, double rod_ratio) {
    const double reach = std::cos(angle_rad) + std::sqrt(rod_ratio * rod_ratio -
                                                         std::sin(angle_rad) * std::sin(angle_rad));
    return 0.5 * (1.0 + rod_ratio - reach);
}

TEST(Reciprocating, WorkOfATurnIsTheIsentropicWorkOfTheGasDrawnIn) {
    for (const int cylinders : {1, 2}) {
        for (const double clearance_percent : {0.1, 3.0, 8.0}) {
            ReciprocatingParameters p = piston(cylinders);
            p.clearance_percent = clearance_percent;
            Turned turned = settled(p, 1000.0, 3300.0);
            turned.turn(3.0 * turn, speed);
            const auto& gas = turned.load.circuit().gas();
            const double c = 0.01 * clearance_percent;
            const double filling = 1.0 + c - c * std::pow(3.3, 1.0 / gas.isentropic_exponent);
            const double expected = 3.0 * isentropic_work_J(gas, 32e-6 * filling, 1000.0, 3300.0);
            EXPECT_NEAR(turned.work_J, expected, 1e-5 * expected)
                << cylinders << ' ' << clearance_percent;
        }
    }
}

TEST(Reciprocating, WorkIsTheAreaOfTheIndicatorDiagram) {
    ReciprocatingParameters p = piston();
    p.rod_ratio = 3.0;
    Turned turned = settled(p, 600.0, 2100.0);
    const double start = turned.angle_rad();
    double area = 0.0;
    double volume = 0.0;
    double pressure = 0.0;
    for (int k = 0; k <= 6000; ++k) {
        const double now = position(turned.angle_rad(), 3.0);
        const double p_now = turned.load.channels(turned.x.data())[3];
        area -= k == 0 ? 0.0 : 0.5 * (p_now + pressure) * (now - volume);
        volume = now;
        pressure = p_now;
        turned.turn(start + (k + 1) * turn / 6000.0 - turned.angle_rad(), speed);
    }
    const double indicated_J = 1e3 * 32e-6 * area;
    EXPECT_NEAR(turned.work_J, indicated_J, 5e-4 * indicated_J);
}

TEST(Reciprocating, ClearanceReducesTheFlowByTheTextbookVolumetricEfficiency) {
    for (const double clearance_percent : {0.1, 3.0, 10.0}) {
        ReciprocatingParameters p = piston(2);
        p.clearance_percent = clearance_percent;
        Turned turned = settled(p, 800.0, 3000.0);
        turned.turn(4.0 * turn, speed, fine_rad);
        const auto& circuit = turned.load.circuit();
        const double c = 0.01 * clearance_percent;
        const double ratio = std::pow(3000.0 / 800.0, 1.0 / circuit.gas().isentropic_exponent);
        const double expected =
            4.0 * 32e-6 * circuit.suction_density_kg_per_m3(800.0) * (1.0 + c - c * ratio);
        EXPECT_NEAR(turned.pumped_kg, expected, 1e-4 * expected) << clearance_percent;
        EXPECT_NEAR(circuit.mean_flow_kg_per_s(800.0, 3000.0),
                    expected / 4.0 * p.reference_speed_rpm / 60.0, 1e-9);
    }
}

TEST(Reciprocating, PumpsTheSameTurningBackwards) {
    for (const int cylinders : {1, 2}) {
        Turned forward = settled(piston(cylinders), 1000.0, 3000.0);
        Turned backward = settled(piston(cylinders), 1000.0, 3000.0, -1.0);
        forward.turn(2.0 * turn, speed, fine_rad);
        backward.turn(-2.0 * turn, speed, fine_rad);
        EXPECT_NEAR(backward.work_J, forward.work_J, 1e-8 * forward.work_J);
        EXPECT_NEAR(backward.pumped_kg, forward.pumped_kg, 1e-4 * forward.pumped_kg);
    }
}

TEST(Reciprocating, TorqueBackwardsIsTheMirrorImageOfTorqueForwards) {
    Turned forward = settled(piston(), 1000.0, 3000.0);
    Turned backward = settled(piston(), 1000.0, 3000.0, -1.0);
    for (int k = 0; k < 60; ++k) {
        forward.turn(0.1, speed);
        backward.turn(-0.1, speed);
        EXPECT_NEAR(backward.torque_Nm(), -forward.torque_Nm(), 1e-6);
    }
}

TEST(Reciprocating, TwoCylindersAreTwoOfHalfTheSizeHalfATurnApart) {
    ReciprocatingParameters half = piston();
    half.displacement_cm3 = 16.0;
    Turned first = settled(half, 1000.0, 3000.0);
    half.crank_angle_deg = 0.0;
    Turned second = settled(half, 1000.0, 3000.0);
    Turned both = settled(piston(2), 1000.0, 3000.0);
    for (int k = 0; k < 60; ++k) {
        EXPECT_NEAR(both.torque_Nm(), first.torque_Nm() + second.torque_Nm(), 1e-6);
        first.turn(0.11, speed);
        second.turn(0.11, speed);
        both.turn(0.11, speed);
    }
}

TEST(Reciprocating, RockingWithoutOpeningAValveIsAGasSpring) {
    Turned turned(load(piston()));
    turned.pressures_held = true;
    turned.set_pressures(1000.0, 3000.0);
    turned.turn(0.5, 30.0);
    const double content = turned.x[Reciprocating::content];
    const double torque = turned.torque_Nm();
    turned.work_J = 0.0;
    for (int k = 0; k < 20; ++k) {
        for (const double swing : {0.7, -0.7}) {
            turned.load.on_standstill(turned.x.data());
            turned.turn(swing, 30.0);
        }
    }
    EXPECT_GT(torque, 0.5);
    EXPECT_NEAR(turned.x[Reciprocating::content], content, 1e-6 * content);
    EXPECT_NEAR(turned.torque_Nm(), torque, 1e-6 * torque);
    EXPECT_NEAR(turned.work_J, 0.0, 1e-9);
}

TEST(Reciprocating, RockingAcrossOpenValvesTakesWorkAndNeverGivesAny) {
    for (const int cylinders : {1, 2}) {
        Turned turned(load(piston(cylinders)));
        turned.pressures_held = true;
        turned.set_pressures(1000.0, 2000.0);
        const auto rock = [&] {
            for (const double swing : {2.5, -5.0, 2.5}) {
                turned.load.on_standstill(turned.x.data());
                turned.turn(swing, 40.0);
            }
        };
        rock();
        double before = turned.work_J;
        for (int k = 0; k < 5; ++k) {
            rock();
            EXPECT_GT(turned.work_J, before + 1.0);
            before = turned.work_J;
        }
    }
}

TEST(Reciprocating, ReversalJustBeforeTopDeadCentreExpandsFromDischargePressure) {
    Turned turned(load(piston()));
    turned.pressures_held = true;
    turned.set_pressures(1000.0, 2500.0);
    turned.turn(0.85 * pi, speed);
    EXPECT_DOUBLE_EQ(turned.load.channels(turned.x.data())[3], 2500.0);
    turned.load.on_standstill(turned.x.data());
    turned.turn(-0.3, speed);
    const double c = 0.04;
    const double from = c + position(1.85 * pi, 4.0);
    const double to = c + position(1.85 * pi - 0.3, 4.0);
    const double n = turned.load.circuit().gas().isentropic_exponent;
    EXPECT_NEAR(turned.load.channels(turned.x.data())[3], 2500.0 * std::pow(from / to, n), 1e-3);
}

TEST(Reciprocating, DeadCentreIsNoticedInBothDirectionsAndOnlyOnce) {
    for (const double direction : {1.0, -1.0}) {
        Turned turned(load(piston()));
        turned.turn(direction * 1.0, speed);
        turned.events = 0;
        turned.turn(direction * 5.0 * turn, speed);
        EXPECT_EQ(turned.events, 10);
    }
}

TEST(Reciprocating, GuardsArePositiveInAClosedCylinderAndOneForAMissingOne) {
    Turned turned(load(piston(), 20.0));
    turned.turn(0.6, speed);
    std::array<double, Reciprocating::guard_count> values{};
    turned.load.guards(turned.x.data(), {speed, 1.0}, values.data());
    EXPECT_GT(values[Reciprocating::dead_centre], 0.0);
    EXPECT_GT(values[Reciprocating::suction_valve], 0.0);
    EXPECT_GT(values[Reciprocating::discharge_valve], 0.0);
    EXPECT_EQ(values[Reciprocating::suction_valve + 1], 1.0);
    EXPECT_EQ(values[Reciprocating::discharge_valve + 1], 1.0);
    turned.turn(pi - 0.8, speed);
    turned.load.guards(turned.x.data(), {speed, 1.0}, values.data());
    EXPECT_LT(values[Reciprocating::discharge_valve], 0.0);
    EXPECT_FALSE(Reciprocating::guard_is_kink(Reciprocating::dead_centre));
    EXPECT_TRUE(Reciprocating::guard_is_kink(Reciprocating::discharge_valve + 1));
}

TEST(Reciprocating, RestingCylinderEndsAtSuctionPressure) {
    ReciprocatingParameters p = piston();
    p.ring_leak_s = 0.5;
    Turned turned(load(p));
    turned.pressures_held = true;
    turned.set_pressures(1000.0, 2500.0);
    turned.turn(0.9 * pi, speed);
    turned.rest(0.0);
    const auto chamber = [&] { return turned.load.channels(turned.x.data())[3]; };
    EXPECT_NEAR(chamber(), 2500.0, 1e-3);
    turned.rest(0.5);
    EXPECT_NEAR(chamber(), 1000.0 + 1500.0 * std::exp(-1.0), 5.0);
    turned.rest(4.0);
    EXPECT_NEAR(chamber(), 1000.0, 1.0);
    EXPECT_NEAR(turned.torque_Nm(), 0.0, 0.02);
}

TEST(Reciprocating, GasThatEqualisesAtRestFillsTheCylinderToo) {
    ReciprocatingParameters p = piston();
    p.ring_leak_s = 0.5;
    Turned turned(load(p, 5.0));
    const double before = turned.suction_kPa();
    turned.rest(60.0, 0.01);
    EXPECT_GT(turned.suction_kPa(), before + 200.0);
    // The compression that follows begins at the suction's pressure, not below it.
    turned.turn(0.5, speed);
    const double u = (0.04 + position(pi + 0.5, 4.0)) / 1.04;
    const double n = turned.load.circuit().gas().isentropic_exponent;
    EXPECT_NEAR(turned.load.channels(turned.x.data())[3], turned.suction_kPa() * std::pow(u, -n),
                0.01 * turned.suction_kPa());
}

TEST(Reciprocating, ChargeIsConstantThroughARun) {
    ReciprocatingParameters p = piston(2);
    p.ring_leak_s = 1.0;
    Turned turned(load(p, 60.0));
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

TEST(Reciprocating, RunsOnAtTheBalanceItIsRatedFor) {
    ReciprocatingParameters p = piston(2);
    Turned turned(load(p, 0.0));
    const double suction = turned.suction_kPa();
    const double rated_speed = plant_models::rpm_to_rad_per_s(p.reference_speed_rpm);
    turned.turn(300.0 * turn, rated_speed, 0.01);
    EXPECT_NEAR(turned.suction_kPa(), suction, 0.002 * suction);
}

TEST(Reciprocating, EqualisedPressuresLeaveNoGasTorqueAndTheFirstTurnBuildsIt) {
    Turned turned(load(piston(), 3600.0));
    double largest = 0.0;
    for (int k = 0; k < 60; ++k) {
        turned.turn(0.1, speed);
        largest = std::max(largest, std::abs(turned.torque_Nm()));
    }
    EXPECT_LT(largest, 0.5);
    Turned loaded(load(piston(), 20.0));
    double loaded_largest = 0.0;
    for (int k = 0; k < 60; ++k) {
        loaded.turn(0.1, speed);
        loaded_largest = std::max(loaded_largest, loaded.torque_Nm());
    }
    EXPECT_GT(loaded_largest, 10.0);
}

TEST(Reciprocating, CrankStartsWhereItIsPutAndItsAngleIsShownWithinATurn) {
    ReciprocatingParameters p = piston();
    p.crank_angle_deg = -30.0;
    Turned turned(load(p));
    EXPECT_NEAR(turned.load.channels(turned.x.data())[0], 330.0, 1e-9);
    turned.turn(turn + pi / 3.0, speed);
    EXPECT_NEAR(turned.load.channels(turned.x.data())[0], 30.0, 1e-6);
    EXPECT_NEAR(load(piston()).initial_state()[Reciprocating::crank_angle], pi, 1e-12);
}

TEST(Reciprocating, RefusesAClearanceThatLeavesNothingToPump) {
    ReciprocatingParameters p = piston();
    EXPECT_TRUE(p.inconsistency_with(RefrigerantParameters()).empty());
    p.clearance_percent = 20.0;
    EXPECT_TRUE(p.inconsistency_with(RefrigerantParameters()).empty());
    RefrigerantParameters freezer;
    freezer.gas = "R134a";
    freezer.evaporating_C = -30.0;
    EXPECT_EQ(p.inconsistency_with(freezer).substr(0, 17), "clearance_percent");
    EXPECT_TRUE(piston().inconsistency_with(freezer).empty());
}

TEST(Reciprocating, FrictionRisesWithSpeedAndColdOilAndHoldsAtLeastAtRest) {
    const Reciprocating l = load(piston());
    const auto x = l.initial_state();
    const double reference = plant_models::rpm_to_rad_per_s(3450.0);
    const auto friction = [&](double at, double drag) {
        return l.torque(x.data(), {at, drag}).opposing_Nm;
    };
    EXPECT_DOUBLE_EQ(friction(0.0, 5.0), 0.3);
    EXPECT_NEAR(friction(reference, 1.0), 0.7, 1e-12);
    EXPECT_NEAR(friction(-reference, 3.0), 1.5, 1e-12);
    EXPECT_DOUBLE_EQ(l.breakaway_torque_Nm(x.data(), 1.0), 0.8);
    EXPECT_DOUBLE_EQ(l.breakaway_torque_Nm(x.data(), 5.0), 1.6);
    ReciprocatingParameters slippery = piston();
    slippery.breakaway_torque_Nm = 0.1;
    EXPECT_DOUBLE_EQ(load(slippery).breakaway_torque_Nm(x.data(), 1.0), 0.3);
}

TEST(Reciprocating, BothAtOnceGivesTheSameBitsAsOneAfterTheOther) {
    Turned turned(load(piston(2), 30.0));
    for (int k = 0; k < 40; ++k) {
        turned.turn(0.31, speed);
        std::array<double, Reciprocating::state_count> one{};
        std::array<double, Reciprocating::state_count> other{};
        turned.load.derivatives(turned.x.data(), one.data(), {speed, 2.0});
        const auto t =
            turned.load.torque_and_derivatives(turned.x.data(), other.data(), {speed, 2.0});
        EXPECT_EQ(one, other);
        EXPECT_EQ(t.driving_Nm, turned.load.torque(turned.x.data(), {speed, 2.0}).driving_Nm);
        EXPECT_EQ(t.opposing_Nm, turned.load.torque(turned.x.data(), {speed, 2.0}).opposing_Nm);
    }
}

}  // namespace
