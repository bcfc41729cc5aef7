// The start capacitor's contact: sharing charge, waiting for the current's zero, bleeding.
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
using plant_models::MotorParameters;
using plant_models::PolynomialLoad;
using support::LivePlant;
using Live = LivePlant<Grid, PolynomialLoad>;
using P = Live::Plant;

constexpr double run_F = 25e-6;
constexpr double start_F = 130e-6;
constexpr double arc_A = plant_models::StartCircuit::arc_minimum_A;
constexpr double bleed_s = 15000.0 * start_F;

Live plant(bool run_capacitor = true) {
    MotorParameters motor = support::lossy_motor();
    if (!run_capacitor) {
        motor.run_capacitor_uF = 0.0;
    }
    Live live(motor, support::table_defaults<LimiterParameters>(), Grid(support::weak_grid()),
              PolynomialLoad(support::fan()));
    live.line(true);
    return live;
}

void set_voltage(Live& live, double voltage_V) {
    live.x[P::capacitor_voltage] = voltage_V;
    live.refresh();
}

/// The start capacitor out and charged, the run capacitor at another voltage.
Live charged(double start_V, double run_V, bool run_capacitor = true) {
    Live live = plant(run_capacitor);
    live.start(true);
    set_voltage(live, start_V);
    live.start(false);
    set_voltage(live, run_V);
    EXPECT_FALSE(live.outputs().start_capacitor_in);
    EXPECT_EQ(live.outputs().start_capacitor_voltage_V, start_V);
    return live;
}

TEST(StartCapacitor, ClosingSharesTheChargeAndBooksExactlyWhatIsLost) {
    for (const double start_V : {-300.0, 0.0, 120.0}) {
        for (const double run_V : {-250.0, 90.0, 400.0}) {
            Live live = charged(start_V, run_V);
            const double before_J = live.energy().wiring_J;
            support::expect_audit_closes_across(live, [&] { live.start(true); });
            const auto out = live.outputs();
            EXPECT_TRUE(out.start_capacitor_in);
            EXPECT_EQ(out.start_capacitor_voltage_V, out.run_capacitor_voltage_V);
            EXPECT_NEAR((run_F + start_F) * out.run_capacitor_voltage_V,
                        run_F * run_V + start_F * start_V, 1e-15);
            const double series_F = run_F * start_F / (run_F + start_F);
            EXPECT_NEAR(live.energy().wiring_J - before_J,
                        0.5 * series_F * (start_V - run_V) * (start_V - run_V), 1e-12);
        }
    }
}

TEST(StartCapacitor, WithoutARunCapacitorClosingKeepsItsVoltageAndLosesNothing) {
    Live live = charged(180.0, -77.0, false);
    const double before_J = live.energy().wiring_J;
    support::expect_audit_closes_across(live, [&] { live.start(true); });
    EXPECT_NEAR(live.outputs().start_capacitor_voltage_V, 180.0, 1e-12);
    EXPECT_EQ(live.energy().wiring_J, before_J);
}

TEST(StartCapacitor, OpeningWithoutCurrentHappensAtOnceAndLosesNothing) {
    Live live = plant();
    live.start(true);
    set_voltage(live, 200.0);
    support::expect_audit_closes_across(live, [&] { live.start(false); });
    EXPECT_FALSE(live.outputs().start_capacitor_in);
    EXPECT_EQ(live.outputs().start_capacitor_voltage_V, 200.0);
    EXPECT_EQ(live.outputs().run_capacitor_voltage_V, 200.0);
}

TEST(StartCapacitor, OpeningUnderCurrentArcsUntilItsOwnCurrentIsTooSmallForIt) {
    for (const double sign : {1.0, -1.0}) {
        Live live = plant();
        live.bypass(true);
        live.start(true);
        live.run_until(0.06);
        while (sign * live.x[P::aux_current] < 2.0) {
            live.run_until(live.time_s + 1e-4);
        }
        const auto before = live.x;
        live.start(false);
        EXPECT_EQ(live.x, before);
        EXPECT_TRUE(live.outputs().start_capacitor_in);
        const double current_A = std::abs(live.outputs().start_capacitor_current_A);
        EXPECT_NEAR(live.guard(P::start_contact_arc_out), current_A - arc_A, 1e-12);
        ASSERT_TRUE(live.run_to_zero(P::start_contact_arc_out, live.time_s + 0.02));
        EXPECT_NEAR(live.outputs().start_capacitor_current_A, sign * arc_A, 1e-6);
        const double voltage_V = live.outputs().run_capacitor_voltage_V;
        support::expect_audit_closes_across(live, [&] { live.fire(P::start_contact_arc_out); });
        EXPECT_FALSE(live.outputs().start_capacitor_in);
        EXPECT_EQ(live.outputs().start_capacitor_voltage_V, voltage_V);
        EXPECT_EQ(live.outputs().start_capacitor_current_A, 0.0);
        EXPECT_EQ(live.guard(P::start_contact_arc_out), 1.0);
        // The auxiliary winding stays on the line through the run capacitor.
        live.run_until(live.time_s + 0.01);
        EXPECT_NE(live.x[P::aux_current], 0.0);
        EXPECT_NEAR(live.unexplained_J(), 0.0, 1e-5);
    }
}

