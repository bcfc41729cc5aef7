#include "plant_models/unit/potential_relay.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"
#include "support/fitting_loop.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::CapacitorBranch;
using plant_models::MotorParameters;
using plant_models::PotentialRelay;
using plant_models::PotentialRelayParameters;
using plant_models::UnitSignals;
using Loop = support::FittingLoop<PotentialRelay>;

PotentialRelayParameters with_130_uF() {
    auto relay = support::table_defaults<PotentialRelayParameters>();
    relay.start_capacitor_uF = 130.0;
    return relay;
}

PotentialRelayParameters with_given_voltages() {
    auto relay = with_130_uF();
    relay.pick_up_V = 260.0;
    relay.drop_out_V = 110.0;
    return relay;
}

double coil_voltage_V(const MotorParameters& motor, bool start_capacitor_in, double speed_share) {
    auto auxiliary = plant_models::run_connection(motor);
    if (start_capacitor_in) {
        auxiliary.start = CapacitorBranch{130.0, 0.15};
    }
    const auto point =
        steady_state(motor, {motor.rated_voltage_V, motor.rated_frequency_Hz, 0.0, 0.0}, auxiliary,
                     1.0 - speed_share);
    return std::abs(point.s_voltage_V);
}

TEST(PotentialRelay, OpensAtPickUpAndClosesAtDropOutAndNotBetween) {
    Loop loop(PotentialRelay(with_given_voltages(), support::two_pole_motor()), 1e-3);
    std::vector<double> switched_V;
    // So slow that the lag of the coil hardly shows.
    const auto voltage_V = [](double time_s) {
        return time_s < 100.0 ? 3.0 * time_s : 300.0 - 3.0 * (time_s - 100.0);
    };
    loop.signals = [&](double time_s) {
        UnitSignals signals;
        signals.start_terminal_voltage_V = voltage_V(time_s);
        return signals;
    };
    EXPECT_TRUE(loop.fitting.contact_wanted());
    ASSERT_TRUE(loop.run_to_event(200.0));
    EXPECT_FALSE(loop.fitting.contact_wanted());
    EXPECT_NEAR(voltage_V(loop.time_s), 260.0, 0.1);
    ASSERT_TRUE(loop.run_to_event(200.0));
    EXPECT_TRUE(loop.fitting.contact_wanted());
    EXPECT_NEAR(voltage_V(loop.time_s), 110.0, 0.1);
    loop.run_until(200.0);
    EXPECT_EQ(loop.events.size(), 2U);
}

TEST(PotentialRelay, AlternatingVoltageCountsByItsRms) {
    for (const double rms_V : {240.0, 280.0}) {
        Loop loop(PotentialRelay(with_given_voltages(), support::two_pole_motor()), 0.5e-3);
        loop.signals = [rms_V](double time_s) {
            UnitSignals signals;
            signals.start_terminal_voltage_V =
                rms_V * std::sqrt(2.0) * std::sin(2.0 * plant_models::pi * 60.0 * time_s);
            return signals;
        };
        loop.run_until(1.0);
        EXPECT_EQ(loop.fitting.contact_wanted(), rms_V < 260.0);
    }
}

TEST(PotentialRelay, FollowsASuddenVoltageWithItsLag) {
    Loop loop(PotentialRelay(with_given_voltages(), support::two_pole_motor()), 0.5e-3);
    UnitSignals signals;
    signals.start_terminal_voltage_V = 320.0;
    loop.set_signals(signals);
    ASSERT_TRUE(loop.run_to_event(1.0));
    const double square = (320.0 / 260.0) * (320.0 / 260.0);
    EXPECT_NEAR(loop.time_s, 0.015 * std::log(square / (square - 1.0)), 1e-8);
}

// A relay that is chosen for the motor: in while the rotor is slow, out at 80 % of speed, and it
// stays out by what the running winding gives alone.
TEST(PotentialRelay, DerivedVoltagesSuitTheMotor) {
    for (const MotorParameters& motor : {support::two_pole_motor(), support::lossy_motor()}) {
        const auto relay = PotentialRelay(with_130_uF(), motor).parameters();
        EXPECT_GT(relay.pick_up_V, 1.15 * coil_voltage_V(motor, true, 0.0));
        EXPECT_GT(relay.pick_up_V, coil_voltage_V(motor, true, 0.7));
        EXPECT_LE(relay.pick_up_V, coil_voltage_V(motor, true, 0.8) * (1.0 + 1e-12));
        EXPECT_GT(coil_voltage_V(motor, false, 0.8), 1.2 * relay.drop_out_V);
        EXPECT_GT(coil_voltage_V(motor, false, 0.96), 2.0 * relay.drop_out_V);
    }
}

TEST(PotentialRelay, GivenVoltagesAreKept) {
    const auto relay =
        PotentialRelay(with_given_voltages(), support::two_pole_motor()).parameters();
    EXPECT_EQ(relay.pick_up_V, 260.0);
    EXPECT_EQ(relay.drop_out_V, 110.0);
}

TEST(PotentialRelayParameters, RefuseVoltagesThatContradictEachOther) {
    auto relay = with_given_voltages();
    EXPECT_EQ(relay.inconsistency(), "");
    relay.drop_out_V = 250.0;
    EXPECT_EQ(relay.inconsistency().substr(0, 10), "drop_out_V");
    relay = with_130_uF();
    EXPECT_EQ(relay.inconsistency(), "");
    relay.pick_up_V = 1e-3;
    EXPECT_EQ(relay.inconsistency().substr(0, 9), "pick_up_V");
    relay.pick_up_V = 0.0;
    relay.drop_out_V = 100.0;
    EXPECT_EQ(relay.inconsistency().substr(0, 10), "drop_out_V");
}

}  // namespace
