// What a plant does when a part of it breaks, and that no energy is lost from the books with it.
#include "plant_models/damage.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/live_plant.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::CapacitorCondition;
using plant_models::Damage;
using plant_models::Grid;
using plant_models::LimiterParameters;
using plant_models::PolynomialLoad;
using Live = support::LivePlant<Grid, PolynomialLoad>;
using P = Live::Plant;

constexpr double run_F = 25e-6;
constexpr double start_F = 130e-6;

Live on_the_line(double speed_rad_per_s = 0.0) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()), speed_rad_per_s);
    live.line(true);
    return live;
}

/// Running on the bypass for a while.
Live running() {
    Live live = on_the_line(140.0);
    live.bypass(true);
    live.run_until(0.1, 20e-6);
    return live;
}

/// What the audit misses, of what has passed.
double closure(const Live& live) {
    return live.energy().closure();
}

TEST(RunCapacitorThatOpens, LeavesAStandingMotorWithoutVoltageAtS) {
    Live live = on_the_line();
    Damage open;
    open.run_capacitor = CapacitorCondition::open;
    live.damage(open);
    live.bypass(true);
    double highest_V = 0.0;
    for (double t = 0.001; t < 0.1; t += 0.001) {
        live.run_until(t);
        highest_V = std::max(highest_V, std::abs(live.outputs().start_terminal_voltage_V));
        EXPECT_EQ(live.outputs().aux_current_A, 0.0);
    }
    EXPECT_LT(highest_V, 1e-9);
    EXPECT_GT(std::abs(live.x[P::main_current]), 0.0);
}

TEST(RunCapacitorThatOpens, KeepsItsChargeUntilItIsInAgain) {
    Live live = running();
    const double charged_V = live.x[P::capacitor_voltage];
    Damage open;
    open.run_capacitor = CapacitorCondition::open;
    live.damage(open);
    EXPECT_EQ(live.outputs().run_capacitor_voltage_V, charged_V);
    EXPECT_EQ(live.outputs().aux_current_A, 0.0);
    live.run_until(0.15, 20e-6);
    EXPECT_EQ(live.outputs().run_capacitor_voltage_V, charged_V);
    EXPECT_LT(closure(live), 1e-4);
    live.damage({});
    EXPECT_EQ(live.x[P::capacitor_voltage], charged_V);
    live.run_until(0.2, 20e-6);
    EXPECT_LT(closure(live), 1e-4);
}

TEST(RunCapacitorThatOpens, LeavesTheWholeCurrentToTheStartCapacitorAndMeetsItAgain) {
    Live live = running();
    live.start(true);
    live.run_until(0.12, 20e-6);
    Damage open;
    open.run_capacitor = CapacitorCondition::open;
    const double before_A = live.x[P::aux_current];
    const double together_V = live.x[P::capacitor_voltage];
    live.damage(open);
    EXPECT_NEAR(live.x[P::aux_current], before_A, 1e-9);
    EXPECT_NEAR(live.outputs().start_capacitor_current_A, before_A, 1e-9);
    live.run_until(0.127, 20e-6);
    const double start_V = live.x[P::capacitor_voltage];
    const double unexplained_before_J = live.unexplained_J();
    live.damage({});
    // Charge is kept.
    EXPECT_NEAR(live.x[P::capacitor_voltage],
                (start_F * start_V + run_F * together_V) / (start_F + run_F), 1e-9);
    EXPECT_NEAR(live.unexplained_J(), unexplained_before_J, 1e-9);
}

TEST(RunCapacitorThatIsShorted, LosesItsChargeIntoTheBooksAndPutsTheAuxiliaryOnTheLine) {
    for (const bool start_in : {false, true}) {
        Live live = running();
        live.start(start_in);
        live.run_until(0.123, 20e-6);
        const double volts = live.x[P::capacitor_voltage];
        ASSERT_GT(std::abs(volts), 50.0);
        const double farads = run_F + (start_in ? start_F : 0.0);
        const double wiring_before_J = live.x[P::wiring_energy];
        const double unexplained_before_J = live.unexplained_J();
        Damage shorted;
        shorted.run_capacitor = CapacitorCondition::shorted;
        live.damage(shorted);
        EXPECT_NEAR(live.x[P::wiring_energy] - wiring_before_J, 0.5 * farads * volts * volts, 1e-9);
        EXPECT_NEAR(live.unexplained_J(), unexplained_before_J, 1e-9);
        EXPECT_EQ(live.x[P::capacitor_voltage], 0.0);
        live.run_until(0.2, 20e-6);
        const auto out = live.outputs();
        EXPECT_EQ(out.run_capacitor_voltage_V, 0.0);
        EXPECT_NEAR(out.start_terminal_voltage_V,
                    out.line_voltage_V - plant_models::shorted_ohm * out.aux_current_A, 1e-6);
        EXPECT_LT(closure(live), 1e-4);
    }
}

