// The line contactor: its arc, the loop that it leaves behind, closing again.
#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/event_checks.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Grid;
using plant_models::LimiterParameters;
using plant_models::PolynomialLoad;
using support::LivePlant;
using Live = LivePlant<Grid, PolynomialLoad>;
using P = Live::Plant;

Live running(bool bypass) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()), 140.0);
    live.line(true);
    if (bypass) {
        live.bypass(true);
    }
    live.run_until(0.2);
    return live;
}

constexpr double arc_A = plant_models::StartCircuit::arc_minimum_A;

double line_current_A(const Live& live) {
    return live.x[P::main_current] + live.x[P::aux_current];
}

TEST(LineContactor, OpeningUnderCurrentArcsUntilTheLineCurrentIsTooSmallForIt) {
    for (const double sign : {1.0, -1.0}) {
        Live live = running(true);
        while (sign * line_current_A(live) < 1.0) {
            live.run_until(live.time_s + 1e-4);
        }
        const auto before = live.x;
        live.line(false);
        EXPECT_EQ(live.x, before);
        EXPECT_TRUE(live.outputs().line_connected);
        EXPECT_NEAR(live.guard(P::line_contact_arc_out), sign * line_current_A(live) - arc_A,
                    1e-12);
        ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, live.time_s + 0.02));
        EXPECT_NEAR(line_current_A(live), sign * arc_A, 1e-6);
        live.fire(P::line_contact_arc_out);
        EXPECT_EQ(line_current_A(live), 0.0);
        EXPECT_FALSE(live.outputs().line_connected);
        EXPECT_EQ(live.guard(P::line_contact_arc_out), 1.0);
    }
}

TEST(LineContactor, BothBranchesGoOnAsOneLoopWithOppositeCurrents) {
    Live live = running(true);
    live.line(false);
    ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, live.time_s + 0.02));
    EXPECT_GT(std::abs(live.x[P::main_current]), 0.1);
    live.fire(P::line_contact_arc_out);
    const double source_J = live.energy().source_J;
    double largest_A = 0.0;
    for (int k = 0; k < 1000; ++k) {
        live.run_until(live.time_s + 50e-6);
        ASSERT_EQ(live.rate[P::main_current], -live.rate[P::aux_current]);
        ASSERT_EQ(live.x[P::main_current], -live.x[P::aux_current]);
        ASSERT_EQ(live.outputs().line_current_A, 0.0);
        largest_A = std::max(largest_A, std::abs(live.x[P::main_current]));
    }
    EXPECT_GT(largest_A, 0.5);
    EXPECT_EQ(live.energy().source_J, source_J);
    EXPECT_LT(live.energy().closure(), 1e-7);
    // The loop brakes and dies.
    ASSERT_TRUE(live.run_to_zero(P::speed_zero, live.time_s + 2.0));
    live.fire(P::speed_zero);
    EXPECT_TRUE(live.outputs().rotor_stuck);
    live.run_until(live.time_s + 0.5);
    EXPECT_LT(std::abs(live.x[P::main_current]), 1e-3 * largest_A);
    EXPECT_LT(live.energy().closure(), 1e-6);
}

TEST(LineContactor, OpeningWithTheMainPathBlockedLeavesNoCurrentAndKeepsTheCharge) {
    Live live = running(false);
    EXPECT_GT(std::abs(live.x[P::aux_current]), 0.01);
    live.line(false);
    ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, live.time_s + 0.02));
    const double charge_V = live.outputs().run_capacitor_voltage_V;
    support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
        support::expect_audit_closes_across(live, [&] { live.fire(P::line_contact_arc_out); });
    });
    EXPECT_EQ(live.x[P::main_current], 0.0);
    EXPECT_EQ(live.x[P::aux_current], 0.0);
    live.run_until(live.time_s + 0.1);
    EXPECT_EQ(live.x[P::main_current], 0.0);
    EXPECT_EQ(live.x[P::aux_current], 0.0);
    EXPECT_EQ(live.outputs().run_capacitor_voltage_V, charge_V);
    EXPECT_GT(std::abs(charge_V), 10.0);
}

