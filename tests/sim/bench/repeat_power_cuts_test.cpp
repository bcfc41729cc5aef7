// The controller loses its power between starts; its flash stays.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/results/repeat_json.hpp"

namespace {

using firmware::Recovery;
using sim_test::bundled;

/// A start that is over soon, with a law that learns. The call comes when the rest is over that the
/// controller may owe at power-up, as at a thermostat that was satisfied meanwhile.
sim::Scenario learning_scenario() {
    sim::Scenario scenario = bundled("reference_limited");
    firmware::Settings& settings = sim_test::limiter_of(scenario).settings;
    settings.learning_law = firmware::LearningLawKind::easing;
    settings.rest_before_retry_s = 1;
    scenario.run.call_on_s = 1.3;
    scenario.run.duration_s = 2.9;
    return scenario;
}

sim::RepeatResult with_cuts(double after_s, int starts) {
    sim::Scenario scenario = learning_scenario();
    scenario.run.power_off_after_s = after_s;
    return sim::run_repeat(scenario, {starts, 300.0, true});
}

std::vector<int> levels(const sim::RepeatResult& result) {
    std::vector<int> all;
    for (const sim::RepeatedStart& row : result.starts) {
        all.push_back(row.memory.value().learned_level_permille);
    }
    return all;
}

TEST(RepeatPowerCuts, LearningGoesOnAsIfThePowerHadStayed) {
    const sim::RepeatResult kept = sim::run_repeat(learning_scenario(), {8, 300.0, false});
    const sim::RepeatResult cut = with_cuts(1.0, 8);
    EXPECT_EQ(levels(cut), levels(kept));
    EXPECT_EQ(levels(kept).front(), 1000) << "as set";
    EXPECT_NE(levels(kept), std::vector<int>(8, 1000)) << "else nothing is shown";
    EXPECT_TRUE(kept.starts.back().memory->settled);
    for (std::size_t row = 0; row < 8; ++row) {
        EXPECT_EQ(kept.starts[row].memory->found, Recovery::recovered) << "as commissioned";
        EXPECT_EQ(cut.starts[row].memory->found, Recovery::recovered);
        EXPECT_EQ(cut.starts[row].memory->settled, kept.starts[row].memory->settled) << row;
        EXPECT_EQ(cut.starts[row].start.outcome, sim::Outcome::running);
        EXPECT_TRUE(cut.starts[row].start.monitors.empty());
    }
    EXPECT_EQ(cut.store_wear.word_writes, kept.store_wear.word_writes);
}

/// Each start begins with what the one before began with, or with what that one has taught besides;
/// `kept` is the course of learning of which nothing was ever lost.
bool loses_at_most_the_last_lesson(const std::vector<int>& cut, const std::vector<int>& kept) {
    std::set<std::size_t> lessons = {0};
    for (std::size_t row = 0; row < cut.size(); ++row) {
        std::set<std::size_t> possible;
        for (const std::size_t before : lessons) {
            for (const std::size_t now : {before, before + (row > 0 ? 1 : 0)}) {
                if (kept.at(now) == cut[row]) {
                    possible.insert(now);
                }
            }
        }
        lessons = possible;
    }
    return !lessons.empty();
}

TEST(RepeatPowerCuts, AtAnyTickOfAWriteCostsAtMostWhatTheLastStartTaught) {
    const std::vector<int> kept = levels(sim::run_repeat(learning_scenario(), {5, 300.0, false}));
    // What a start has taught needs nine words; behind the third start, whose record finds its page
    // full, an erase of 300 ticks before them.
    int torn = 0;
    for (const double after_s : {0.0,    0.0001, 0.0002, 0.0003, 0.0004, 0.0005, 0.0006, 0.0007,
                                 0.0008, 0.0009, 0.001,  0.0011, 0.0012, 0.0013, 0.02,   0.0301,
                                 0.0303, 0.0305, 0.0307, 0.0309, 0.0311, 0.0313, 0.05}) {
        const sim::RepeatResult cut = with_cuts(after_s, 5);
        for (std::size_t row = 0; row < cut.starts.size(); ++row) {
            EXPECT_TRUE(cut.starts[row].start.monitors.empty()) << after_s;
            EXPECT_EQ(cut.starts[row].start.outcome, sim::Outcome::running) << after_s;
            // Before a start feeds the motor it is whole in the store that a rest will be owed.
            const Recovery found = cut.starts[row].memory->found;
            EXPECT_TRUE(found == Recovery::recovered ||
                        (row > 0 && found == Recovery::recovered_older))
                << after_s << " start " << row;
            torn += found == Recovery::recovered_older ? 1 : 0;
        }
        EXPECT_TRUE(loses_at_most_the_last_lesson(levels(cut), kept)) << after_s;
        if (after_s >= 0.05) {
            EXPECT_EQ(levels(cut), kept);
        }
    }
    EXPECT_GT(torn, 10);
}

TEST(RepeatPowerCuts, LeaveTheRestThatIsOwedToTheControllerThatComesNext) {
    // It does not know how long it was without power, so it rests in full.
    for (const double power_off_after_s : {1.0, 200.0}) {
        sim::Scenario scenario = bundled("reference_limited");
        scenario.run.power_off_after_s = power_off_after_s;
        const sim::RepeatResult cut = sim::run_repeat(scenario, {2, 300.0, true});
        EXPECT_EQ(cut.starts[1].start.cause, "rest_not_over") << power_off_after_s;
        EXPECT_TRUE(cut.starts[1].start.monitors.empty());
    }
    // And not for longer.
    sim::Scenario scenario = learning_scenario();
    scenario.run.call_on_s = 0.0;
    const sim::RepeatResult waits = sim::run_repeat(scenario, {2, 300.0, true});
    EXPECT_EQ(waits.starts[1].start.outcome, sim::Outcome::running);
    EXPECT_NEAR(*waits.starts[1].start.figures.time_to_speed_s,
                *waits.starts[0].start.figures.time_to_speed_s + 1.0, 0.3);
    EXPECT_TRUE(waits.starts[1].start.monitors.empty());
}

TEST(RepeatPowerCuts, AfterTheRestDelayNoStart) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.run.power_off_after_s = 250.0;  // the rest takes 240 s
    const sim::RepeatResult cut = sim::run_repeat(scenario, {3, 300.0, true});
    for (const sim::RepeatedStart& row : cut.starts) {
        EXPECT_EQ(row.start.outcome, sim::Outcome::running);
        EXPECT_NEAR(row.start.figures.time_to_speed_s.value_or(99.0),
                    *cut.starts[0].start.figures.time_to_speed_s, 0.2);
        EXPECT_TRUE(row.start.monitors.empty());
    }
}

