// Sticking, breaking away, and the torque that the windings make on a held or turning rotor.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/motor/steady_state.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"
#include "support/swinging_load.hpp"

namespace {

using plant_models::Grid;
using plant_models::LimiterParameters;
using plant_models::MotorParameters;
using plant_models::PolynomialLoad;
using plant_models::PolynomialLoadParameters;
using support::LivePlant;
using support::SwingingLoad;
using Fan = LivePlant<Grid, PolynomialLoad>;
using Swing = LivePlant<Grid, SwingingLoad>;
using P = Fan::Plant;

Fan fan_plant(double initial_speed_rad_per_s) {
    return Fan(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
               Grid(support::weak_grid()), PolynomialLoad(support::fan()), initial_speed_rad_per_s);
}

/// Rotor and main current that make this torque.
void set_torque(Fan& live, double torque_Nm) {
    const auto motor = support::lossy_motor();
    const double magnetizing_H =
        motor.magnetizing_reactance_ohm / motor.rated_angular_frequency_rad_per_s();
    live.x[P::main_current] = 10.0;
    live.x[P::rotor_aux_current] = torque_Nm / (motor.poles / 2.0 * magnetizing_H * 10.0);
    live.refresh();
    ASSERT_NEAR(live.outputs().torque_Nm, torque_Nm, 1e-12);
}

// Breakaway: 1.5 N m of the load and 12 W / 157 rad/s of the bearings.
const double breakaway_Nm = 1.5 + 12.0 / 157.07963267948966;

TEST(Rotor, SticksUntilTheTorqueReachesBreakawayEitherWay) {
    for (const double sign : {1.0, -1.0}) {
        Fan live = fan_plant(0.0);
        for (const double share : {0.0, 0.5, 0.9, 0.999}) {
            set_torque(live, sign * share * breakaway_Nm);
            EXPECT_NEAR(live.guard(P::breakaway), (1.0 - share) * breakaway_Nm, 1e-12);
            EXPECT_EQ(live.rate[P::speed], 0.0);
        }
        set_torque(live, sign * 1.001 * breakaway_Nm);
        EXPECT_LT(live.guard(P::breakaway), 0.0);
        EXPECT_EQ(live.rate[P::speed], 0.0);
        live.fire(P::breakaway);
        EXPECT_FALSE(live.outputs().rotor_stuck);
        // Free, it feels the smaller sliding friction.
        const double sliding_Nm = 0.6 + 12.0 / 157.07963267948966;
        EXPECT_NEAR(
            live.rate[P::speed],
            sign * (1.001 * breakaway_Nm - sliding_Nm) / support::lossy_motor().inertia_kg_m2,
            1e-9);
        // Only the guard of the new situation is armed.
        EXPECT_EQ(live.guard(P::breakaway), 1.0);
    }
}

TEST(Rotor, AtAZeroOfSpeedItSticksOrIsCarriedThrough) {
    for (const double turning : {1.0, -1.0}) {
        Fan live = fan_plant(turning * 20.0);
        EXPECT_NEAR(live.guard(P::speed_zero), 20.0, 1e-12);
        live.x[P::speed] = -turning * 1e-9;  // located just behind the zero
        set_torque(live, -turning * 0.99 * breakaway_Nm);
        Fan carried = live;
        live.fire(P::speed_zero);
        EXPECT_TRUE(live.outputs().rotor_stuck);
        EXPECT_EQ(live.x[P::speed], 0.0);
        EXPECT_EQ(live.guard(P::speed_zero), 1.0);

        set_torque(carried, -turning * 1.01 * breakaway_Nm);
        carried.fire(P::speed_zero);
        EXPECT_FALSE(carried.outputs().rotor_stuck);
        EXPECT_GT(-turning * carried.rate[P::speed], 0.0);
    }
}

TEST(Rotor, WithoutAnyFrictionItRestsAtZeroTorqueAndFollowsTheSmallest) {
    MotorParameters motor = support::two_pole_motor();
    PolynomialLoadParameters free;
    free.reference_speed_rpm = 1500.0;
    Fan live(motor, support::table_defaults<LimiterParameters>(), Grid(support::weak_grid()),
             PolynomialLoad(free));
    EXPECT_GE(live.guard(P::breakaway), 0.0);
    live.x[P::main_current] = 1e-6;
    live.x[P::rotor_aux_current] = 1e-3;
    live.refresh();
    EXPECT_LT(live.guard(P::breakaway), 0.0);
    live.fire(P::breakaway);
    EXPECT_GT(live.rate[P::speed], 0.0);
}

/// When the swinging load lets the rotor go and when it stops again, in closed form:
/// J w' = -A sin(W t) -+ T_0 from the instant at which A sin(W t) = T_b.
struct SlipPeriod {
    double released_s, stopped_s;
};

SlipPeriod first_slip(const SwingingLoad::Figures& f) {
    const double released = std::asin(f.breakaway_Nm / f.swing_Nm) / f.rad_per_s;
    const auto momentum = [&](double t) {
        return f.swing_Nm * (std::cos(f.rad_per_s * released) - std::cos(f.rad_per_s * t)) /
                   f.rad_per_s -
               f.sliding_Nm * (t - released);
    };
    double low = 0.5 * plant_models::pi / f.rad_per_s;  // still accelerating
    double high = 1.5 * plant_models::pi / f.rad_per_s;
    for (int k = 0; k < 100; ++k) {
        const double middle = 0.5 * (low + high);
        (momentum(middle) > 0.0 ? low : high) = middle;
    }
    return {released, high};
}

// The period of the swing is 0.1 s; friction is large enough that the rotor rests in each half.
TEST(Rotor, SticksAndSlipsUnderASwingingTorqueAsTheClosedFormSays) {
    const SwingingLoad::Figures figures = {3.0, 20.0 * plant_models::pi, 1.8, 2.0};
    const SlipPeriod expected = first_slip(figures);
    Swing live(support::two_pole_motor(), support::table_defaults<LimiterParameters>(),
               Grid(support::weak_grid()), SwingingLoad(figures));
    for (int half = 0; half < 6; ++half) {
        const double half_s = 0.05 * half;
        ASSERT_TRUE(live.run_to_zero(P::breakaway, half_s + 0.05));
        EXPECT_NEAR(live.time_s, half_s + expected.released_s, 1e-8);
        EXPECT_EQ(live.x[P::speed], 0.0);
        live.fire(P::breakaway);
        // The load drives against positive rotation in its first half.
        EXPECT_EQ(live.rate[P::speed] < 0.0, half % 2 == 0);

        ASSERT_TRUE(live.run_to_zero(P::speed_zero, half_s + 0.1));
        EXPECT_NEAR(live.time_s, half_s + expected.stopped_s, 1e-8);
        live.fire(P::speed_zero);
        EXPECT_TRUE(live.outputs().rotor_stuck);
        // Everything that the swing gave went into its own friction.
        EXPECT_NEAR(live.energy().load_J, 0.0, 1e-9);
        EXPECT_NEAR(live.unexplained_J(), 0.0, 1e-9);
    }
}

TEST(Rotor, RunsDownAgainstFrictionAndStaysStoppedInBothDirections) {
    for (const double turning : {1.0, -1.0}) {
        Fan live = fan_plant(turning * 100.0);
        const double kinetic_J = 0.5 * support::lossy_motor().inertia_kg_m2 * 1e4;
        ASSERT_TRUE(live.run_to_zero(P::speed_zero, 5.0, 1e-3));
        live.fire(P::speed_zero);
        EXPECT_TRUE(live.outputs().rotor_stuck);
        const auto energy = live.energy();
        EXPECT_NEAR(energy.load_J + energy.friction_J, kinetic_J, 1e-6 * kinetic_J);
        EXPECT_NEAR(energy.stored_J, -kinetic_J, 1e-9);
        EXPECT_GT(energy.friction_J, 0.0);
        live.run_until(live.time_s + 1.0, 1e-3);
        EXPECT_EQ(live.x[P::speed], 0.0);
    }
}

/// Mean of the torque over whole cycles after the transient.
double mean_torque_Nm(Fan& live, double frequency_Hz, double settled_s,
                      std::vector<double>& line_A) {
    live.run_until(settled_s);
    const int samples = 800;
    const int cycles = 4;
    const double begin_s = live.time_s;
    double sum = 0.0;
    for (int k = 0; k < samples; ++k) {
        live.run_until(begin_s + cycles / frequency_Hz * k / samples);
        const auto out = live.outputs();
        sum += out.torque_Nm;
        line_A.push_back(out.line_current_A);
    }
    return sum / samples;
}

double rms(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value * value;
    }
    return std::sqrt(sum / static_cast<double>(values.size()));
}

