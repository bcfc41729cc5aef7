// What is measured, for samples at the ends of the converter and for garbage, against wider
// arithmetic that does the same without any bound.
#include <gtest/gtest.h>

#include <array>
#include <random>

#include "firmware/gating/gate_timer.hpp"
#include "firmware/measurement/cycle_rms.hpp"
#include "firmware/measurement/half_waves.hpp"
#include "firmware/measurement/line_tracker.hpp"
#include "firmware/measurement/quadrature_generator.hpp"
#include "ranges/wide.hpp"

namespace {

using namespace firmware;
using ranges_test::floor_divided;
using ranges_test::Wide;

constexpr std::int32_t lowest_sample = -2048;
constexpr std::int32_t highest_sample = 2047;

// Ways in which samples go to extremes.
constexpr int ways = 6;
std::int32_t extreme_sample(int way, int tick, Phase tracked, std::mt19937& random) {
    switch (way) {
        case 0:
            return lowest_sample;
        case 1:
            return tick % 2 == 0 ? lowest_sample : highest_sample;
        case 2:
            return tick / 83 % 2 == 0 ? lowest_sample : highest_sample;  // 60 Hz
        case 3:  // always a quarter turn from where the tracker believes the line to be
            return tracked.advanced(PhaseStep{0x40000000U}).second_half() ? lowest_sample
                                                                          : highest_sample;
        case 4:  // where it believes it to be, as strong as can be
            return tracked.second_half() ? lowest_sample : highest_sample;
        default:
            return static_cast<std::int32_t>(random() % 4096) - 2048;
    }
}

Wide root_of(Wide value) {
    Wide low = 0;
    Wide high = Wide{1} << 33;
    while (high - low > 1) {
        const Wide middle = (low + high) / 2;
        (middle * middle <= value ? low : high) = middle;
    }
    return low;
}

TEST(Ranges, CycleRmsHoldsForTheLongestHalfCyclesOfTheLargestSamples) {
    std::mt19937 random(3);
    for (int way = 0; way < ways; ++way) {
        for (const int samples : {1, 2, 83, 999, 1000, 1001, 5000}) {
            for (const std::int32_t scale : {1, 150, 300, 500, 800, 1000}) {
                CycleRms meter;
                std::array<Wide, 2> sum{};
                std::array<Wide, 2> squares{};
                std::int32_t told = 0;
                for (std::size_t half = 0; half < 2; ++half) {
                    for (int k = 0; k < samples; ++k) {
                        const std::int32_t sample = extreme_sample(way, k, Phase{}, random);
                        meter.add(sample);
                        if (k < 1000) {
                            sum[half] += sample;
                            squares[half] += Wide{sample} * sample;
                        }
                    }
                    told = meter.close_half_cycle(scale);
                }
                const Wide n = 2 * (samples < 1000 ? samples : 1000);
                const Wide all = sum[0] + sum[1];
                const Wide spread = n * (squares[0] + squares[1]) - all * all;
                EXPECT_TRUE(told == root_of(spread * scale * scale / (n * n)))
                    << way << " " << samples << " " << scale;
                EXPECT_TRUE(meter.mean_counts() == all / n);
            }
        }
    }
}

TEST(Ranges, HalfWavesHoldForTheLongestHalfCyclesOfTheLargestSamples) {
    std::mt19937 random(4);
    for (int way = 0; way < ways; ++way) {
        for (const int samples : {1, 2, 83, 999, 1000, 1001, 5000}) {
            HalfWaves meter;
            Wide positive = 0;
            Wide negative = 0;
            Wide leading = 0;
            HalfWaveMeans told;
            for (int half = 0; half < 2; ++half) {
                for (int k = 0; k < samples; ++k) {
                    const std::int32_t sample = extreme_sample(way, k, Phase{}, random);
                    const Phase phase{static_cast<std::uint32_t>(random())};
                    meter.add(sample, phase);
                    if (k < 1000) {
                        (sample > 0 ? positive : negative) += sample > 0 ? sample : -sample;
                        const bool rises =
                            phase.count() < 0x40000000U || phase.count() >= 0xC0000000U;
                        leading += rises ? sample : -sample;
                    }
                }
                told = meter.close_half_cycle(1000);
            }
            const Wide n = 2 * (samples < 1000 ? samples : 1000);
            EXPECT_TRUE(told.positive.count() == positive * 1000 / n) << way << " " << samples;
            EXPECT_TRUE(told.negative.count() == negative * 1000 / n) << way << " " << samples;
            EXPECT_TRUE(told.leading.count() == leading * 1000 / n) << way << " " << samples;
        }
    }
}

// The equations of quadrature_generator.hpp in fixed point, in a type that nothing leaves.
struct WideGenerator {
    Wide in_phase = 0;
    Wide quadrature_ahead = 0;
    Wide quadrature = 0;
    Wide offset = 0;

