// The thyristor pair and the bypass contact: firing, latching, current zero, arc.
#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/event_checks.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Grid;
using plant_models::GridParameters;
using plant_models::LimiterParameters;
using plant_models::PolynomialLoad;
using support::LivePlant;
using Live = LivePlant<Grid, PolynomialLoad>;
using P = Live::Plant;

constexpr double arc_A = plant_models::StartCircuit::arc_minimum_A;
const double crest_V = 230.0 * std::sqrt(2.0);

Live plant_on(const GridParameters& grid) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(), Grid(grid),
              PolynomialLoad(support::fan()));
    live.line(true);
    return live;
}

Live ideal_plant() {
    return plant_on(support::ideal_grid(230.0, 50.0));
}

/// At rest without currents, the pair blocks the whole line voltage; sets the clock to where that
/// is `voltage_V`.
void wait_for(Live& live, double voltage_V) {
    live.time_s = std::asin(voltage_V / crest_V) / (2.0 * plant_models::pi * 50.0);
    if (live.time_s < 0.0) {
        live.time_s += 0.02;
    }
    live.refresh();
    ASSERT_NEAR(live.outputs().blocking_voltage_V, voltage_V, 1e-9);
}

/// A conducting pair, its current and the currents elsewhere chosen by hand.
Live conducting(double main_A, const GridParameters& grid = support::weak_grid()) {
    Live live = plant_on(grid);
    live.bypass(true);
    live.x[P::main_current] = main_A > 0.0 ? 5.0 : -5.0;
    live.x[P::aux_current] = 3.0;
    live.x[P::rotor_main_current] = -2.0;
    live.x[P::rotor_aux_current] = 1.5;
    live.x[P::capacitor_voltage] = 140.0;
    live.refresh();
    live.gate(true);
    live.bypass(false);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
    live.x[P::main_current] = main_A;
    live.refresh();
    return live;
}

TEST(MainPath, BlocksWithoutAGatePulseWhateverTheVoltage) {
    Live live = ideal_plant();
    for (const double voltage_V : {-300.0, -5.0, 5.0, 300.0}) {
        wait_for(live, voltage_V);
        EXPECT_FALSE(live.outputs().main_conducting);
        EXPECT_EQ(live.guard(P::firing), 1.0);
        EXPECT_EQ(live.rate[P::main_current], 0.0);
    }
}

TEST(MainPath, GatedPairFiresOnlyAboveItsThreshold) {
    // On-state threshold 0.85 V plus the firing margin: see start_circuit.cpp.
    const double threshold_V =
        plant_models::StartCircuit(support::lossy_motor(),
                                   support::table_defaults<LimiterParameters>(), 0.0)
            .firing_threshold_V();
    for (const double sign : {1.0, -1.0}) {
        Live below = ideal_plant();
        wait_for(below, sign * 0.99 * threshold_V);
        below.gate(true);
        EXPECT_FALSE(below.outputs().main_conducting);
        EXPECT_NEAR(below.guard(P::firing), 0.01 * threshold_V, 1e-9);

        Live above = ideal_plant();
        wait_for(above, sign * 1.01 * threshold_V);
        above.gate(true);
        EXPECT_TRUE(above.outputs().thyristor_conducting);
        EXPECT_EQ(above.guard(P::firing), 1.0);
    }
}

TEST(MainPath, WaitingGateFiresWhereTheVoltageCrossesTheThreshold) {
    Live live = ideal_plant();
    live.gate(true);
    EXPECT_FALSE(live.outputs().main_conducting);
    ASSERT_TRUE(live.run_to_zero(P::firing, 0.001));
    live.fire(P::firing);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
    // sin(2 pi 50 t) = 2.35 / 325.27
    EXPECT_NEAR(live.time_s, 2.35 / crest_V / (100.0 * plant_models::pi), 1e-6);
}

TEST(MainPath, FiredPairConductsInTheDirectionOfItsVoltageOnly) {
    for (const double sign : {1.0, -1.0}) {
        Live live = ideal_plant();
        wait_for(live, sign * 200.0);
        live.gate(true);
        EXPECT_GT(sign * live.rate[P::main_current], 0.0);
        live.x[P::main_current] = sign * 2.0;
        live.refresh();
        EXPECT_NEAR(live.guard(P::main_current_zero), 2.0, 1e-12);
        EXPECT_NEAR(live.rate[P::switch_energy], 2.0 * 0.85 + 4.0 * 0.008, 1e-12);
    }
}

