#include "firmware/measurement/half_waves.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace {

using namespace firmware;

const double two_pi = 2.0 * std::acos(-1.0);

// The last of three cycles of 50 Hz of a current that the function gives over the line's angle, in
// counts.
template <class Current>
HalfWaveMeans measure(Current current, std::int32_t scale = 150) {
    HalfWaves half_waves;
    HalfWaveMeans means;
    for (int tick = 0; tick < 600; ++tick) {
        if (tick > 0 && tick % 100 == 0) {
            means = half_waves.close_half_cycle(scale);
        }
        const double turn = tick / 200.0 - std::floor(tick / 200.0);
        const Phase phase{static_cast<std::uint32_t>(turn * 4294967296.0)};
        half_waves.add(static_cast<std::int32_t>(std::lround(current(turn * two_pi))), phase);
    }
    return half_waves.close_half_cycle(scale);
}

// The mean of one half wave of a sine, over the whole turn, is its crest over pi.
constexpr double pi = 3.14159265;

TEST(HalfWaves, OfASineAreAlikeAndItsCrestOverPi) {
    const HalfWaveMeans means = measure([](double angle) { return 1000.0 * std::sin(angle); });
    EXPECT_NEAR(means.positive.count(), 150 * 1000 / pi, 150);
    EXPECT_NEAR(means.negative.count(), 150 * 1000 / pi, 150);
    EXPECT_NEAR(means.leading.count(), 0, 1600);  // a sample at the edge of each quarter
}

TEST(HalfWaves, ACapacitorLeadsAndAChokeLags) {
    const HalfWaveMeans capacitor = measure([](double angle) { return 1000.0 * std::cos(angle); });
    EXPECT_NEAR(capacitor.leading.count(), 150 * 2000 / pi, 1000);
    const HalfWaveMeans choke = measure([](double angle) { return -1000.0 * std::cos(angle); });
    EXPECT_NEAR(choke.leading.count(), -150 * 2000 / pi, 1000);
    // At a power factor of 0.6, lagging.
    const HalfWaveMeans motor =
        measure([](double angle) { return 1000.0 * std::sin(angle - std::acos(0.6)); });
    EXPECT_NEAR(motor.leading.count(), -0.8 * 150 * 2000 / pi, 1500);
}

TEST(HalfWaves, ALoneThyristorShowsOnOneSide) {
    const HalfWaveMeans means =
        measure([](double angle) { return std::fmax(0.0, 1000.0 * std::sin(angle)); });
    EXPECT_NEAR(means.positive.count(), 150 * 1000 / pi, 150);
    EXPECT_EQ(means.negative.count(), 0);
}

TEST(HalfWaves, SayNothingBeforeAFullCycle) {
    HalfWaves half_waves;
    EXPECT_EQ(half_waves.close_half_cycle(150).positive.count(), 0);
    half_waves.add(500, Phase{});
    EXPECT_EQ(half_waves.close_half_cycle(150).positive.count(), 0);
    half_waves.add(500, Phase{});
    EXPECT_EQ(half_waves.close_half_cycle(150).positive.count(), 75000);
}

TEST(HalfWaves, AnEndlessHalfCycleOfFullScaleDoesNotOverflow) {
    HalfWaves half_waves;
    for (int half = 0; half < 2; ++half) {
        for (int i = 0; i < 100000; ++i) {
            half_waves.add(-2048, Phase{0x40000000U});
        }
        const HalfWaveMeans means = half_waves.close_half_cycle(1000);
        EXPECT_EQ(means.negative.count(), half == 0 ? 0 : 2048000);
        EXPECT_EQ(means.leading.count(), half == 0 ? 0 : 2048000);
    }
}

}  // namespace
