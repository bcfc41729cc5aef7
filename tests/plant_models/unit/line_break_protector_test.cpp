#include "plant_models/unit/line_break_protector.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "support/fitting_loop.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Conditions;
using plant_models::LineBreakParameters;
using plant_models::LineBreakProtector;
using plant_models::UnitSignals;
using Loop = support::FittingLoop<LineBreakProtector>;

LineBreakParameters three_ton_protector() {
    auto protector = support::table_defaults<LineBreakParameters>();
    protector.ultimate_trip_A = 24.0;
    protector.trip_current_A = 90.0;
    return protector;
}

Conditions after_rest(double rest_s) {
    Conditions conditions;
    conditions.rest_s = rest_s;
    return conditions;
}

UnitSignals current(double current_A, double shell_C = 25.0) {
    UnitSignals signals;
    signals.line_current_A = current_A;
    signals.shell_C = shell_C;
    return signals;
}

/// Time to open at a constant current; negative if it does not within an hour.
double trip_s(double current_A, double shell_C = 25.0, double rest_s = 1e6) {
    Loop loop(LineBreakProtector(three_ton_protector(), after_rest(rest_s), shell_C), 0.05);
    loop.set_signals(current(current_A, shell_C));
    return loop.run_to_event(3600.0) ? loop.time_s : -1.0;
}

TEST(LineBreakProtector, OpensAfterTheDataSheetsTimeAtTheDataSheetsCurrent) {
    EXPECT_NEAR(trip_s(90.0), 8.0, 1e-6);
}

TEST(LineBreakProtector, UltimateTripCurrentIsTheBorder) {
    EXPECT_LT(trip_s(23.99), 0.0);
    EXPECT_GT(trip_s(24.01), 0.0);
}

TEST(LineBreakProtector, AlternatingCurrentCountsByItsRms) {
    Loop loop(LineBreakProtector(three_ton_protector(), after_rest(1e6), 25.0), 1e-3);
    loop.signals = [](double time_s) {
        return current(90.0 * std::sqrt(2.0) * std::sin(2.0 * plant_models::pi * 60.0 * time_s));
    };
    ASSERT_TRUE(loop.run_to_event(20.0));
    EXPECT_NEAR(loop.time_s, 8.0, 2e-3);
}

TEST(LineBreakProtector, OpensSoonerAgainstAWarmShellAndSoonAfterARun) {
    EXPECT_LT(trip_s(90.0, 60.0), 0.7 * trip_s(90.0));
    EXPECT_LT(trip_s(90.0, 25.0, 20.0), 0.7 * trip_s(90.0));
    EXPECT_NEAR(trip_s(90.0, 25.0, 3600.0), trip_s(90.0), 1e-6);
}

TEST(LineBreakProtector, ClosesAgainAfterItHasCooledToItsClosingTemperature) {
    Loop loop(LineBreakProtector(three_ton_protector(), after_rest(1e6), 25.0), 0.05);
    loop.signals = [&loop](double) { return current(loop.fitting.closed() ? 90.0 : 0.0); };
    ASSERT_TRUE(loop.run_to_event(60.0));
    EXPECT_FALSE(loop.fitting.closed());
    EXPECT_EQ(loop.fitting.trip_cause(), "protector_opened");
    const double opened_s = loop.time_s;
    ASSERT_TRUE(loop.run_to_event(600.0));
    EXPECT_TRUE(loop.fitting.closed());
    EXPECT_EQ(loop.fitting.trip_cause(), "");
    const double cooling_s =
        loop.fitting.time_constant_s() * std::log((107.0 - 25.0) / (71.0 - 25.0));
    EXPECT_NEAR(loop.time_s - opened_s, cooling_s, 1e-6);
    EXPECT_GT(cooling_s, 45.0);
    // It cycles on a rotor that stays locked, faster than from cold because it is still warm.
    ASSERT_TRUE(loop.run_to_event(600.0));
    EXPECT_LT(loop.time_s - opened_s - cooling_s, 0.6 * 8.0);
    EXPECT_EQ(loop.fitting.trips(), 2);
}

TEST(LineBreakProtector, StaysOpenWhileTheShellIsHotterThanItsClosingTemperature) {
    Loop loop(LineBreakProtector(three_ton_protector(), after_rest(1e6), 80.0), 0.5);
    loop.signals = [&loop](double) { return current(loop.fitting.closed() ? 90.0 : 0.0, 80.0); };
    loop.run_until(7200.0);
    EXPECT_FALSE(loop.fitting.closed());
    EXPECT_EQ(loop.events.size(), 1U);
}

TEST(LineBreakParameters, RefuseFiguresThatContradictEachOther) {
    auto protector = three_ton_protector();
    EXPECT_EQ(protector.inconsistency(), "");
    protector.trip_current_A = 25.0;
    EXPECT_EQ(protector.inconsistency().substr(0, 14), "trip_current_A");
    protector = three_ton_protector();
    protector.closes_C = 105.0;
    EXPECT_EQ(protector.inconsistency().substr(0, 8), "closes_C");
    protector = three_ton_protector();
    protector.reference_C = 70.0;
    EXPECT_EQ(protector.inconsistency().substr(0, 11), "reference_C");
}

}  // namespace