TEST(LineContactor, WhatIsLeftOfTheLineCurrentWhenTheArcGoesOutStaysInTheAudit) {
    for (const double left_A : {arc_A, -arc_A, 1e-4}) {
        for (const bool bypass : {false, true}) {
            Live live = running(bypass);
            live.line(false);
            ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, live.time_s + 0.02));
            live.x[P::aux_current] = left_A - live.x[P::main_current];
            live.refresh();
            support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
                support::expect_audit_closes_across(live,
                                                    [&] { live.fire(P::line_contact_arc_out); });
            });
            EXPECT_EQ(live.x[P::aux_current], -live.x[P::main_current]);
            EXPECT_FALSE(live.outputs().line_connected);
        }
    }
}

TEST(LineContactor, OpensAtOnceOnlyBelowTheCurrentThatAnArcNeeds) {
    for (const double sign : {1.0, -1.0}) {
        Live live = running(true);
        live.x[P::aux_current] = sign * 1.01 * arc_A - live.x[P::main_current];
        live.refresh();
        Live small = live;
        live.line(false);
        EXPECT_TRUE(live.outputs().line_connected);
        small.x[P::aux_current] = sign * 0.99 * arc_A - small.x[P::main_current];
        small.refresh();
        const double before_J = small.energy().switch_J;
        support::expect_rotor_flux_is_kept(small, support::lossy_motor(), [&] {
            support::expect_audit_closes_across(small, [&] { small.line(false); });
        });
        EXPECT_FALSE(small.outputs().line_connected);
        EXPECT_EQ(line_current_A(small), 0.0);
        EXPECT_GT(small.energy().switch_J, before_J);
    }
}

// Without any capacitor the line carries the main current alone: when the path's own arc goes out,
// the contactor's has no current left. An open contactor must not stay connected.
TEST(LineContactor, CannotGoOnArcingOnceBothBranchesAreDead) {
    plant_models::MotorParameters motor = support::lossy_motor();
    motor.run_capacitor_uF = 0.0;
    Live live(motor, support::table_defaults<LimiterParameters>(), Grid(support::weak_grid()),
              PolynomialLoad(support::fan()));
    live.line(true);
    live.bypass(true);
    live.x[P::main_current] = 5.0;
    live.refresh();
    live.bypass(false);
    live.line(false);
    EXPECT_TRUE(live.outputs().line_connected);
    ASSERT_TRUE(live.run_to_zero(P::main_current_zero, 0.02));
    live.fire(P::main_current_zero);
    EXPECT_FALSE(live.outputs().main_conducting);
    EXPECT_LT(live.guard(P::line_contact_arc_out), 0.0);
    live.fire(P::line_contact_arc_out);
    EXPECT_FALSE(live.outputs().line_connected);
    EXPECT_EQ(live.guard(P::line_contact_arc_out), 1.0);
}

TEST(LineContactor, OpeningWithoutCurrentHappensAtOnce) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()));
    EXPECT_FALSE(live.outputs().line_connected);
    live.line(true);
    EXPECT_TRUE(live.outputs().line_connected);
    live.line(false);
    EXPECT_FALSE(live.outputs().line_connected);
}

TEST(LineContactor, TouchingAgainWhileArcingStaysConnected) {
    Live live = running(true);
    live.line(false);
    EXPECT_TRUE(live.outputs().line_connected);
    live.line(true);
    EXPECT_EQ(live.guard(P::line_contact_arc_out), 1.0);
    live.run_until(live.time_s + 0.02);
    EXPECT_GT(std::abs(live.outputs().line_current_rate_A_per_s), 0.0);
    EXPECT_LT(live.energy().closure(), 1e-6);
}

TEST(LineContactor, ClosingOntoATurningMotorClosesTheAudit) {
    Live live = running(true);
    live.line(false);
    ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, live.time_s + 0.02));
    live.fire(P::line_contact_arc_out);
    live.run_until(live.time_s + 0.05);
    const auto before = live.x;
    support::expect_audit_closes_across(live, [&] { live.line(true); });
    EXPECT_EQ(live.x, before);
    live.run_until(live.time_s + 0.1);
    EXPECT_LT(live.energy().closure(), 1e-6);
}

}  // namespace
