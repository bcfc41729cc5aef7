// What is judged, learned and set, at the ends of what can be measured, kept and chosen.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <limits>
#include <random>
#include <vector>

#include "firmware/controller.hpp"
#include "firmware/learning/learned_payload.hpp"
#include "firmware/recognition/run_up.hpp"
#include "ranges/wide.hpp"
#include "settings/fields.hpp"

namespace {

using namespace firmware;
using ranges_test::Wide;

// What the meters can tell at most, in the units that they tell it in.
constexpr std::int32_t most_line_mV = 2048 * line_voltage_mV_per_count;
constexpr std::int32_t most_start_terminal_mV = 2048 * start_terminal_voltage_mV_per_count;
constexpr std::int32_t most_current_mA = 2048 * output_current_mA_per_count;

std::int32_t reading(std::mt19937& random, std::int32_t most) {
    switch (random() % 4) {
        case 0:
            return static_cast<std::int32_t>(random() % 3);
        case 1:
            return most - static_cast<std::int32_t>(random() % 3);
        default:
            return static_cast<std::int32_t>((random() >> random() % 31) %
                                             static_cast<std::uint32_t>(most));
    }
}

Readings extreme_readings(std::mt19937& random) {
    Readings readings;
    readings.line_voltage_rms = MilliVolts{reading(random, most_line_mV)};
    readings.output_current_rms = MilliAmperes{reading(random, most_current_mA)};
    readings.output_current_peak = MilliAmperes{reading(random, most_current_mA)};
    readings.start_terminal_voltage_rms = MilliVolts{reading(random, most_start_terminal_mV)};
    readings.run_capacitor_voltage_rms = MilliVolts{reading(random, 2048 * 800)};
    readings.output_current.positive = MilliAmperes{reading(random, most_current_mA)};
    readings.output_current.negative = MilliAmperes{reading(random, most_current_mA)};
    readings.output_current.leading =
        MilliAmperes{reading(random, most_current_mA) * (random() % 2 == 0 ? 1 : -1)};
    readings.relate_to_line();
    return readings;
}

TEST(Ranges, WhatIsRelatedToTheLineHoldsForEveryReading) {
    std::mt19937 random(21);
    for (int i = 0; i < 200000; ++i) {
        const Readings readings = extreme_readings(random);
        const std::int32_t line = readings.line_voltage_rms.count();
        const Wide exact =
            line == 0 ? 0 : Wide{readings.start_terminal_voltage_rms.count()} * 10000 / line;
        EXPECT_TRUE(readings.start_terminal_level == std::min(exact, Wide{1000000}));
        const Wide per_line =
            line == 0 ? 0 : Wide{readings.output_current_rms.count()} * 1000000 / line;
        EXPECT_TRUE(readings.output_per_line_uS == std::min(per_line, Wide{1000000000}));
    }
}

// A short pulls the line down to nothing while hundreds of amperes flow: current per volt of line
// ran over the end of its type, and the sum of two such values was undefined.
TEST(Ranges, ALineThatCollapsesUnderAShortIsAStandingRotor) {
    Readings sound;
    sound.line_voltage_rms = MilliVolts{230000};
    sound.output_current_rms = MilliAmperes{30000};
    sound.start_terminal_voltage_rms = MilliVolts{74000};
    sound.relate_to_line();
    Readings collapsed = sound;
    collapsed.output_current_rms = MilliAmperes{most_current_mA};
    collapsed.start_terminal_voltage_rms = MilliVolts{0};
    for (const std::int32_t line_mV : {1, 2, 100, 143, 150, 286, 307, 1000}) {
        RunUp run_up{Settings{}};
        run_up.begin();
        for (int i = 0; i < 20; ++i) {
            run_up.observe(sound);
        }
        collapsed.line_voltage_rms = MilliVolts{line_mV};
        collapsed.relate_to_line();
        for (int i = 0; i < 20; ++i) {
            run_up.observe(collapsed);
            EXPECT_FALSE(run_up.up() || run_up.turning()) << line_mV;
        }
    }
}

TEST(Ranges, TheRiseAtSHoldsForEveryReading) {
    std::mt19937 random(22);
    for (int run = 0; run < 300; ++run) {
        RunUp run_up(settings_test::at_their_bounds(random));
        run_up.begin();
        Wide standstill = 0;
        std::int32_t last_level = 0;
        for (int i = 1; i <= 60; ++i) {
            const Readings readings = extreme_readings(random);
            const std::int32_t level = readings.start_terminal_level;
            run_up.observe(readings);
            const Wide mean = (Wide{level} + last_level) / 2;
            last_level = level;
            if (i >= 5) {
                standstill = standstill == 0 || mean < standstill ? mean : standstill;
                ASSERT_TRUE(run_up.rise().count() ==
                            (standstill > 0 ? mean * 1000 / standstill : Wide{1000}));
            }
        }
    }
}

TEST(Ranges, WhatIsLearnedFromAnyStartOnAnyMemoryCanBeKeptAndClimbed) {
    std::mt19937 random(23);
    int taken = 0;
    for (int run = 0; run < 20000; ++run) {
        const Settings settings =
            run % 40 == 0 ? settings_test::at_their_bounds(random) : Settings{};
        const Easing law(settings);
        Learned learned;
        const auto level = [&] {
            return Permille{static_cast<std::int32_t>(
                random() % 2 == 0 ? 100 + random() % 3901 : (random() % 2) * 3900 + 100)};
        };
        const auto level_or_none = [&] { return random() % 3 == 0 ? Permille{0} : level(); };
        Learned foolish;
        foolish.level = level();
        foolish.good = level_or_none();
        foolish.weak = level_or_none();
        foolish.strong = level_or_none();
        foolish.inrush_at_good = MilliAmperes{reading(random, 450000)};
        foolish.peak_at_good = MilliAmperes{reading(random, 450000)};
        foolish.climb_ms_at_good = reading(random, 65535);
        foolish.stage_at_good = static_cast<std::uint8_t>(random() % 8);
        foolish.locked_rotor = MilliAmperes{1 + reading(random, 449990)};
        foolish.starts = static_cast<std::uint8_t>(random());
        foolish.misses = static_cast<std::uint8_t>(random());
        foolish.settled = random() % 2 == 0;
        taken += learned_from(payload_of(foolish), learned) ? 1 : 0;
        for (int start = 0; start < 12; ++start) {
            StartReport report;
            report.ended = static_cast<Reason>(random() % 3 == 0 ? random() % reason_count : 0);
            report.stage = static_cast<std::uint8_t>(
                random() % static_cast<std::uint32_t>(settings.stage_count));
            report.locked_rotor = MilliAmperes{1000 + reading(random, 216000)};
            report.inrush = MilliAmperes{reading(random, most_current_mA)};
            report.peak = MilliAmperes{reading(random, most_current_mA)};
            report.climb_ms = reading(random, 2501);
            learned = law.after(learned, report);
            Learned kept;
            ASSERT_TRUE(learned.is_fresh() || learned_from(payload_of(learned), kept));
            ASSERT_TRUE(learned.is_fresh() || payload_of(kept) == payload_of(learned));
            const Ladder ladder = law.ladder_for(learned, report.locked_rotor);
            ASSERT_EQ(ladder.count, settings.stage_count);
            for (std::size_t i = 0; i < ladder.count; ++i) {
                ASSERT_GT(ladder.stages[i].target.count(), 0);
                ASSERT_LE(ladder.stages[i].target.count(), 1000);
                ASSERT_LE(ladder.stages[i].dwell, ticks_from_ms(2500));
            }
        }
    }
    EXPECT_EQ(taken, 20000);
}

// ---- settings

// Frames that lead through starts and out of them again: a line, a motor that answers roughly, and
// now and then anything.
SensorFrame frame_at(int tick, const ActuatorFrame& last, std::mt19937& random) {
    const int in_cycle = tick % 200;  // 50 Hz
    const std::int32_t line = in_cycle < 100 ? 800 : -800;
    const bool lives = last.contactor_permit == 1;
    const bool flows = last.gate_off_us > last.gate_on_us || last.bypass_contact == 1;
    SensorFrame frame;
    frame.call_for_cooling = tick % 40000 < 39000 ? 1 : 0;
    const auto counts = [](std::int32_t value) {
        return static_cast<std::uint16_t>(value + adc_midpoint);
    };
    frame.line_voltage_counts = counts(line);
    // A motor's while it is gated, a capacitor's, which leads, while that is in alone.
    const std::int32_t leading = (in_cycle + 50) % 200 < 100 ? 100 : -100;
    const std::int32_t in = last.start_capacitor_contact == 1 ? leading : 0;
    frame.output_current_counts = counts(flows ? line / 4 : in);
    frame.start_terminal_voltage_counts = counts(lives ? line * (tick % 20000 / 2000) / 8 : 0);
    if (tick % 15000 > 14800) {
        const auto bits = static_cast<std::uint32_t>(random());
        frame.line_voltage_counts = static_cast<std::uint16_t>(bits % 4096);
        frame.output_current_counts = static_cast<std::uint16_t>((bits >> 12) % 4096);
    }
    return frame;
}

TEST(Ranges, SettingsAtTheirBoundsHoldInEveryCombinationThatIsTried) {
    std::mt19937 random(24);
    int fed_ticks = 0;
    for (int run = 0; run < 60; ++run) {
        Settings settings = settings_test::at_their_bounds(random);
        if (run % 4 != 0) {
            // Bounds that let this line and this motor through: the others are worth more then.
            settings.line_voltage_min_V = 50;
            settings.line_voltage_max_V = 300;
            settings.rated_voltage_V = 0;
            settings.line_frequency_min_mHz = 43000;
            settings.line_frequency_max_mHz = 67000;
            settings.locked_rotor_min_mA = 1000;
            settings.locked_rotor_max_mA = 217000;
            settings.run_capacitor_fitted = 0;
            settings.swapped_impedance_permille = 0;
            settings.rest_before_retry_s = 1;
            settings.lockout_clear_s = 1;
        }
        ASSERT_EQ(check(settings), SettingsProblem::none);
        Controller controller(settings);
        ActuatorFrame out;
        for (int tick = 0; tick < 60000; ++tick) {
            out = controller.step(frame_at(tick, out, random));
            ASSERT_EQ(out.bypass_contact & out.start_capacitor_contact, 0);
            ASSERT_LE(out.gate_off_us, 100);
            fed_ticks += out.contactor_permit;
        }
    }
    EXPECT_GT(fed_ticks, 100000);
}

TEST(Ranges, TheListOfFieldsIsWhole) {
    const std::size_t words = (sizeof(Settings) - sizeof(Settings::stages)) / 4;
    // Two more words hold the two laws' kinds.
    EXPECT_EQ(settings_test::fields().size() + 2, words);
}

// Refused settings used to be multiplied before they were refused: under the sanitizers this stops.
// Covers: CT-07
TEST(Ranges, RefusedSettingsReachNoArithmetic) {
    std::mt19937 random(25);
    std::vector<Settings> refused;
    for (const auto field : settings_test::fields()) {
        for (const std::int32_t value : {std::numeric_limits<std::int32_t>::min(),
                                         std::numeric_limits<std::int32_t>::max(), -1}) {
            Settings settings;
            settings.*field = value;
            refused.push_back(settings);
        }
    }
    for (int run = 0; run < 200; ++run) {
        Settings settings;
        for (const auto field : settings_test::fields()) {
            settings.*field = static_cast<std::int32_t>(random());
        }
        for (StageSettings& stage : settings.stages) {
            stage = {static_cast<std::int32_t>(random()), static_cast<std::int32_t>(random())};
        }
        refused.push_back(settings);
    }
    for (const Settings& settings : refused) {
        ASSERT_NE(check(settings), SettingsProblem::none);
        Controller controller(settings);
        ActuatorFrame out;
        for (int tick = 0; tick < 3000; ++tick) {
            out = controller.step(frame_at(tick, out, random));
            ASSERT_EQ(out.contactor_permit, 0);
        }
        EXPECT_EQ(controller.telemetry().reason, Reason::settings_refused);
    }
}

// Stages behind the last one in use are not looked at by check(); they must not be by anything
// else.
TEST(Ranges, StagesThatAreNotInUseMayHoldAnything) {
    Settings settings;
    for (std::size_t i = 4; i < settings.stages.size(); ++i) {
        settings.stages[i] = {std::numeric_limits<std::int32_t>::max(),
                              std::numeric_limits<std::int32_t>::max()};
    }
    const Ladder ladder = factory_ladder(settings);
    EXPECT_EQ(ladder.count, 4);
    for (std::size_t i = 4; i < ladder.stages.size(); ++i) {
        EXPECT_EQ(ladder.stages[i].target.count(), 0);
    }
}

}  // namespace
