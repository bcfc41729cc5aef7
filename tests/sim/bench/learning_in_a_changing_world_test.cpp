// What was learned on one day must start the compressor on another.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "sim/bench/repeat_run.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

struct Unit {
    std::string compressor;
    std::string supply;
    std::string start_capacitor_uF;  ///< three times the run capacitor
    std::string other;               ///< what is put into its box later
};

const std::vector<Unit>& units() {
    static const std::vector<Unit> all = {
        {"cold_room_230v_50hz", "rural_grid_230v_50hz", "75", "milk_cooler_240v_50hz"},
        {"outdoor_3_ton_scroll", "house_service_240v_60hz", "150", "outdoor_4_ton_scroll"},
        {"outdoor_1_5_ton_rotary", "rural_service_240v_60hz", "90", "outdoor_2_ton_scroll"},
        {"window_unit_115v_60hz", "house_leg_120v_60hz", "75", "dehumidifier_115v_60hz"},
    };
    return all;
}

constexpr int starts_before = 8;

sim::Scenario series(const Unit& unit, const std::string& change) {
    return sim::parse_scenario(
        "[library]\ncompressor = \"" + unit.compressor + "\"\nsupply = \"" + unit.supply +
            "\"\n[conditions]\nambient_C = 35\n[run]\nduration_s = 1.8\nrest_between_s = 300\n"
            "[start_aid]\nkind = \"none\"\n[limits]\nminimum_rest_s = 100\n"
            "[limiter]\nkind = \"builtin\"\nrest_before_retry_s = 100\nstart_capacitor_uF = " +
            unit.start_capacitor_uF + "\n[[change]]\nbefore_start = " +
            std::to_string(starts_before + 1) + "\n" + change + "\n",
        "series.toml");
}

void expect_starts_and_settles(const Unit& unit, const std::string& change) {
    SCOPED_TRACE(unit.compressor + ", then " + change);
    constexpr int most_to_settle = 6;
    constexpr int starts_after = most_to_settle + 4;
    const sim::RepeatResult result =
        sim::run_repeat(series(unit, change), {starts_before + starts_after, 300.0, false});
    int lowest = 4000;
    int highest = 0;
    int number = 0;
    for (const sim::RepeatedStart& row : result.starts) {
        ++number;
        EXPECT_EQ(row.start.outcome, sim::Outcome::running) << number;
        EXPECT_TRUE(row.start.monitors.empty()) << number;
        if (number > starts_before + most_to_settle) {
            lowest = std::min(lowest, row.memory.value().learned_level_permille);
            highest = std::max(highest, row.memory.value().learned_level_permille);
        }
    }
    EXPECT_LE(highest - lowest, highest / 20) << lowest << " to " << highest;
}

// Covers: LRN-09
TEST(LearningInAChangingWorld, AHotterDayStartsAndSettlesAgain) {
    for (const Unit& unit : units()) {
        expect_starts_and_settles(unit, "ambient_C = 46");
    }
}

// Covers: LRN-09
TEST(LearningInAChangingWorld, AShorterRestStartsAndSettlesAgain) {
    for (const Unit& unit : units()) {
        expect_starts_and_settles(unit, "rest_between_s = 120");
    }
}

// Covers: LRN-09
TEST(LearningInAChangingWorld, AWeakerLineStartsAndSettlesAgain) {
    for (const Unit& unit : units()) {
        expect_starts_and_settles(unit, "line_voltage_factor = 0.92");
    }
}

// Covers: LRN-09
TEST(LearningInAChangingWorld, AnAgedRunCapacitorStartsAndSettlesAgain) {
    for (const Unit& unit : units()) {
        expect_starts_and_settles(unit, "run_capacitor_factor = 0.8");
    }
}

// Covers: LRN-11
TEST(LearningInAChangingWorld, AnotherCompressorInTheBoxStartsAndSettles) {
    for (const Unit& unit : units()) {
        expect_starts_and_settles(unit, "compressor = \"" + unit.other + "\"");
    }
}

// Covers: LRN-10
TEST(LearningInAChangingWorld, ADriftOverFiveHundredStartsIsFollowedWithoutAFailedStart) {
    // Worn bearings: the friction of a cold room's compressor grows to four and a half times.
    sim::Scenario scenario = series(units().front(), "friction_factor_per_start = 1.003");
    scenario.run.duration_s = 1.2;
    const sim::RepeatResult result = sim::run_repeat(scenario, {508, 300.0, false});
    ASSERT_EQ(result.starts.size(), 508U);
    for (const sim::RepeatedStart& row : result.starts) {
        ASSERT_EQ(row.start.outcome, sim::Outcome::running) << row.call_at_s;
        ASSERT_TRUE(row.start.monitors.empty()) << row.call_at_s;
    }
    EXPECT_GT(result.starts.back().memory.value().learned_level_permille,
              result.starts[8].memory.value().learned_level_permille * 11 / 10);
}

}  // namespace
