#include "firmware/ramp_laws/stage_ladder.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

RampView after_ms(std::int32_t ms) {
    RampView view{};
    view.in_stage = ticks_from_ms(ms);
    return view;
}

Settings three_stages() {
    Settings settings;
    settings.stage_count = 3;
    settings.stages[0] = {300, 100};
    settings.stages[1] = {400, 200};
    settings.stages[2] = {500, 300};
    return settings;
}

TEST(StageLadder, BeginsOnTheFirstStageEveryTime) {
    StageLadder ladder(three_stages());
    EXPECT_EQ(ladder.begin().target.count(), 300);
    ladder.step(after_ms(100));
    EXPECT_EQ(ladder.begin().target.count(), 300);
    EXPECT_EQ(ladder.begin().stage, 0);
}

// Covers: CL-01
TEST(StageLadder, WaitsOutTheDwellAndThenClimbs) {
    StageLadder ladder(three_stages());
    ladder.begin();
    EXPECT_EQ(ladder.step(after_ms(99)).stage, 0);
    const RampOrder order = ladder.step(after_ms(100));
    EXPECT_EQ(order.stage, 1);
    EXPECT_EQ(order.target.count(), 400);
    EXPECT_EQ(order.verdict, RampVerdict::climb);
}

// Covers: CL-01
TEST(StageLadder, StaysWhileTheRotorGainsSpeed) {
    StageLadder ladder(three_stages());
    ladder.begin();
    RampView view = after_ms(500);
    view.turning = true;
    view.accelerating = true;
    EXPECT_EQ(ladder.step(view).stage, 0);
    view.accelerating = false;
    EXPECT_EQ(ladder.step(view).stage, 1);
}

// Covers: CL-01
TEST(StageLadder, DoesNotWaitOnARotorThatIsStuckHalfway) {
    StageLadder ladder(three_stages());
    ladder.begin();
    RampView view = after_ms(20);
    view.turning = true;
    view.settled = true;
    EXPECT_EQ(ladder.step(view).stage, 1);
}

// Covers: CL-01
TEST(StageLadder, HandsOverFromAnyStage) {
    for (int stage = 0; stage < 3; ++stage) {
        StageLadder ladder(three_stages());
        ladder.begin();
        for (int i = 0; i < stage; ++i) {
            ladder.step(after_ms(1000));
        }
        RampView view = after_ms(10);
        view.up = true;
        EXPECT_EQ(ladder.step(view).verdict, RampVerdict::hand_over);
        EXPECT_EQ(ladder.step(view).stage, stage);
    }
}

TEST(StageLadder, HandsOverNearSpeedOnceTheDwellIsOver) {
    StageLadder ladder(three_stages());
    ladder.begin();
    RampView view = after_ms(99);
    view.turning = true;
    view.near_speed = true;
    EXPECT_EQ(ladder.step(view).verdict, RampVerdict::climb);
    view.in_stage = ticks_from_ms(100);
    EXPECT_EQ(ladder.step(view).verdict, RampVerdict::hand_over);
}

// Covers: CL-02
TEST(StageLadder, GivesAStandingRotorUpAfterTheLastDwellButNotATurningOne) {
    StageLadder ladder(three_stages());
    ladder.begin();
    ladder.step(after_ms(100));
    ladder.step(after_ms(200));
    EXPECT_EQ(ladder.step(after_ms(299)).verdict, RampVerdict::climb);
    RampView turning = after_ms(400);
    turning.turning = true;
    EXPECT_EQ(ladder.step(turning).verdict, RampVerdict::climb);
    EXPECT_EQ(ladder.step(after_ms(300)).verdict, RampVerdict::give_up);
}

TEST(StageLadder, ALadderOfOneStageWorks) {
    Settings settings = three_stages();
    settings.stage_count = 1;
    StageLadder ladder(settings);
    EXPECT_EQ(ladder.begin().target.count(), 300);
    EXPECT_EQ(ladder.step(after_ms(100)).verdict, RampVerdict::give_up);
}

}  // namespace