TEST(RepeatPowerCuts, ComeAtTheLatestWhenTheRestIsOver) {
    sim::Scenario scenario = learning_scenario();
    scenario.run.power_off_after_s = 5000.0;
    const sim::RepeatResult cut = sim::run_repeat(scenario, {2, 300.0, true});
    EXPECT_EQ(cut.starts[1].memory->found, Recovery::recovered);
}

TEST(RepeatPowerCuts, OfADirectStartAreNone) {
    const sim::RepeatResult cut = sim::run_repeat(bundled("reference_direct"), {2, 300.0, true});
    EXPECT_FALSE(cut.starts[0].memory.has_value());
    EXPECT_EQ(cut.store_wear.word_writes, 0);
    EXPECT_TRUE(sim::repeat_json(cut)["store"].is_null());
    EXPECT_TRUE(sim::repeat_json(cut)["starts"][0]["memory"].is_null());
}

TEST(RepeatPowerCuts, WearIsCountedAndScaledToTenThousandStarts) {
    const sim::RepeatResult result = with_cuts(1.0, 10);
    // Records of nine words: per start that a rest will be owed and what it taught, per rest that
    // it is over; one erase per page of seven. The last rest is not a part of the series, and what
    // the last start taught is written in it.
    const std::int64_t records = 3 * 9 + 1;
    EXPECT_EQ(result.store_wear.word_writes, 9 * records);
    EXPECT_EQ(result.store_wear.erases, (records + 6) / 7);
    EXPECT_DOUBLE_EQ(sim::per_10000_starts(3, result), 3000.0);
    EXPECT_DOUBLE_EQ(sim::endurance_share(result),
                     static_cast<double>(result.store_wear.erases_of_a_page) * 1000.0 / 10000.0);
    const auto json = sim::repeat_json(result);
    EXPECT_EQ(json["power_cuts"], true);
    EXPECT_EQ(json["store"]["word_writes"], result.store_wear.word_writes);
    EXPECT_EQ(json["store"]["writes_per_10000_starts"],
              1000.0 * static_cast<double>(result.store_wear.word_writes));
    EXPECT_EQ(json["starts"][0]["memory"], "recovered") << "as commissioned";
    EXPECT_EQ(json["starts"][9]["memory"], "recovered");
    EXPECT_EQ(json["starts"][9]["learned_level_permille"],
              result.starts[9].memory->learned_level_permille);
    EXPECT_TRUE(json["starts"][9]["changed"].is_null());
}

TEST(RepeatPowerCuts, ALawThatLearnsNothingKeepsOnlyThatARestIsOwed) {
    sim::Scenario scenario = learning_scenario();
    sim_test::limiter_of(scenario).settings.learning_law = firmware::LearningLawKind::none;
    scenario.run.power_off_after_s = 1.0;
    const sim::RepeatResult result = sim::run_repeat(scenario, {3, 300.0, true});
    // Of two starts that it will be owed, the tries given back by the run, that it is over; then of
    // the third.
    EXPECT_GT(result.store_wear.word_writes, 0);
    EXPECT_LE(result.store_wear.word_writes, 9 * (2 * 3 + 1));
    EXPECT_EQ(levels(result), (std::vector<int>{1000, 1000, 1000}));
    EXPECT_FALSE(sim::has_learned(result));
}

}  // namespace