// Against revolving fields, which share no equation with the windings. This fixes the direction in
// which the auxiliary starts the rotor.
TEST(Rotor, LockedTorqueAndCurrentAreThoseOfThePhasorSolution) {
    const MotorParameters motor = support::two_pole_motor();
    const auto limiter = support::table_defaults<LimiterParameters>();
    PolynomialLoadParameters locked = support::fan();
    locked.breakaway_torque_Nm = 500.0;
    for (const bool start : {false, true}) {
        auto grid = support::ideal_grid(230.0, 60.0);
        grid.resistance_ohm = 0.08;
        grid.inductance_mH = 0.15;
        Fan live(motor, limiter, Grid(grid), PolynomialLoad(locked));
        live.line(true);
        live.bypass(true);
        live.start(start);
        std::vector<double> line_A;
        const double torque_Nm = mean_torque_Nm(live, 60.0, 2.0, line_A);

        // The bypass contact's 2 milliohm belong to the main winding.
        MotorParameters with_contact = motor;
        with_contact.main_resistance_ohm += 0.002;
        auto auxiliary = plant_models::run_connection(motor);
        if (start) {
            auxiliary.start = plant_models::CapacitorBranch{130.0, 0.15};
        }
        const auto expected =
            plant_models::locked_rotor(with_contact, {230.0, 60.0, 0.08, 0.15}, auxiliary);
        EXPECT_NEAR(torque_Nm, expected.torque_Nm, 2e-4 * expected.torque_Nm) << start;
        EXPECT_NEAR(rms(line_A), std::abs(expected.line_current_A), 0.005) << start;
        EXPECT_GT(torque_Nm, 0.5);
    }
}

