#include "sim/tuning/regret.hpp"

#include <gtest/gtest.h>

#include "bench/cases.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/tuning/ladder_search.hpp"

namespace {

bool go_on(int, int) {
    return true;
}

sim::Scenario short_start() {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 1.4;
    return scenario;
}

sim::RepeatResult series_with_regret(const sim::Scenario& scenario, int starts, int ladders) {
    return sim::run_repeat(
        scenario, {starts, 300.0, false}, [](int) { return true; },
        [ladders](sim::StartBench& bench, const sim::Scenario& now) {
            return std::optional<sim::Regret>(sim::measure_regret(bench, now, ladders, go_on));
        });
}

TEST(Regret, IsAtMostATenthOfTheReferenceMotorOnceSettled) {
    const sim::RepeatResult result = series_with_regret(short_start(), 8, 120);
    ASSERT_TRUE(result.regret.has_value());
    ASSERT_TRUE(result.regret->value().has_value());
    EXPECT_LE(*result.regret->value(), 1.10);
    EXPECT_GE(*result.regret->value(), 1.0);
    EXPECT_EQ(result.regret->starts, 120);
    // And never above the settings' ladder.
    EXPECT_LE(result.regret->learned_A.value(), result.regret->as_set_A.value());
}

TEST(Regret, IsMeasuredBesideTheSeriesAndLeavesItAlone) {
    const sim::RepeatResult with = series_with_regret(short_start(), 4, 40);
    const sim::RepeatResult without = sim::run_repeat(short_start(), {4, 300.0, false});
    ASSERT_EQ(with.starts.size(), without.starts.size());
    for (std::size_t k = 0; k < with.starts.size(); ++k) {
        EXPECT_EQ(with.starts[k].start.figures.line_current_peak_A,
                  without.starts[k].start.figures.line_current_peak_A);
    }
}

TEST(Regret, OfAStartThatFailsIsNone) {
    sim::Scenario scenario = short_start();
    auto& settings = sim_test::limiter_of(scenario).settings;
    settings.learning_law = firmware::LearningLawKind::none;
    for (auto& stage : settings.stages) {
        stage.dwell_ms = 50;
    }
    settings.stages[0].target_permille = 100;
    settings.stages[1].target_permille = 110;
    settings.stages[2].target_permille = 120;
    settings.stages[3].target_permille = 130;
    const sim::RepeatResult result = series_with_regret(scenario, 1, 60);
    ASSERT_TRUE(result.regret.has_value());
    EXPECT_FALSE(result.regret->learned_A.has_value());
    EXPECT_TRUE(result.regret->best_A.has_value());
    EXPECT_FALSE(result.regret->value().has_value());
}

TEST(StartBench, ACopyStartsAsTheBenchItselfWouldHave) {
    const sim::Scenario scenario = short_start();
    sim::StartBench bench(scenario);
    bench.run_start(nullptr);
    bench.coast_and_rest(300.0);
    sim::Scenario other = scenario;
    sim_test::limiter_of(other).settings.learning_law = firmware::LearningLawKind::none;
    const auto first = bench.copy_with_new_controller(other)->run_start(nullptr);
    const auto again = bench.copy_with_new_controller(other)->run_start(nullptr);
    EXPECT_EQ(first.figures.line_current_peak_A, again.figures.line_current_peak_A);
    EXPECT_EQ(first.outcome, sim::Outcome::running);
    EXPECT_LT(first.energy.closure(), 1e-3);
}

}  // namespace
