// What a bad day is, and that it is drawn as promised.
#include "sim/sizing/bad_day.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <type_traits>
#include <variant>

#include "sim/library/library.hpp"
#include "sim/sizing/way.hpp"
#include "sizing/sizing_cases.hpp"

namespace {

using sim::BadDay;

TEST(BadDay, StaysBetweenItsEndsAndUsesAllOfThem) {
    for (const sim::BadDayFigure& figure : sim::bad_day_figures()) {
        constexpr int days = 2000;
        double lowest = 1e9;
        double highest = -1e9;
        double sum = 0.0;
        for (std::uint32_t k = 0; k < days; ++k) {
            const double value = sim::drawn_bad_day(7, k).*figure.member;
            lowest = std::min(lowest, value);
            highest = std::max(highest, value);
            sum += value;
        }
        const double range = figure.highest - figure.lowest;
        EXPECT_GE(lowest, figure.lowest) << figure.name;
        EXPECT_LE(highest, figure.highest) << figure.name;
        EXPECT_LT(lowest, figure.lowest + 0.01 * range) << figure.name;
        EXPECT_GT(highest, figure.highest - 0.01 * range) << figure.name;
        // Five standard errors of the mean of an even distribution.
        EXPECT_NEAR(sum / days, 0.5 * (figure.lowest + figure.highest),
                    5.0 * range / std::sqrt(12.0 * days))
            << figure.name;
        EXPECT_FALSE(figure.origin.empty()) << figure.name;
    }
}

TEST(BadDay, BelongsToItsNumberAlone) {
    const BadDay one = sim::drawn_bad_day(3, 41);
    sim::drawn_bad_day(3, 42);
    const BadDay again = sim::drawn_bad_day(3, 41);
    std::set<double> seen;
    for (const sim::BadDayFigure& figure : sim::bad_day_figures()) {
        EXPECT_EQ(one.*figure.member, again.*figure.member) << figure.name;
        seen.insert((one.*figure.member - figure.lowest) / (figure.highest - figure.lowest));
    }
    EXPECT_EQ(seen.size(), sim::bad_day_figures().size()) << "figures must not go together";
    EXPECT_NE(sim::drawn_bad_day(3, 42).rest_s, one.rest_s);
    EXPECT_NE(sim::drawn_bad_day(4, 41).rest_s, one.rest_s);
}

// The generator and its seeding by the standard library's own, which must be the same (C++11).
TEST(BadDay, DrawsWhatTheDocumentedGeneratorGives) {
    std::seed_seq words{5U, 12U};
    std::mt19937_64 generator(words);
    const BadDay day = sim::drawn_bad_day(5, 12);
    for (const sim::BadDayFigure& figure : sim::bad_day_figures()) {
        const double even = std::ldexp(static_cast<double>(generator()), -64);
        EXPECT_NEAR(day.*figure.member, figure.lowest + (figure.highest - figure.lowest) * even,
                    1e-12 * figure.highest)
            << figure.name;
    }
}

BadDay worst_day() {
    BadDay day;
    for (const sim::BadDayFigure& figure : sim::bad_day_figures()) {
        day.*figure.member = figure.lowest;
    }
    day.hotter_K = 10.0;
    day.battery_resistance_factor = 1.5;
    day.friction_factor = 1.3;
    return day;
}

TEST(BadDay, LeavesEverySupplyOfTheLibraryOneThatCouldBeRead) {
    const sim::Scenario unit = sim_test::library_unit("cold_room_230v_50hz");
    for (const sim::LibraryEntry& entry : sim::library_supplies()) {
        const sim::SupplyAtHand supply = sim_test::supply(std::string(entry.name));
        const sim::Scenario bad = sim::on_bad_day(sim::on_supply(unit, supply), worst_day());
        std::visit(
            [&](const auto& source) {
                // What is derived was filled in, which the reader takes for given; only what the
                // figures say together can be wrong here.
                if constexpr (!std::is_same_v<std::decay_t<decltype(source)>,
                                              plant_models::InverterParameters>) {
                    EXPECT_EQ(source.inconsistency(), "") << entry.name;
                } else {
                    EXPECT_LT(source.bus_minimum_V, source.bus_voltage_V) << entry.name;
                    EXPECT_LE(source.rated_current_A, source.peak_current_limit_A / std::sqrt(2.0))
                        << entry.name;
                }
            },
            bad.source);
    }
}

TEST(BadDay, NeverIsKinderThanTheScenarioItself) {
    sim::Scenario unit = sim_test::library_unit("cold_room_230v_50hz");
    unit.conditions.rest_s = 45.0;
    unit.conditions.ambient_C = 48.0;
    BadDay day;
    day.rest_s = 200.0;
    day.hotter_K = 2.0;
    const sim::Scenario bad = sim::on_bad_day(unit, day);
    EXPECT_EQ(bad.conditions.rest_s, 45.0);
    EXPECT_EQ(bad.conditions.ambient_C, 48.0);
    EXPECT_EQ(
        sim::on_bad_day(sim_test::library_unit("cold_room_230v_50hz"), day).conditions.ambient_C,
        32.0);
}

TEST(BadDay, AgesCapacitorsAndBearings) {
    const sim::Scenario unit = sim_test::library_unit("cold_room_230v_50hz");
    BadDay day;
    day.run_capacitor_share = 0.9;
    day.start_capacitor_factor = 0.8;
    day.friction_factor = 1.2;
    const sim::Scenario limited = *sim::brought_up(unit, sim::Way::limiter);
    const sim::Scenario bad = sim::on_bad_day(limited, day);
    EXPECT_DOUBLE_EQ(bad.motor.run_capacitor_uF, 22.5);
    EXPECT_DOUBLE_EQ(std::get<sim::BuiltinLimiter>(bad.limiter).parts.start_capacitor_uF, 60.0);
    const auto& load = std::get<plant_models::ReciprocatingParameters>(bad.load);
    EXPECT_DOUBLE_EQ(load.breakaway_torque_Nm, 1.2 * 0.44);
    EXPECT_DOUBLE_EQ(load.bearing_torque_Nm, 1.2 * 0.18);
}

TEST(BadDay, LeavesTheRelayAsItWasChosenForTheNewMotor) {
    const sim::Scenario unit = sim_test::library_unit("cold_room_230v_50hz");
    const sim::Scenario relay = *sim::brought_up(unit, sim::Way::capacitor_relay);
    BadDay day;
    day.run_capacitor_share = 0.85;
    day.start_capacitor_factor = 0.85;
    const auto& chosen = std::get<plant_models::PotentialRelayParameters>(relay.unit.start_aid);
    const auto bad = std::get<plant_models::PotentialRelayParameters>(
        sim::on_bad_day(relay, day).unit.start_aid);
    EXPECT_DOUBLE_EQ(bad.pick_up_V, chosen.completed(unit.motor).pick_up_V);
    EXPECT_DOUBLE_EQ(bad.start_capacitor_uF, 0.85 * chosen.start_capacitor_uF);
}

}  // namespace
