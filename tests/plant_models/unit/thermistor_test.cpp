#include "plant_models/unit/thermistor.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/fitting_loop.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Conditions;
using plant_models::MotorParameters;
using plant_models::Thermistor;
using plant_models::ThermistorParameters;
using plant_models::UnitSignals;
using Loop = support::FittingLoop<Thermistor>;

ThermistorParameters rated_33_ohm() {
    auto thermistor = support::table_defaults<ThermistorParameters>();
    thermistor.cold_resistance_ohm = 33.0;
    return thermistor;
}

MotorParameters without_run_capacitor() {
    auto motor = support::two_pole_motor();
    motor.run_capacitor_uF = 0.0;
    return motor;
}

Thermistor after_rest(double rest_s, const MotorParameters& motor = support::two_pole_motor()) {
    Conditions conditions;
    conditions.rest_s = rest_s;
    return Thermistor(rated_33_ohm(), motor, conditions);
}

UnitSignals across_capacitor(double voltage_V) {
    UnitSignals signals;
    signals.run_capacitor_voltage_V = voltage_V;
    return signals;
}

TEST(Thermistor, HasItsFourFiguresWhereTheDataSheetGivesThem) {
    for (const double steepness : {10.0, 15.0, 60.0}) {
        auto parameters = rated_33_ohm();
        parameters.steepness_percent_per_K = steepness;
        const Thermistor thermistor(parameters, support::two_pole_motor(), {});
        EXPECT_NEAR(thermistor.resistance_at_ohm(25.0), 33.0, 0.01 * 33.0);
        EXPECT_NEAR(thermistor.resistance_at_ohm(120.0), 66.0, 1e-9);
        EXPECT_NEAR(thermistor.resistance_at_ohm(500.0), 33000.0, 1.0);
        double steepest_per_K = 0.0;
        for (double at_C = 0.0; at_C < 400.0; at_C += 0.05) {
            const double slope_per_K = std::log(thermistor.resistance_at_ohm(at_C + 0.05) /
                                                thermistor.resistance_at_ohm(at_C)) /
                                       0.05;
            EXPECT_GE(slope_per_K, 0.0);
            steepest_per_K = std::max(steepest_per_K, slope_per_K);
        }
        EXPECT_NEAR(steepest_per_K, 0.01 * steepness, 1e-4 * steepness);
    }
}

TEST(Thermistor, LeavesItsColdResistanceByAThousandthAtMostWithTheDefaults) {
    EXPECT_NEAR(after_rest(1e6).resistance_at_ohm(25.0), 33.0, 0.033);
}

// Until it switches it is nearly a constant resistor: the heat to get there is C (T_sw - T_amb).
TEST(Thermistor, SwitchesOffWithinTheStart) {
    Loop loop(after_rest(1e6), 1e-3);
    loop.set_signals(across_capacitor(200.0));
    EXPECT_NEAR(loop.fitting.conductance_S(loop.x.data()), 1.0 / 33.0, 1e-4);
    while (loop.x[Thermistor::body] < 120.0 && loop.time_s < 10.0) {
        loop.run_until(loop.time_s + 1e-3);
    }
    const double at_cold_power_s = 2.5 * 95.0 / (200.0 * 200.0 / 33.0);
    EXPECT_GT(loop.time_s, at_cold_power_s);
    EXPECT_LT(loop.time_s, 1.5 * at_cold_power_s);
    loop.run_until(60.0);
    EXPECT_LT(loop.fitting.conductance_S(loop.x.data()), 1.0 / 5000.0);
}

// What the data sheet calls its power consumption: some three watts at the mains' voltage.
TEST(Thermistor, HoldsItselfHotWithAFewWatts) {
    Loop loop(after_rest(1e6), 1e-3);
    loop.set_signals(across_capacitor(230.0));
    loop.run_until(200.0);
    const double power_W = 230.0 * 230.0 * loop.fitting.conductance_S(loop.x.data());
    EXPECT_GT(power_W, 2.5);
    EXPECT_LT(power_W, 4.0);
    EXPECT_NEAR(power_W, 0.028 * (loop.x[Thermistor::body] - 25.0), 1e-4);
    // This is also where a run begins that follows without a rest.
    EXPECT_NEAR(loop.x[Thermistor::body], after_rest(0.0).initial_state()[0], 0.01);
}

