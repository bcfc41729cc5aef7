#include "firmware/units/phase.hpp"

#include <gtest/gtest.h>

#include "firmware/units/stopwatch.hpp"

namespace {

using namespace firmware;

TEST(Phase, WrapsByItself) {
    const Phase almost_round{0xFFFFFFF0U};
    EXPECT_EQ(almost_round.advanced(PhaseStep{0x20U}).count(), 0x10U);
    EXPECT_TRUE(almost_round.second_half());
    EXPECT_FALSE(almost_round.advanced(PhaseStep{0x20U}).second_half());
}

TEST(Phase, DistanceGoesTheShortWayRound) {
    EXPECT_EQ(Phase{10U}.ahead_of(Phase{0xFFFFFFFEU}), 12);
    EXPECT_EQ(Phase{0xFFFFFFFEU}.ahead_of(Phase{10U}), -12);
}

TEST(Phase, BothHalfCyclesLookAlikeSinceTheirZero) {
    const Phase first{0x20000000U};
    const Phase second{0xA0000000U};
    EXPECT_EQ(first.since_zero(), second.since_zero());
    EXPECT_EQ(milli_degrees_from(first.since_zero()).count(), 45000);
}

TEST(Phase, DegreesSurviveTheWayThereAndBack) {
    for (std::int32_t angle_mdeg = 0; angle_mdeg < 180000; angle_mdeg += 37) {
        const HalfTurn turn = half_turn_from(MilliDegrees{angle_mdeg});
        EXPECT_EQ(milli_degrees_from(turn).count(), angle_mdeg);
    }
}

TEST(Phase, FrequencySurvivesTheWayThereAndBack) {
    for (std::int32_t frequency_mHz = 42000; frequency_mHz <= 68000; frequency_mHz += 13) {
        EXPECT_EQ(frequency_from(phase_step_from(MilliHertz{frequency_mHz})).count(),
                  frequency_mHz);
    }
}

TEST(Stopwatch, SaturatesInsteadOfWrapping) {
    Stopwatch clock;
    clock.expire();
    clock.tick();
    EXPECT_TRUE(clock.reached(Ticks{0xFFFFFFFFU}));
    clock.restart();
    EXPECT_FALSE(clock.reached(Ticks{1U}));
    clock.tick();
    EXPECT_TRUE(clock.reached(Ticks{1U}));
}

}  // namespace