TEST(RunCapacitorThatIsShorted, TakesAStartCapacitorsChargeToo) {
    Live live = running();
    live.start(true);
    live.run_until(0.12, 20e-6);
    live.plant.set_start_contact(false, live.x, live.time_s);
    if (std::abs(live.x[P::aux_current]) > 0.4) {
        live.fire(P::start_contact_arc_out);
    }
    const double idle_V = live.outputs().start_capacitor_voltage_V;
    ASSERT_GT(std::abs(idle_V), 10.0);
    Damage shorted;
    shorted.run_capacitor = CapacitorCondition::shorted;
    live.damage(shorted);
    const double wiring_before_J = live.x[P::wiring_energy];
    live.start(true);
    EXPECT_NEAR(live.x[P::wiring_energy] - wiring_before_J, 0.5 * start_F * idle_V * idle_V, 1e-9);
    EXPECT_EQ(live.outputs().start_capacitor_voltage_V, 0.0);
}

TEST(SupplyWithAnotherVoltage, ScalesEveryVoltageAndCurrentOfAStandingMotor) {
    Live whole = on_the_line();
    Live weak = on_the_line();
    Damage half;
    half.supply_voltage_share = 0.5;
    weak.damage(half);
    whole.bypass(true);
    weak.bypass(true);
    whole.run_until(0.03);
    weak.run_until(0.03);
    ASSERT_EQ(whole.x[P::speed], 0.0);
    EXPECT_GT(std::abs(whole.x[P::main_current]), 1.0);
    EXPECT_NEAR(weak.x[P::main_current], 0.5 * whole.x[P::main_current], 1e-9);
    EXPECT_NEAR(weak.x[P::aux_current], 0.5 * whole.x[P::aux_current], 1e-9);
    EXPECT_NEAR(weak.outputs().line_voltage_V, 0.5 * whole.outputs().line_voltage_V, 1e-7);
    EXPECT_NEAR(weak.x[P::source_energy], 0.25 * whole.x[P::source_energy], 1e-7);
    EXPECT_LT(closure(weak), 1e-4);
}

TEST(InterruptedSupply, LetsTheCurrentArcToItsZeroAndReadsNoVoltage) {
    Live live = running();
    live.run_until(0.1041, 20e-6);
    const double line_A = live.outputs().line_current_A;
    ASSERT_GT(std::abs(line_A), 1.0);
    Damage broken;
    broken.supply_interrupted = true;
    live.damage(broken);
    EXPECT_NEAR(live.outputs().line_current_A, line_A, 0.1);
    EXPECT_EQ(live.outputs().line_voltage_V, 0.0);
    ASSERT_TRUE(live.run_to_zero(P::line_contact_arc_out, 0.12));
    live.fire(P::line_contact_arc_out);
    EXPECT_FALSE(live.outputs().line_connected);
    EXPECT_EQ(live.outputs().line_current_A, 0.0);
    live.damage({});
    EXPECT_TRUE(live.outputs().line_connected);
    EXPECT_LT(closure(live), 1e-3);
}

TEST(MotorThatIsNotThere, DrawsNothingAndShowsTheLineAtSThroughTheCapacitor) {
    Live live = running();
    Damage gone;
    gone.motor_disconnected = true;
    const double unexplained_before_J = live.unexplained_J();
    const double capacitor_V = live.x[P::capacitor_voltage];
    live.damage(gone);
    // What the field held went into the break.
    EXPECT_NEAR(live.unexplained_J(), unexplained_before_J, 1e-9);
    live.run_until(0.11, 20e-6);
    const auto out = live.outputs();
    EXPECT_EQ(out.line_current_A, 0.0);
    EXPECT_EQ(out.main_current_A, 0.0);
    EXPECT_EQ(out.aux_current_A, 0.0);
    EXPECT_FALSE(out.main_conducting);
    EXPECT_NEAR(out.start_terminal_voltage_V, out.line_voltage_V - capacitor_V, 1e-9);
    live.gate(true);
    EXPECT_FALSE(live.outputs().thyristor_conducting);
    EXPECT_LT(closure(live), 1e-4);
}