TEST(Thermistor, CoolsWithItsTimeConstantWhetherIntegratedOrDuringTheRest) {
    Loop loop(after_rest(0.0), 0.05);
    EXPECT_NEAR(loop.fitting.cooling_time_constant_s(), 2.5 / 0.028, 1e-9);
    const double held_K = loop.x[Thermistor::body] - 25.0;
    loop.run_until(70.0);
    EXPECT_NEAR(loop.x[Thermistor::body] - 25.0, held_K * std::exp(-70.0 * 0.028 / 2.5), 1e-8);
    EXPECT_NEAR(loop.x[Thermistor::body], after_rest(70.0).initial_state()[0], 1e-8);
}

TEST(Thermistor, IsStillHotTenSecondsAfterARunAndColdAfterFiveMinutes) {
    const auto ohm_after = [](double rest_s) {
        const Thermistor thermistor = after_rest(rest_s);
        return thermistor.resistance_ohm(thermistor.initial_state().data());
    };
    EXPECT_GT(ohm_after(3.0), 10.0 * 33.0);
    EXPECT_GT(ohm_after(10.0), 3.0 * 33.0);
    EXPECT_LT(ohm_after(300.0), 1.05 * 33.0);
}

TEST(Thermistor, InSeriesItIsHeatedByTheCurrentUntilItCountsAsOpen) {
    Loop loop(after_rest(1e6, without_run_capacitor()), 1e-3);
    EXPECT_TRUE(loop.fitting.carries_auxiliary());
    EXPECT_EQ(loop.fitting.conductance_S(loop.x.data()), 0.0);
    EXPECT_NEAR(loop.fitting.series_ohm(loop.x.data()), 33.0, 0.1);
    // The winding's own impedance, 12 ohm, and the thermistor share 230 V.
    loop.signals = [&loop](double) {
        UnitSignals signals;
        const double resistance = loop.fitting.resistance_ohm(loop.x.data());
        signals.aux_current_A =
            loop.fitting.carries_auxiliary() ? 230.0 / (12.0 + resistance) : 0.0;
        signals.auxiliary_branch_voltage_V =
            loop.fitting.carries_auxiliary() ? signals.aux_current_A * resistance : 230.0;
        return signals;
    };
    ASSERT_TRUE(loop.run_to_event(5.0));
    EXPECT_FALSE(loop.fitting.carries_auxiliary());
    EXPECT_EQ(loop.fitting.series_ohm(loop.x.data()), 0.0);
    EXPECT_NEAR(loop.fitting.resistance_ohm(loop.x.data()), 30.0 * 33.0, 0.01);
    EXPECT_GT(loop.time_s, 0.2);
    EXPECT_LT(loop.time_s, 2.0);
    // The voltage keeps it open; without voltage it comes back.
    loop.run_until(100.0);
    EXPECT_EQ(loop.events.size(), 1U);
    EXPECT_FALSE(loop.fitting.carries_auxiliary());
    loop.signals = [](double) { return UnitSignals{}; };
    ASSERT_TRUE(loop.run_to_event(300.0));
    EXPECT_TRUE(loop.fitting.carries_auxiliary());
    EXPECT_NEAR(loop.fitting.resistance_ohm(loop.x.data()), 15.0 * 33.0, 0.01);
}

TEST(Thermistor, InSeriesItBeginsOpenRightAfterARun) {
    EXPECT_FALSE(after_rest(0.0, without_run_capacitor()).carries_auxiliary());
    EXPECT_TRUE(after_rest(600.0, without_run_capacitor()).carries_auxiliary());
}

TEST(Thermistor, AcrossARunCapacitorItHasNoEvents) {
    Loop loop(after_rest(1e6), 1e-3);
    loop.set_signals(across_capacitor(250.0));
    loop.run_until(20.0);
    loop.set_signals(across_capacitor(0.0));
    loop.run_until(300.0);
    EXPECT_TRUE(loop.events.empty());
    EXPECT_FALSE(loop.fitting.carries_auxiliary());
    EXPECT_EQ(loop.fitting.series_ohm(loop.x.data()), 0.0);
}

TEST(ThermistorParameters, RefuseAMaximumThatCutsNothingOff) {
    auto thermistor = rated_33_ohm();
    EXPECT_EQ(thermistor.inconsistency(), "");
    thermistor.maximum_resistance_ohm = 3000.0;
    EXPECT_EQ(thermistor.inconsistency().substr(0, 22), "maximum_resistance_ohm");
}

}  // namespace
