// The page of a series of starts.
#include "sim/pages/repeat_page.hpp"

#include <gtest/gtest.h>

#include <string>

#include "bench/cases.hpp"

namespace {

sim::RepeatedStart made_up(sim::Outcome outcome, double clamp_A) {
    sim::RepeatedStart row;
    row.start.outcome = outcome;
    row.start.has_limiter = true;
    row.start.figures.line_current_inrush_100ms_rms_A = clamp_A;
    row.sensor_inrush_100ms_rms_A = clamp_A + 1.0;
    if (outcome == sim::Outcome::running) {
        row.stage = 2;
        row.start.figures.time_to_speed_s = 0.75;
    }
    row.memory = sim::RepeatedStart::Memory{firmware::Recovery::fresh, 1000, false};
    return row;
}

sim::RepeatResult with_a_failure() {
    sim::RepeatResult result;
    result.title = "Cellar";
    result.has_limiter = true;
    result.starts = {made_up(sim::Outcome::running, 20.0), made_up(sim::Outcome::resting, 25.0),
                     made_up(sim::Outcome::running, 18.0)};
    return result;
}

TEST(LearningPlot, MarksStartsThatDidNotComeUpWithAnotherSymbolAndInWords) {
    const sim::Plot plot = sim::learning_plot(with_a_failure());
    const sim::Panel& panel = plot.panels.front();
    ASSERT_EQ(panel.series.size(), 3U);
    EXPECT_EQ(panel.series[0].x, (std::vector<double>{1.0, 3.0}));
    EXPECT_EQ(panel.series[0].y, (std::vector<double>{20.0, 18.0}));
    EXPECT_EQ(panel.series[1].x, std::vector<double>{2.0});
    EXPECT_EQ(panel.series[1].y, std::vector<double>{25.0});
    EXPECT_EQ(panel.series[1].symbol, sim::Symbol::cross);
    EXPECT_NE(panel.series[1].name.find("does not come up"), std::string::npos);
    EXPECT_NE(panel.series[0].symbol, panel.series[1].symbol);
    EXPECT_NE(panel.series[0].symbol, panel.series[2].symbol);
}

TEST(LearningPlot, HasNoMarkForFailuresWhereThereAreNone) {
    sim::RepeatResult result = with_a_failure();
    result.starts.erase(result.starts.begin() + 1);
    EXPECT_EQ(sim::learning_plot(result).panels.front().series.size(), 2U);
}

TEST(RepeatPage, NamesTheStartsThatDidNotComeUp) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    const sim::Page page =
        sim::repeat_page(with_a_failure(), {sim::run_recorded_start(scenario), std::nullopt});
    EXPECT_NE(sim::render(page).find("Did not come up: start 2."), std::string::npos);
}

TEST(RepeatPage, ShowsEveryStartAndTheWavesOfTheFirstAndTheLast) {
    const sim::Scenario scenario = sim_test::bundled("dairy_50hz");
    const sim::RepeatPlan plan{3, 600.0, false};
    sim::FirstAndLast waves(plan.starts);
    const sim::RepeatResult result = sim::run_repeat(
        scenario, plan, [](int) { return true; }, {},
        [&](int number, const sim::Scenario& now) { return waves.watcher(number, now); });
    const sim::FirstAndLast::Recorded recorded = waves.finish(result);
    ASSERT_TRUE(recorded.last);
    // The waves are those of the starts that the table tells of.
    const auto lasting = [](const sim::RecordedStart& start) {
        return start.waves.speed_rpm.value.back();
    };
    EXPECT_EQ(lasting(recorded.first), result.starts.front().start.figures.final_speed_rpm);
    EXPECT_EQ(lasting(*recorded.last), result.starts.back().start.figures.final_speed_rpm);
    EXPECT_EQ(recorded.first.waves.speed_rpm.value,
              sim::run_recorded_start(scenario).waves.speed_rpm.value);
    EXPECT_NE(recorded.last->waves.line_current_A.value, recorded.first.waves.line_current_A.value);
    EXPECT_EQ(sim::starts_table(result).rows.size(), 3U);
    const std::string page = sim::render(sim::repeat_page(result, recorded));
    EXPECT_EQ(page, sim::render(sim::repeat_page(result, recorded)));
}

}  // namespace
