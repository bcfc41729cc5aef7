// Every operation of the units, over the whole range that it promises, against wider arithmetic.
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "firmware/arithmetic/wrapping.hpp"
#include "firmware/gating/conduction.hpp"
#include "firmware/units/phase.hpp"
#include "firmware/units/stopwatch.hpp"
#include "firmware/units/units.hpp"
#include "ranges/wide.hpp"

namespace {

using namespace firmware;
using ranges_test::values_of;
using ranges_test::Wide;

constexpr std::int64_t int_min = std::numeric_limits<std::int32_t>::min();
constexpr std::int64_t int_max = std::numeric_limits<std::int32_t>::max();
constexpr std::int64_t uint_max = std::numeric_limits<std::uint32_t>::max();
constexpr Wide turn = Wide{1} << 32;

std::int32_t narrow(std::int64_t value) {
    return static_cast<std::int32_t>(value);
}
std::uint32_t narrow_unsigned(std::int64_t value) {
    return static_cast<std::uint32_t>(value);
}

TEST(Ranges, UnitsHoldOverTheRangesThatTheyPromise) {
    int sums = 0;
    for (const std::int64_t a : values_of(int_min, int_max)) {
        for (const std::int64_t b : values_of(int_min, int_max)) {
            const MilliVolts x{narrow(a)};
            const MilliVolts y{narrow(b)};
            EXPECT_EQ(x < y, a < b);
            EXPECT_EQ(x == y, a == b);
            if (a + b >= int_min && a + b <= int_max) {
                EXPECT_EQ((x + y).count(), a + b);
                ++sums;
            }
            if (a - b >= int_min && a - b <= int_max) {
                EXPECT_EQ((x - y).count(), a - b);
            }
        }
    }
    EXPECT_GT(sums, 10000);
}

TEST(Ranges, FractionsOfQuantitiesHoldOverTheRangesThatTheyPromise) {
    for (const std::int64_t whole : values_of(-int_max, int_max)) {
        for (const std::int64_t part : values_of(-1000, 1000)) {
            EXPECT_EQ(portion(MilliAmperes{narrow(whole)}, Permille{narrow(part)}).count(),
                      whole * part / 1000);
        }
        for (const std::int64_t part : values_of(int_min, int_max)) {
            const Wide exact = whole <= 0 ? 0 : Wide{part} * 1000 / whole;
            if (exact >= -2000000000 && exact <= 2000000000) {
                EXPECT_EQ(fraction(MilliVolts{narrow(part)}, MilliVolts{narrow(whole)}).count(),
                          exact);
            }
        }
    }
    for (const std::int64_t whole : values_of(-500000000, 500000000)) {
        for (const std::int64_t part : values_of(-4000, 4000)) {
            EXPECT_EQ(portion(MilliVolts{narrow(whole)}, Permille{narrow(part)}).count(),
                      whole * part / 1000);
        }
    }
}

TEST(Ranges, TimesBecomeTicksOverTheRangesThatTheyPromise) {
    for (const std::int64_t ms : values_of(0, 429496729)) {
        EXPECT_EQ(ticks_from_ms(narrow(ms)).count(), ms * 10);
    }
    for (const std::int64_t s : values_of(0, 429496)) {
        EXPECT_EQ(ticks_from_s(narrow(s)).count(), s * 10000);
    }
}

TEST(Ranges, AStopwatchStandsStillAtItsEndHoweverTimePasses) {
    for (const std::int64_t before : values_of(0, uint_max)) {
        for (const std::int64_t more : values_of(0, uint_max, 20)) {
            Stopwatch clock;
            clock.pass(Ticks{narrow_unsigned(before)});
            clock.pass(Ticks{narrow_unsigned(more)});
            EXPECT_EQ(clock.elapsed().count(), std::min(before + more, uint_max));
            clock.tick();
            EXPECT_EQ(clock.elapsed().count(), std::min(before + more + 1, uint_max));
        }
    }
}

TEST(Ranges, WhatRunsRoundRunsRoundByTheWholeTurn) {
    for (const std::int64_t a : values_of(0, uint_max)) {
        for (const std::int64_t b : values_of(0, uint_max)) {
            const std::uint32_t x = narrow_unsigned(a);
            const std::uint32_t y = narrow_unsigned(b);
            EXPECT_TRUE(wrapping_sum(x, y) == (Wide{a} + b) % turn);
            EXPECT_TRUE(wrapping_difference(x, y) == (Wide{a} - b + turn) % turn);
            EXPECT_EQ(Phase{x}.advanced(PhaseStep{y}).count(), wrapping_sum(x, y));
            // The short way round: the distance is the one of smallest size, and leads back.
            const std::int64_t ahead = Phase{x}.ahead_of(Phase{y});
            EXPECT_TRUE((Wide{b} + ahead + turn) % turn == a);
            EXPECT_LE(ahead < 0 ? -ahead : ahead + 1, std::int64_t{1} << 31);
        }
    }
}

TEST(Ranges, AnglesAndFrequenciesHoldOverTheRangesThatTheyPromise) {
    for (const std::int64_t mdeg : values_of(0, 180000, 5000)) {
        const HalfTurn angle = half_turn_from(MilliDegrees{narrow(mdeg)});
        EXPECT_TRUE(angle.count() == (Wide{mdeg} << 32) / 360000);
    }
    for (const std::int64_t count : values_of(0, std::int64_t{1} << 31, 5000)) {
        EXPECT_TRUE(milli_degrees_from(HalfTurn{narrow_unsigned(count)}).count() ==
                    (Wide{count} * 360000 + (turn >> 1)) / turn);
    }
    // Up to a thousand times the line's.
    for (const std::int64_t mHz : values_of(0, 9999999, 5000)) {
        EXPECT_TRUE(phase_step_from(MilliHertz{narrow(mHz)}).count() ==
                    (Wide{mHz} << 32) / 10000000);
    }
    for (const std::int64_t step : values_of(0, uint_max, 5000)) {
        EXPECT_TRUE(frequency_from(PhaseStep{narrow_unsigned(step)}).count() ==
                    (Wide{step} * 10000000 + (turn >> 1)) / turn);
    }
}

TEST(Ranges, TheTableOfConductionTakesAnyAngleAndAnyShare) {
    std::int32_t last = 10000;
    std::vector<std::int64_t> angles = values_of(int_min, int_max, 5000);
    std::sort(angles.begin(), angles.end());
    for (const std::int64_t angle : angles) {
        const std::int32_t conducted = conducted_per_ten_thousand(MilliDegrees{narrow(angle)});
        EXPECT_LE(conducted, last) << angle;
        EXPECT_GE(conducted, 25) << angle;
        last = conducted;
    }
    last = 173000;
    std::vector<std::int64_t> shares = values_of(int_min, int_max, 5000);
    std::sort(shares.begin(), shares.end());
    for (const std::int64_t share : shares) {
        const std::int32_t angle = firing_angle_for(Permille{narrow(share)}).count();
        EXPECT_LE(angle, last) << share;
        EXPECT_GE(angle, 53000) << share;
        last = angle;
    }
}

}  // namespace