TEST(StartCapacitor, OpensAtOnceOnlyBelowTheCurrentThatAnArcNeeds) {
    const double share = start_F / (start_F + run_F);
    for (const bool run_capacitor : {true, false}) {
        for (const double sign : {1.0, -1.0}) {
            Live live = plant(run_capacitor);
            live.start(true);
            live.x[P::aux_current] = sign * 1.01 * arc_A / (run_capacitor ? share : 1.0);
            live.refresh();
            Live small = live;
            live.start(false);
            EXPECT_TRUE(live.outputs().start_capacitor_in);
            small.x[P::aux_current] *= 0.98;
            small.refresh();
            const double before_A = small.x[P::aux_current];
            support::expect_audit_closes_across(small, [&] { small.start(false); });
            EXPECT_FALSE(small.outputs().start_capacitor_in);
            // What flowed through the start capacitor goes on through the run capacitor, if any.
            EXPECT_NEAR(small.x[P::aux_current], run_capacitor ? before_A : 0.0, 1e-12);
        }
    }
}

TEST(StartCapacitor, ContactThatTouchesAgainWhileArcingStaysInWithoutAnyLoss) {
    Live live = plant();
    live.start(true);
    live.x[P::aux_current] = 4.0;
    set_voltage(live, 150.0);
    live.start(false);
    const double before_J = live.energy().wiring_J;
    const auto before = live.x;
    live.start(true);
    EXPECT_EQ(live.x, before);
    EXPECT_EQ(live.energy().wiring_J, before_J);
    EXPECT_EQ(live.guard(P::start_contact_arc_out), 1.0);
    EXPECT_TRUE(live.outputs().start_capacitor_in);
}

TEST(StartCapacitor, VoltageDecaysThroughItsBleedResistor) {
    Live live = charged(-310.0, 50.0);
    for (const double share : {0.1, 1.0, 5.0}) {
        live.time_s = share * bleed_s;
        live.refresh();
        EXPECT_NEAR(live.outputs().start_capacitor_voltage_V, -310.0 * std::exp(-share), 1e-9);
        EXPECT_EQ(live.outputs().run_capacitor_voltage_V, 50.0);
        // What it lost is in the wiring's account.
        const double lost_J = 0.5 * start_F * 310.0 * 310.0 * (1.0 - std::exp(-2.0 * share));
        EXPECT_NEAR(live.energy().wiring_J, lost_J, 1e-9);
    }
}

TEST(StartCapacitor, SecondMeetingSharesWhatTheBleedHasLeft) {
    Live live = charged(310.0, 0.0);
    live.time_s = 0.5 * bleed_s;
    live.refresh();
    const double left_V = 310.0 * std::exp(-0.5);
    support::expect_audit_closes_across(live, [&] { live.start(true); });
    EXPECT_NEAR(live.outputs().run_capacitor_voltage_V, start_F * left_V / (start_F + run_F), 1e-9);
    // In and out again: the account goes on from there.
    const double before_J = live.energy().wiring_J;
    const double voltage_V = live.outputs().start_capacitor_voltage_V;
    support::expect_audit_closes_across(live, [&] { live.start(false); });
    live.time_s += bleed_s;
    live.refresh();
    EXPECT_NEAR(live.energy().wiring_J - before_J,
                0.5 * start_F * voltage_V * voltage_V * (1.0 - std::exp(-2.0)), 1e-9);
}

TEST(StartCapacitor, RepeatedClosingChangesNothing) {
    Live live = charged(310.0, -100.0);
    live.start(true);
    const auto before = live.x;
    live.start(true);
    EXPECT_EQ(live.x, before);
}

TEST(StartCapacitor, ContactWithoutACapacitorDoesNothing) {
    auto limiter = support::table_defaults<LimiterParameters>();
    limiter.start_capacitor_uF = 0.0;
    Live live(support::lossy_motor(), limiter, Grid(support::weak_grid()),
              PolynomialLoad(support::fan()));
    live.line(true);
    set_voltage(live, 120.0);
    const auto before = live.x;
    live.start(true);
    EXPECT_EQ(live.x, before);
    EXPECT_FALSE(live.outputs().start_capacitor_in);
    EXPECT_EQ(live.outputs().start_capacitor_voltage_V, 0.0);
}

TEST(StartCapacitor, WithoutARunCapacitorTheOpenAuxiliaryCarriesNothing) {
    Live live = plant(false);
    live.bypass(true);
    live.start(true);
    live.run_until(0.06);
    live.start(false);
    ASSERT_TRUE(live.run_to_zero(P::start_contact_arc_out, 0.1));
    EXPECT_NEAR(std::abs(live.x[P::aux_current]), arc_A, 1e-6);
    support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
        support::expect_audit_closes_across(live, [&] { live.fire(P::start_contact_arc_out); });
    });
    EXPECT_EQ(live.x[P::aux_current], 0.0);
    live.run_until(live.time_s + 0.02);
    EXPECT_EQ(live.x[P::aux_current], 0.0);
}

// Both contacts open under current and the loop then goes out: nothing can flow any more, so the
// open contact cannot go on arcing.
TEST(StartCapacitor, OpenContactCannotArcOnceTheAuxiliaryIsDead) {
    for (const double sign : {1.0, -1.0}) {
        Live live = plant();
        live.bypass(true);
        live.start(true);
        live.x[P::main_current] = sign * 5.0;
        live.x[P::aux_current] = -sign * 5.0;
        live.refresh();
        live.line(false);
        EXPECT_FALSE(live.outputs().line_connected);
        live.start(false);
        live.bypass(false);
        EXPECT_TRUE(live.outputs().start_capacitor_in);
        ASSERT_TRUE(live.run_to_zero(P::main_current_zero, 0.1));
        live.fire(P::main_current_zero);
        EXPECT_EQ(live.x[P::aux_current], 0.0);
        EXPECT_LT(live.guard(P::start_contact_arc_out), 0.0);
        live.fire(P::start_contact_arc_out);
        EXPECT_FALSE(live.outputs().start_capacitor_in);
        EXPECT_EQ(live.guard(P::start_contact_arc_out), 1.0);
    }
}

}  // namespace