TEST(MainPath, ConductionEndsAtTheCurrentZeroAfterTheGatePulse) {
    Live live = ideal_plant();
    wait_for(live, 300.0);
    live.gate(true);
    live.run_until(live.time_s + 200e-6);
    live.gate(false);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
    ASSERT_TRUE(live.run_to_zero(P::main_current_zero, 0.02));
    EXPECT_NEAR(live.x[P::main_current], 0.0, 1e-9);
    support::expect_audit_closes_across(live, [&] { live.fire(P::main_current_zero); });
    EXPECT_FALSE(live.outputs().main_conducting);
    EXPECT_EQ(live.x[P::main_current], 0.0);
    live.run_until(live.time_s + 0.05);
    EXPECT_EQ(live.x[P::main_current], 0.0);
    EXPECT_NEAR(live.unexplained_J(), 0.0, 1e-6);
}

TEST(MainPath, GateStillOnAtTheCurrentZeroHandsOverToTheOtherThyristor) {
    Live live = ideal_plant();
    wait_for(live, 300.0);
    live.gate(true);
    ASSERT_TRUE(live.run_to_zero(P::main_current_zero, 0.02));
    live.fire(P::main_current_zero);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
    EXPECT_LT(live.rate[P::main_current], 0.0);
    live.x[P::main_current] = -1.0;
    EXPECT_NEAR(live.guard(P::main_current_zero), 1.0, 1e-12);
}

TEST(MainPath, PulseThatEndsBelowLatchingDropsOutAndOneThatEndsAboveDoesNot) {
    for (const double sign : {1.0, -1.0}) {
        Live below = conducting(sign * 0.079);
        below.gate(false);
        EXPECT_FALSE(below.outputs().main_conducting);
        EXPECT_EQ(below.x[P::main_current], 0.0);
        Live above = conducting(sign * 0.081);
        above.gate(false);
        EXPECT_TRUE(above.outputs().thyristor_conducting);
        EXPECT_EQ(above.x[P::main_current], sign * 0.081);
    }
}

TEST(MainPath, DroppingOutKeepsTheRotorFluxAndEveryJoule) {
    for (const double sign : {1.0, -1.0}) {
        for (const auto& grid : {support::ideal_grid(230.0, 50.0), support::weak_grid()}) {
            Live live = conducting(sign * 0.079, grid);
            const double before_J = live.energy().switch_J;
            support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
                support::expect_audit_closes_across(live, [&] { live.gate(false); });
            });
            // The switch takes the energy; it never gives any.
            EXPECT_GT(live.energy().switch_J, before_J);
        }
    }
}

TEST(MainPath, DroppingOutInTheLoopKeepsTheRotorFluxAndEveryJoule) {
    for (const double sign : {1.0, -1.0}) {
        Live live = conducting(sign * 0.079);
        live.x[P::aux_current] = -live.x[P::main_current];
        live.line(false);
        EXPECT_FALSE(live.outputs().line_connected);
        const double before_J = live.energy().switch_J;
        support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
            support::expect_audit_closes_across(live, [&] { live.gate(false); });
        });
        EXPECT_EQ(live.x[P::main_current], 0.0);
        EXPECT_EQ(live.x[P::aux_current], 0.0);
        EXPECT_GT(live.energy().switch_J, before_J);
    }
}

TEST(MainPath, ClosedBypassConductsBothWaysWithItsResistanceAlone) {
    Live live = plant_on(support::weak_grid());
    live.bypass(true);
    for (const double sign : {1.0, -1.0}) {
        live.x[P::main_current] = sign * 10.0;
        live.refresh();
        EXPECT_TRUE(live.outputs().bypass_closed);
        EXPECT_FALSE(live.outputs().thyristor_conducting);
        EXPECT_EQ(live.guard(P::main_current_zero), 1.0);
        EXPECT_NEAR(live.rate[P::switch_energy], 0.2, 1e-12);
    }
}

TEST(MainPath, BypassOpeningUnderCurrentArcsUntilTheCurrentIsTooSmallForIt) {
    for (const double sign : {1.0, -1.0}) {
        Live live = plant_on(support::weak_grid());
        live.bypass(true);
        live.run_until(0.1);
        while (sign * live.x[P::main_current] < 5.0) {
            live.run_until(live.time_s + 1e-4);
        }
        const auto before = live.x;
        support::expect_audit_closes_across(live, [&] { live.bypass(false); });
        EXPECT_EQ(live.x, before);
        EXPECT_TRUE(live.outputs().main_conducting);
        EXPECT_FALSE(live.outputs().thyristor_conducting);
        EXPECT_FALSE(live.outputs().bypass_closed);
        // 20 V of arc against the current.
        EXPECT_NEAR(live.rate[P::switch_energy], 20.0 * std::abs(live.x[P::main_current]), 1e-9);
        EXPECT_NEAR(live.guard(P::main_current_zero), std::abs(live.x[P::main_current]) - arc_A,
                    1e-12);
        ASSERT_TRUE(live.run_to_zero(P::main_current_zero, live.time_s + 0.02));
        EXPECT_NEAR(live.x[P::main_current], sign * arc_A, 1e-6);
        support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
            support::expect_audit_closes_across(live, [&] { live.fire(P::main_current_zero); });
        });
        EXPECT_FALSE(live.outputs().main_conducting);
        live.run_until(live.time_s + 0.05);
        EXPECT_EQ(live.x[P::main_current], 0.0);
        EXPECT_NEAR(live.unexplained_J(), 0.0, 1e-5);
    }
}

