#include "firmware/watch/watch.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "bench_signals/drive.hpp"
#include "firmware/contract/sensor_scale.hpp"
#include "firmware/controller.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;

std::vector<WatchedVariable> all_variables() {
    std::vector<WatchedVariable> all;
    for (std::size_t k = 0; k < Watch::part_count; ++k) {
        const WatchedPart part = Watch::part(k);
        all.insert(all.end(), part.first, part.first + part.count);
    }
    return all;
}

std::map<std::string, std::int64_t> values_of(const Controller& controller) {
    std::map<std::string, std::int64_t> values;
    for (const WatchedVariable& variable : all_variables()) {
        values[variable.name] = variable.value(controller);
    }
    return values;
}

TEST(Watch, NamesEveryVariableOnceByItsPartAndSaysWhatItIs) {
    const std::regex form("[a-z][a-z_]*\\.[a-z][A-Za-z0-9_]*");
    std::set<std::string> names;
    for (std::size_t k = 0; k < Watch::part_count; ++k) {
        const WatchedPart part = Watch::part(k);
        ASSERT_GT(part.count, 0U) << k;
        const std::string first = part.first[0].name;
        const std::string prefix = first.substr(0, first.find('.') + 1);
        for (std::size_t i = 0; i < part.count; ++i) {
            const std::string name = part.first[i].name;
            EXPECT_TRUE(std::regex_match(name, form)) << name;
            EXPECT_EQ(name.rfind(prefix, 0), 0U) << name;
            EXPECT_TRUE(names.insert(name).second) << name;
            EXPECT_GT(std::string(part.first[i].meaning).size(), 5U) << name;
        }
    }
    EXPECT_EQ(Watch::part(Watch::part_count).count, 0U);
}

TEST(Watch, ShowsWhatTheTelemetryTells) {
    Drive drive;
    for (int k = 0; k < 15000; ++k) {
        drive.tick();
        if (k % 97 != 0) {
            continue;
        }
        const std::map<std::string, std::int64_t> seen = values_of(drive.controller);
        const Telemetry& told = drive.controller.telemetry();
        ASSERT_EQ(seen.at("sequence.state"), static_cast<std::int64_t>(told.state)) << k;
        ASSERT_EQ(seen.at("sequence.reason"), static_cast<std::int64_t>(told.reason)) << k;
        ASSERT_EQ(seen.at("climbing.stage"), told.stage) << k;
        ASSERT_EQ(seen.at("sequence.tries_made"), told.tries_made) << k;
        ASSERT_EQ(seen.at("line.phase"), told.line_phase) << k;
        ASSERT_EQ(seen.at("line.locked"), told.line_locked) << k;
        ASSERT_EQ(seen.at("seen.line_frequency_mHz"), told.line_frequency_mHz) << k;
        ASSERT_EQ(seen.at("seen.line_voltage_rms_mV"), told.line_voltage_rms_mV) << k;
        ASSERT_EQ(seen.at("seen.output_current_rms_mA"), told.output_current_rms_mA) << k;
        ASSERT_EQ(seen.at("probing.locked_rotor_mA"), told.locked_rotor_estimate_mA) << k;
        ASSERT_EQ(seen.at("learning.level_permille"), told.learned_level_permille) << k;
        ASSERT_EQ(seen.at("memory.command"),
                  static_cast<std::int64_t>(drive.controller.store_command().kind))
            << k;
    }
    EXPECT_EQ(drive.state(), State::running);
}

TEST(Watch, OfTheMetersIsWhatTheyHaveSummedUp) {
    // Worked out here from the samples: the sum and the number since the reading was last taken,
    // which is so when that of the current is next.
    constexpr int output_current_next = 3;
    Drive drive;
    bool has_begun = false;
    std::int64_t samples = 0;
    std::int64_t sum = 0;
    for (int k = 0; k < 3000; ++k) {
        const SensorFrame frame = drive.motor.sense();
        drive.tick();
        const std::map<std::string, std::int64_t> seen = values_of(drive.controller);
        if (seen.at("meters.next") == output_current_next) {
            has_begun = true;
            samples = 0;
            sum = 0;
        }
        if (!has_begun) {
            continue;
        }
        ++samples;
        sum += frame.line_voltage_counts - adc_midpoint;
        ASSERT_EQ(seen.at("meters.line_now_samples"), samples) << k;
        ASSERT_EQ(seen.at("meters.line_now_sum"), sum) << k;
    }
}

TEST(Watch, ShowsHowALineThatJumpsInPhaseIsFollowed) {
    Controller controller({});
    constexpr double pi = 3.14159265358979;
    std::int64_t most_refreshes_far_off = 0;
    for (int k = 0; k < 8000; ++k) {
        const double jump_rad = k < 4000 ? 0.0 : 0.6;
        SensorFrame frame;
        frame.line_voltage_counts = static_cast<std::uint16_t>(
            std::lround(adc_midpoint + 1000.0 * std::sin(2.0 * pi * 60.0 * k * 1e-4 + jump_rad)));
        frame.output_current_counts = adc_midpoint;
        frame.start_terminal_voltage_counts = adc_midpoint;
        controller.step(frame);
        const std::map<std::string, std::int64_t> seen = values_of(controller);
        if (k == 3999) {
            ASSERT_EQ(seen.at("line.locked"), 1);
            ASSERT_EQ(most_refreshes_far_off, 0);
        }
        if (seen.at("line.locked") == 1) {
            most_refreshes_far_off =
                std::max(most_refreshes_far_off, seen.at("line.far_off_refreshes"));
        }
    }
    EXPECT_GT(most_refreshes_far_off, 0);
}

TEST(Watch, ChangesNothing) {
    Drive watched;
    Drive alone;
    for (int k = 0; k < 12000; ++k) {
        const ActuatorFrame one = watched.tick();
        const ActuatorFrame other = alone.tick();
        values_of(watched.controller);
        ASSERT_EQ(one.gate_on_us, other.gate_on_us) << k;
        ASSERT_EQ(one.gate_off_us, other.gate_off_us) << k;
        ASSERT_EQ(one.status, other.status) << k;
    }
    EXPECT_EQ(values_of(watched.controller), values_of(alone.controller));
}

}  // namespace
