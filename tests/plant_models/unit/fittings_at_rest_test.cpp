// What is fitted around a motor, over a rest: `rest` at once, against its equations step by step.
#include <gtest/gtest.h>

#include <array>
#include <string>

#include "support/fitting_loop.hpp"
#include "support/fittings.hpp"

namespace {

using namespace plant_models;
using Loop = support::FittingLoop<FittedUnit>;

constexpr double fine_step_s = 0.01;  // half the fastest lag, a contactor's
constexpr std::size_t protector_at = HeatNetwork::state_count;
constexpr std::size_t thermistor_at = FittedUnit::state_count - Thermistor::state_count;

Loop loop_of(const UnitParameters& unit, const MotorParameters& motor = support::lossy_motor()) {
    Conditions conditions = support::rested(20.0);
    return Loop(FittedUnit(unit, motor, conditions), fine_step_s);
}

void make_hot(Loop& loop) {
    const std::array<double, HeatNetwork::state_count> hot_C = {141.0, 155.0, 170.0, 84.0};
    std::copy(hot_C.begin(), hot_C.end(), loop.x.begin());
}

/// Rests for `duration_s` both ways and expects the states within 0.02 K or A2 or s.
void expect_same_rest(Loop& loop, double duration_s, const std::string& what) {
    FittedUnit rested = loop.fitting;
    Loop::State x = loop.x;
    double no_charge_V = 0.0;
    EXPECT_TRUE(rested.settled(x.data())) << what;
    rested.rest(x.data(), duration_s, no_charge_V, 40e-6);
    loop.run_until(loop.time_s + duration_s);
    for (std::size_t k = 0; k < x.size(); ++k) {
        EXPECT_NEAR(x[k], loop.x[k], 0.02) << what << ", state " << k;
    }
    EXPECT_EQ(rested.trip_cause(), loop.fitting.trip_cause()) << what;
    EXPECT_EQ(rested.line_closed(), loop.fitting.line_closed()) << what;
    EXPECT_EQ(rested.auxiliary_through_thermistor(), loop.fitting.auxiliary_through_thermistor())
        << what;
}

TEST(FittingsAtRest, HeatFlowsAsStepByStep) {
    for (const double duration_s : {0.3, 30.0, 300.0, 3600.0}) {
        UnitParameters unit;
        unit.heat = support::heat();
        Loop loop = loop_of(unit);
        make_hot(loop);
        const double before_C = loop.x[HeatNetwork::shell];
        expect_same_rest(loop, duration_s, std::to_string(duration_s));
        EXPECT_NE(loop.x[HeatNetwork::shell], before_C);
    }
}

TEST(FittingsAtRest, HeatOfARestIsExactWithinRounding) {
    // The matrix exponential has the property of its name: two rests are one of their sum.
    const HeatNetwork network(support::heat(), support::lossy_motor(), support::rested(20.0));
    std::array<double, HeatNetwork::state_count> once = {141.0, 155.0, 170.0, 84.0};
    auto parts = once;
    network.cool(once.data(), network.cooling(1000.0));
    network.cool(parts.data(), network.cooling(137.0));
    network.cool(parts.data(), network.cooling(863.0));
    for (std::size_t k = 0; k < once.size(); ++k) {
        EXPECT_NEAR(once[k], parts[k], 1e-10);
    }
}

TEST(FittingsAtRest, AnOpenProtectorClosesInTheSameRestAsStepByStep) {
    UnitParameters unit;
    unit.heat = support::heat();
    unit.protector = support::quick_protector();
    int closed = 0;
    for (const double duration_s : {1.0, 10.0, 30.0, 300.0, 3600.0}) {
        Loop loop = loop_of(unit);
        make_hot(loop);
        loop.x[protector_at] = 110.0;
        loop.run_until(loop.time_s + 0.02);
        ASSERT_FALSE(loop.fitting.line_closed());
        expect_same_rest(loop, duration_s, std::to_string(duration_s));
        closed += loop.fitting.line_closed() ? 1 : 0;
    }
    EXPECT_GT(closed, 0);
    EXPECT_LT(closed, 5);
}

TEST(FittingsAtRest, ALockoutOfTheModuleRunsOutInTheRest) {
    UnitParameters unit;
    unit.protection_module = support::start_watch();
    unit.contactor = support::contactor();
    int over = 0;
    for (const double duration_s : {30.0, 298.0, 301.0, 900.0}) {
        Loop loop = loop_of(unit);
        loop.fitting.set_coil_commanded(true);
        loop.run_until(1.0);  // no inrush within the window: it locks out
        loop.fitting.set_coil_commanded(false);
        loop.run_until(1.5);
        ASSERT_EQ(loop.fitting.trip_cause(), "module_saw_no_start");
        expect_same_rest(loop, duration_s, std::to_string(duration_s));
        over += loop.fitting.trip_cause().empty() ? 1 : 0;
    }
    EXPECT_GT(over, 0);
    EXPECT_LT(over, 4);
}

TEST(FittingsAtRest, AThermistorInSeriesCoolsAndConductsAgain) {
    UnitParameters unit;
    unit.start_aid = support::thermistor();
    const MotorParameters motor = support::without_run_capacitor(support::lossy_motor());
    int conducts = 0;
    for (const double duration_s : {2.0, 30.0, 300.0}) {
        Loop loop = loop_of(unit, motor);
        loop.x[thermistor_at] = 180.0;
        loop.run_until(0.02);
        ASSERT_FALSE(loop.fitting.auxiliary_through_thermistor());
        expect_same_rest(loop, duration_s, std::to_string(duration_s));
        conducts += loop.fitting.auxiliary_through_thermistor() ? 1 : 0;
    }
    EXPECT_EQ(conducts, 2);
}

TEST(FittingsAtRest, AThermistorAcrossTheRunCapacitorTakesItsChargeAsHeat) {
    UnitParameters unit;
    unit.start_aid = support::thermistor();
    const MotorParameters motor = support::lossy_motor();
    FittedUnit fitted(unit, motor, support::rested(20.0));
    auto x = fitted.initial_state();
    x[thermistor_at] = 20.0;
    double charge_V = 300.0;
    const double capacitance_F = 1e-6 * motor.run_capacitor_uF;
    const double stored_J = 0.5 * capacitance_F * charge_V * charge_V;
    constexpr double short_s = 0.5;  // long for the capacitor, short for the thermistor
    fitted.rest(x.data(), short_s, charge_V, capacitance_F);
    EXPECT_LT(charge_V, 1e-3);
    const ThermistorParameters t = support::thermistor();
    const double kept =
        std::exp(-short_s * 1e-3 * t.dissipation_mW_per_K / t.heat_capacity_J_per_K);
    EXPECT_NEAR(x[thermistor_at] - 20.0, kept * stored_J / t.heat_capacity_J_per_K, 1e-9);
}

TEST(FittingsAtRest, AreNotAtRestWhileAContactIsHeld) {
    UnitParameters unit;
    unit.contactor = support::contactor();
    Loop loop = loop_of(unit);
    EXPECT_TRUE(loop.fitting.settled(loop.x.data()));
    UnitSignals on;
    on.supply_voltage_V = support::lossy_motor().rated_voltage_V;
    loop.set_signals(on);
    loop.fitting.set_coil_commanded(true);
    loop.run_until(0.5);
    EXPECT_FALSE(loop.fitting.settled(loop.x.data()));
}

}  // namespace
