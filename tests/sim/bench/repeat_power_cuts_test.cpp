// The controller loses its power between starts; its flash stays.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/results/repeat_json.hpp"

namespace {

using firmware::Recovery;
using sim_test::bundled;

/// A start that is over soon, with a law that learns. The rest is the controller's own.
sim::Scenario learning_scenario() {
    sim::Scenario scenario = bundled("reference_limited");
    firmware::Settings& settings = sim_test::limiter_of(scenario).settings;
    settings.learning_law = firmware::LearningLawKind::easing;
    scenario.run.duration_s = 1.6;
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
    EXPECT_EQ(levels(kept).front(), 0);
    EXPECT_GT(levels(kept).back(), 0);
    for (std::size_t row = 0; row < 8; ++row) {
        EXPECT_EQ(kept.starts[row].memory->found, Recovery::fresh)
            << "found once, at the beginning";
        EXPECT_EQ(cut.starts[row].memory->found, row == 0 ? Recovery::fresh : Recovery::recovered);
        EXPECT_TRUE(cut.starts[row].start.monitors.empty());
    }
    EXPECT_EQ(cut.store_wear.word_writes, kept.store_wear.word_writes);
}

TEST(RepeatPowerCuts, AtAnyTickOfAWriteCostsAtMostWhatTheLastStartTaught) {
    const std::vector<int> kept = levels(sim::run_repeat(learning_scenario(), {5, 300.0, false}));
    // The first record needs an erase of 300 ticks and nine words; the others nine words.
    int torn = 0;
    for (const double after_s : {0.0,    0.0001, 0.0002, 0.0003, 0.0004, 0.0005, 0.0006, 0.0007,
                                 0.0008, 0.0009, 0.001,  0.0011, 0.0012, 0.0013, 0.02,   0.0301,
                                 0.0303, 0.0305, 0.0307, 0.0309, 0.0311, 0.0313, 0.05}) {
        const sim::RepeatResult cut = with_cuts(after_s, 5);
        for (const sim::RepeatedStart& row : cut.starts) {
            EXPECT_TRUE(row.start.monitors.empty()) << after_s;
            EXPECT_EQ(row.start.outcome, sim::Outcome::running) << after_s;
            const bool remembers = row.memory->found == Recovery::recovered ||
                                   row.memory->found == Recovery::recovered_older;
            EXPECT_EQ(row.memory->learned_level_permille > 0, remembers) << after_s;
            torn += row.memory->found == Recovery::recovered_older ||
                            row.memory->found == Recovery::nothing_valid
                        ? 1
                        : 0;
        }
        EXPECT_EQ(levels(cut).front(), 0);
        if (after_s >= 0.05) {
            EXPECT_EQ(levels(cut), kept);
        }
    }
    EXPECT_GT(torn, 10);
}

TEST(RepeatPowerCuts, TakeTheControllersRestWithThem) {
    // It does not know that the motor ran a minute ago: what the monitor is there to tell.
    const sim::RepeatResult kept = sim::run_repeat(bundled("reference_limited"), {2, 60.0, false});
    EXPECT_EQ(kept.starts[1].start.cause, "rest_not_over");
    const sim::RepeatResult cut = sim::run_repeat(bundled("reference_limited"), {2, 60.0, true});
    EXPECT_EQ(cut.starts[1].start.outcome, sim::Outcome::running);
    ASSERT_EQ(cut.starts[1].start.monitors.size(), 1U);
    EXPECT_EQ(cut.starts[1].start.monitors[0].monitor, "retry_before_rest");
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
    // One record of nine words per start that taught something, one erase per page of seven.
    EXPECT_EQ(result.store_wear.word_writes % 9, 0);
    EXPECT_GE(result.store_wear.word_writes, 9);
    EXPECT_LE(result.store_wear.word_writes, 90);
    EXPECT_GE(result.store_wear.erases, 1);
    EXPECT_DOUBLE_EQ(sim::per_10000_starts(3, result), 3000.0);
    EXPECT_DOUBLE_EQ(sim::endurance_share(result),
                     static_cast<double>(result.store_wear.erases_of_a_page) * 1000.0 / 10000.0);
    const auto json = sim::repeat_json(result);
    EXPECT_EQ(json["power_cuts"], true);
    EXPECT_EQ(json["store"]["word_writes"], result.store_wear.word_writes);
    EXPECT_EQ(json["store"]["writes_per_10000_starts"],
              1000.0 * static_cast<double>(result.store_wear.word_writes));
    EXPECT_EQ(json["starts"][0]["memory"], "fresh");
    EXPECT_EQ(json["starts"][9]["memory"], "recovered");
    EXPECT_EQ(json["starts"][9]["learned_level_permille"],
              result.starts[9].memory->learned_level_permille);
    EXPECT_TRUE(json["starts"][9]["changed"].is_null());
}

TEST(RepeatPowerCuts, ALawThatLearnsNothingWritesNothing) {
    const sim::RepeatResult result =
        sim::run_repeat(bundled("reference_limited"), {3, 300.0, true});
    EXPECT_EQ(result.store_wear.word_writes, 0);
    EXPECT_EQ(result.store_wear.erases, 0);
}

}  // namespace