TEST(Rotor, TorqueAtSpeedIsThatOfThePhasorSolutionEitherWay) {
    MotorParameters motor = support::lossy_motor();
    motor.inertia_kg_m2 = 1e6;  // holds the speed
    for (const double slip : {0.05, 0.6, 1.4}) {
        const double synchronous = motor.synchronous_speed_rad_per_s(50.0);
        auto grid = support::weak_grid();
        grid.resistance_ohm = 0.0;
        grid.inductance_mH = 0.0;
        Fan live(motor, support::table_defaults<LimiterParameters>(), Grid(grid),
                 PolynomialLoad(support::fan()), (1.0 - slip) * synchronous);
        live.line(true);
        live.bypass(true);
        std::vector<double> line_A;
        const double torque_Nm = mean_torque_Nm(live, 50.0, 0.6, line_A);
        MotorParameters with_contact = motor;
        with_contact.main_resistance_ohm += 0.002;
        const auto expected = plant_models::steady_state(with_contact, {230.0, 50.0, 0.0, 0.0},
                                                         plant_models::run_connection(motor), slip);
        EXPECT_NEAR(torque_Nm, expected.torque_Nm, 1e-3 * std::abs(expected.torque_Nm)) << slip;
        EXPECT_NEAR(rms(line_A), std::abs(expected.line_current_A), 0.002) << slip;
    }
}

}  // namespace
