// The yardstick for a controller that learns.
#include "sim/tuning/ladder_search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"

namespace {

sim::Scenario short_start() {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 1.6;
    return scenario;
}

bool go_on(int, int) {
    return true;
}

TEST(LadderSearch, FindsALadderThatIsNoWorseThanTheGivenOneAndDoesWhatItSays) {
    sim::Scenario scenario = short_start();
    const sim::LadderSearch search = sim::search_ladder(scenario, 60, go_on);
    ASSERT_TRUE(search.given.counts);
    ASSERT_TRUE(search.best.counts);
    EXPECT_EQ(search.starts, 60);
    EXPECT_LE(search.best.inrush_100ms_rms_A, search.given.inrush_100ms_rms_A);
    // The ladder that was found, run by itself.
    firmware::Settings& settings = sim_test::limiter_of(scenario).settings;
    ASSERT_LE(search.best.stages.size(), settings.stages.size());
    std::copy(search.best.stages.begin(), search.best.stages.end(), settings.stages.begin());
    const sim::StartResult again = sim::run_start(scenario);
    EXPECT_EQ(again.outcome, sim::Outcome::running);
    EXPECT_EQ(*again.figures.line_current_inrush_100ms_rms_A, search.best.inrush_100ms_rms_A);
    EXPECT_LE(*again.figures.time_to_speed_s, sim::in_time_s);
}

TEST(LadderSearch, KnowsThatAWeakGivenLadderDoesNotCount) {
    sim::Scenario scenario = short_start();
    firmware::Settings& settings = sim_test::limiter_of(scenario).settings;
    settings.stage_count = 1;
    settings.stages[0] = {150, 300};
    const sim::LadderSearch search = sim::search_ladder(scenario, 40, go_on);
    EXPECT_FALSE(search.given.counts);
    EXPECT_TRUE(search.best.counts);
    EXPECT_EQ(search.best.stages.size(), 1U);
}

TEST(LadderSearch, SaysSoWhereNothingStartsTheMotor) {
    sim::Scenario scenario = short_start();
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 60.0;
    scenario.run.duration_s = 1.0;
    EXPECT_FALSE(sim::search_ladder(scenario, 35, go_on).best.counts);
}

TEST(LadderSearch, IsTheSameEveryTime) {
    const sim::LadderSearch one = sim::search_ladder(short_start(), 45, go_on);
    const sim::LadderSearch other = sim::search_ladder(short_start(), 45, go_on);
    EXPECT_EQ(one.best.inrush_100ms_rms_A, other.best.inrush_100ms_rms_A);
    EXPECT_EQ(one.best.time_to_speed_s, other.best.time_to_speed_s);
}

TEST(LadderSearch, CanBeEndedFromOutsideAndKeepsWhatItHas) {
    for (const int end : {3, 30}) {
        const sim::LadderSearch search =
            sim::search_ladder(short_start(), 60, [end](int done, int of) {
                EXPECT_EQ(of, 60);
                return done < end;
            });
        EXPECT_TRUE(search.ended_early);
        EXPECT_EQ(search.starts, end);
        EXPECT_TRUE(search.best.counts);
    }
}

}  // namespace