    static Wide bounded(Wide value) {
        const Wide largest = Wide{8192} * 4096;
        return value > largest ? largest : (value < -largest ? -largest : value);
    }
    static Wide shifted(Wide value, int bits) { return floor_divided(value, Wide{1} << bits); }

    Wide surprise(std::int32_t sample) const { return Wide{sample} * 4096 - in_phase - offset; }
    void step(Wide error, std::uint32_t tuned_to) {
        const Wide w = shifted(Wide{tuned_to} * 25736, 20);
        in_phase =
            bounded(in_phase + shifted(w * (shifted(320 * error, 8) - quadrature_ahead), 24));
        const Wide turn = shifted(w * in_phase, 24);
        quadrature = bounded(quadrature_ahead + shifted(turn, 1));
        quadrature_ahead = bounded(quadrature_ahead + turn);
        offset = bounded(offset + shifted(w * shifted(64 * error, 8), 24));
    }
};

TEST(Ranges, TheQuadratureGeneratorHoldsForSamplesThatDriveItAsFarAsTheyCan) {
    std::mt19937 random(5);
    for (int way = 0; way < ways; ++way) {
        for (const std::int32_t mHz : {42000, 55000, 60000, 68000}) {
            QuadratureGenerator generator;
            WideGenerator wide;
            const PhaseStep step = phase_step_from(MilliHertz{mHz});
            Phase phase;
            for (int tick = 0; tick < 30000; ++tick) {
                // In turns with its own swing and against it.
                const bool with = generator.in_phase() >= 0;
                const std::int32_t sample =
                    way == 3 ? (with ? highest_sample : lowest_sample)
                             : (way == 4 ? (with ? lowest_sample : highest_sample)
                                         : extreme_sample(way, tick, phase, random));
                phase = phase.advanced(step);
                const std::int32_t surprise = tick % 997 < 60 ? 0 : generator.surprise(sample);
                ASSERT_TRUE(surprise == 0 || surprise == wide.surprise(sample));
                generator.step(surprise, step);
                wide.step(surprise, step.count());
                ASSERT_TRUE(generator.in_phase() == wide.in_phase) << way << " " << tick;
                ASSERT_TRUE(generator.quadrature() == wide.quadrature) << way << " " << tick;
            }
        }
    }
}

TEST(Ranges, TheLineTrackerStaysInItsBandWhateverItIsShown) {
    std::mt19937 random(6);
    const std::uint32_t slowest = phase_step_from(MilliHertz{42000}).count();
    const std::uint32_t fastest = phase_step_from(MilliHertz{68000}).count();
    for (int way = 0; way <= ways; ++way) {
        LineTracker tracker;
        for (int tick = 0; tick < 100000; ++tick) {
            // At last all of them, one after another.
            const int now = way < ways ? way : static_cast<int>(tick / 700) % ways;
            tracker.step(extreme_sample(now, tick, tracker.phase(), random));
            ASSERT_GE(tracker.phase_step().count(), slowest);
            ASSERT_LE(tracker.phase_step().count(), fastest);
        }
    }
}

TEST(Ranges, GateEdgesHoldForEveryPhaseStepAndAngle) {
    std::mt19937 random(7);
    const HalfTurn latest = half_turn_from(MilliDegrees{175000});
    const auto microseconds = [](Wide distance, Wide step) {
        return (distance * 100 + step / 2) / step;
    };
    int edges = 0;
    for (int run = 0; run < 3000; ++run) {
        const HalfTurn end{static_cast<std::uint32_t>(random()) >> 1};
        GateTimer timer(end);
        const Wide pulse_end = end < latest ? end.count() : latest.count();
        const PhaseStep step =
            phase_step_from(MilliHertz{42000 + static_cast<std::int32_t>(random() % 26001)});
        const HalfTurn firing{static_cast<std::uint32_t>(random()) >> 1};
        Phase now{static_cast<std::uint32_t>(random())};
        // A half cycle passes first, so that the next one is armed at its beginning.
        for (int tick = 0; tick < 360; ++tick, now = now.advanced(step)) {
            const GateWindow window = timer.step(now, step, tick > 130, firing);
            ASSERT_GE(window.on.count(), 0);
            ASSERT_LE(window.on.count(), window.off.count());
            ASSERT_LE(window.off.count(), 100);
            const Wide begin = now.advanced(step).since_zero().count();
            if (window.on.count() > 0) {
                ASSERT_TRUE(window.on.count() ==
                            microseconds(firing.count() - begin, step.count()));
                ++edges;
            }
            if (window.off.count() > 0 && window.off.count() < 100) {
                ASSERT_TRUE(window.off.count() == microseconds(pulse_end - begin, step.count()));
                ++edges;
            }
        }
    }
    EXPECT_GT(edges, 3000);
}

}  // namespace
