// The same series with several learning laws.
#include "sim/bench/repeat_comparison.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/results/repeat_json.hpp"

namespace {

using sim_test::bundled;

sim::Scenario learning_scenario() {
    sim::Scenario scenario = bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.learning_law = firmware::LearningLawKind::easing;
    scenario.run.duration_s = 1.6;
    return scenario;
}

TEST(RepeatComparison, IsTheSeriesThatEachLawRunsAlone) {
    const sim::RepeatComparison both = sim::run_repeat_comparison(
        learning_scenario(), {4, 300.0, false}, {"none", "easing"}, [](int) { return true; });
    ASSERT_EQ(both.series.size(), 2U);
    EXPECT_EQ(both.series[0].learning_law, "none");
    EXPECT_EQ(sim::repeat_json(both.series[1].result).dump(),
              sim::repeat_json(sim::run_repeat(learning_scenario(), {4, 300.0, false})).dump());
    for (const sim::RepeatedStart& row : both.series[0].result.starts) {
        EXPECT_EQ(row.memory.value().learned_level_permille, 1000) << "as set";
        EXPECT_FALSE(row.memory->settled);
    }
    EXPECT_TRUE(std::any_of(
        both.series[1].result.starts.begin(), both.series[1].result.starts.end(),
        [](const auto& row) { return row.memory.value().learned_level_permille != 1000; }));
}

sim::LawSeries series_of(const std::vector<double>& currents_A) {
    sim::LawSeries series;
    for (const double current_A : currents_A) {
        series.result.starts.emplace_back();
        series.result.starts.back().start.figures.line_current_inrush_100ms_rms_A = current_A;
    }
    return series;
}

TEST(RepeatComparison, OfALadderThatHasSettledAStartWithoutAReadingLeavesNoSettledCurrent) {
    sim::LawSeries series = series_of({30, 25, 24, 24, 24});
    for (sim::RepeatedStart& row : series.result.starts) {
        row.memory = sim::RepeatedStart::Memory{{}, 750, true};
    }
    EXPECT_EQ(sim::settled_inrush_A(series.result), 30.0) << "the ladder never changed";
    series.result.starts[3].start.figures.line_current_inrush_100ms_rms_A.reset();
    EXPECT_EQ(sim::settled_inrush_A(series.result), std::nullopt);
}

TEST(RepeatComparison, ComparesTheLargestSettledCurrentWithTheLastLaws) {
    sim::RepeatComparison comparison;
    comparison.series = {series_of({30, 25, 20, 20.5, 20.25}), series_of({30, 30, 25, 20, 15}),
                         series_of({41, 41, 41})};
    EXPECT_EQ(sim::settled_inrush_A(comparison.series[0].result), 20.5);
    EXPECT_EQ(sim::settled_ratio(comparison, 0), 0.5);
    EXPECT_EQ(sim::settled_inrush_A(comparison.series[1].result), std::nullopt);
    EXPECT_EQ(sim::settled_ratio(comparison, 1), std::nullopt);
    EXPECT_EQ(sim::settled_ratio(comparison, 2), 1.0);
    comparison.series.back().result.interrupted = true;
    EXPECT_EQ(sim::settled_ratio(comparison, 0), std::nullopt);
}

TEST(RepeatComparison, StopsWithTheSeriesThatWasInterrupted) {
    const sim::RepeatComparison stopped =
        sim::run_repeat_comparison(bundled("reference_limited"), {3, 300.0, false},
                                   {"none", "none"}, [](int done) { return done < 2; });
    EXPECT_EQ(stopped.series.size(), 1U);
    EXPECT_FALSE(stopped.as_expected());
}

}  // namespace