TEST(MainPath, BypassOpensAtOnceOnlyBelowTheCurrentThatAnArcNeeds) {
    for (const double main_A : {0.0, 0.99 * arc_A, -0.99 * arc_A}) {
        Live live = plant_on(support::weak_grid());
        live.bypass(true);
        live.x[P::main_current] = main_A;
        live.refresh();
        support::expect_rotor_flux_is_kept(live, support::lossy_motor(), [&] {
            support::expect_audit_closes_across(live, [&] { live.bypass(false); });
        });
        EXPECT_FALSE(live.outputs().main_conducting);
        EXPECT_EQ(live.x[P::main_current], 0.0);
    }
    for (const double main_A : {1.01 * arc_A, -1.01 * arc_A}) {
        Live live = plant_on(support::weak_grid());
        live.bypass(true);
        live.x[P::main_current] = main_A;
        live.bypass(false);
        EXPECT_TRUE(live.outputs().main_conducting);
        EXPECT_EQ(live.x[P::main_current], main_A);
    }
}

TEST(MainPath, GatedThyristorsTakeTheCurrentOfAnOpeningBypassWithoutAnArc) {
    for (const double sign : {1.0, -1.0}) {
        Live live = conducting(sign * 12.0);
        EXPECT_TRUE(live.outputs().thyristor_conducting);
        EXPECT_NEAR(live.rate[P::switch_energy], 0.85 * 12.0 + 0.008 * 144.0, 1e-12);
        EXPECT_NEAR(live.guard(P::main_current_zero), 12.0, 1e-12);
        EXPECT_EQ(live.x[P::main_current], sign * 12.0);
    }
}

TEST(MainPath, GatePulseIntoAnArcPutsItOut) {
    Live live = plant_on(support::weak_grid());
    live.bypass(true);
    live.x[P::main_current] = -12.0;
    live.bypass(false);
    EXPECT_FALSE(live.outputs().thyristor_conducting);
    live.gate(true);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
    EXPECT_NEAR(live.rate[P::switch_energy], 0.85 * 12.0 + 0.008 * 144.0, 1e-12);
    EXPECT_NEAR(live.guard(P::main_current_zero), 12.0, 1e-12);
}

TEST(MainPath, BypassClosingRelievesTheThyristorsAtOnceAndForBothDirections) {
    Live live = conducting(9.0);
    support::expect_audit_closes_across(live, [&] { live.bypass(true); });
    EXPECT_FALSE(live.outputs().thyristor_conducting);
    EXPECT_EQ(live.x[P::main_current], 9.0);
    EXPECT_EQ(live.guard(P::main_current_zero), 1.0);
    // The end of a gate pulse does not matter to a closed contact, however small the current.
    live.x[P::main_current] = 0.01;
    live.gate(false);
    EXPECT_TRUE(live.outputs().main_conducting);
}

// The rotor turns and the line is off: the pair blocks the difference of two generated voltages.
TEST(MainPath, WithTheLineOffAFiredPairDrivesTheLoopAndNothingElse) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()), 150.0);
    for (const double sign : {1.0, -1.0}) {
        Live turning = live;
        turning.x[P::capacitor_voltage] = sign * 250.0;
        turning.refresh();
        EXPECT_NEAR(turning.outputs().blocking_voltage_V, sign * 250.0, 1e-9);
        const double before_J = turning.unexplained_J();
        turning.gate(true);
        EXPECT_TRUE(turning.outputs().thyristor_conducting);
        turning.run_until(0.001, 10e-6);
        EXPECT_GT(sign * turning.x[P::main_current], 0.5);
        EXPECT_EQ(turning.x[P::aux_current], -turning.x[P::main_current]);
        EXPECT_EQ(turning.x[P::source_energy], 0.0);
        EXPECT_NEAR(turning.unexplained_J(), before_J, 1e-7);
    }
}

}  // namespace