TEST(RotorThatSeizes, StandsAtOnceAndItsMotionBecomesFriction) {
    Live live = running();
    const double speed = live.x[P::speed];
    ASSERT_GT(speed, 50.0);
    const double friction_before_J = live.x[P::friction_energy];
    Damage seized;
    seized.rotor_seized = true;
    live.damage(seized);
    EXPECT_EQ(live.x[P::speed], 0.0);
    EXPECT_NEAR(live.x[P::friction_energy] - friction_before_J, 0.5 * 0.006 * speed * speed, 1e-9);
    live.start(true);
    live.run_until(0.2, 20e-6);
    EXPECT_EQ(live.x[P::speed], 0.0);
    EXPECT_EQ(live.guard(P::breakaway), 1.0);
    EXPECT_LT(closure(live), 1e-4);
    // Freed, with a start capacitor that makes torque enough, it turns.
    live.damage({});
    EXPECT_NE(live.guard(P::speed_zero), 1.0);
}

TEST(ExtraLoad, TakesItsTorqueTimesSpeedAsWorkOnTheLoad) {
    Live live = running();
    Damage dragged;
    dragged.extra_load_Nm = 3.0;
    const double before = live.rate[P::speed];
    live.damage(dragged);
    EXPECT_NEAR(live.rate[P::speed] - before, -3.0 / 0.006, 1e-6);
    EXPECT_LT(closure(live), 1e-4);
    live.run_until(0.15, 20e-6);
    EXPECT_LT(closure(live), 1e-4);
}

TEST(ExtraLoad, HoldsARotorAtRest) {
    Live live = on_the_line();
    Damage dragged;
    dragged.extra_load_Nm = 3.0;
    const double free = live.guard(P::breakaway);
    live.damage(dragged);
    EXPECT_NEAR(live.guard(P::breakaway) - free, 3.0, 1e-9);
}

/// Largest currents of either sign over three cycles.
struct Swing {
    double positive_A = 0.0;
    double negative_A = 0.0;
};
Swing swing_with(const Damage& damage, bool gate) {
    Live live = on_the_line();
    live.damage(damage);
    live.gate(gate);
    Swing swing;
    // Carries out what a located event would do, close to it.
    for (double t = 10e-6; t < 0.06; t += 10e-6) {
        live.run_until(t, 10e-6);
        for (const std::size_t guard : {P::main_current_zero, P::firing}) {
            if (live.guard(guard) <= 0.0) {
                live.fire(guard);
            }
        }
        swing.positive_A = std::max(swing.positive_A, live.x[P::main_current]);
        swing.negative_A = std::min(swing.negative_A, live.x[P::main_current]);
    }
    return swing;
}

TEST(ShortedThyristor, ConductsItsHalfWaveWithoutAGate) {
    for (const bool positive : {false, true}) {
        Damage damage;
        damage.thyristor_shorted[positive ? plant_models::positive_thyristor
                                          : plant_models::negative_thyristor] = true;
        const Swing swing = swing_with(damage, false);
        const double carried_A = positive ? swing.positive_A : -swing.negative_A;
        const double other_A = positive ? -swing.negative_A : swing.positive_A;
        EXPECT_GT(carried_A, 10.0);
        EXPECT_LT(other_A, 0.5);
    }
    EXPECT_EQ(swing_with({}, false).positive_A, 0.0);
}

TEST(ShortedThyristors, BothOfThemAreAClosedPath) {
    Damage both;
    both.thyristor_shorted = {true, true};
    const Swing alone = swing_with(both, false);
    const Swing gated = swing_with({}, true);
    EXPECT_NEAR(alone.positive_A, gated.positive_A, 0.02 * gated.positive_A);
    EXPECT_NEAR(alone.negative_A, gated.negative_A, -0.02 * gated.negative_A);
}

TEST(DeadThyristor, LeavesItsHalfWaveOutUnderADrivenGate) {
    for (const bool positive : {false, true}) {
        Damage damage;
        damage.thyristor_dead[positive ? plant_models::positive_thyristor
                                       : plant_models::negative_thyristor] = true;
        const Swing swing = swing_with(damage, true);
        EXPECT_LT(positive ? swing.positive_A : -swing.negative_A, 0.5);
        EXPECT_GT(positive ? -swing.negative_A : swing.positive_A, 10.0);
    }
}

TEST(DeadThyristor, CarriesWhatItHadToTheCurrentsZero) {
    Live live = running();
    live.run_until(0.1041, 20e-6);
    live.gate(true);
    live.bypass(false);
    const double before_A = live.x[P::main_current];
    ASSERT_GT(std::abs(before_A), 1.0);
    Damage dead;
    dead.thyristor_dead = {true, true};
    live.damage(dead);
    EXPECT_EQ(live.x[P::main_current], before_A);
    EXPECT_TRUE(live.outputs().thyristor_conducting);
}

TEST(WholePlant, IsTheSameToTheLastBitAfterADamageThatIsNone) {
    Live one = running();
    Live other = running();
    one.refresh();
    other.damage({});
    one.run_until(0.15);
    other.run_until(0.15);
    EXPECT_EQ(one.x, other.x);
}

}  // namespace
