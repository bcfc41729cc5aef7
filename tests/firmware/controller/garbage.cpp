#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "firmware/controller.hpp"

namespace {

using namespace firmware;

constexpr int ten_minutes = 600 * ticks_per_second;

// What must hold for every frame, whatever came in. Empty when it holds.
std::string broken_rule(const SensorFrame& in, const ActuatorFrame& out) {
    const bool gated = out.gate_off_us > out.gate_on_us;
    const bool called = in.version == frame_version && in.call_for_cooling == 1;
    if (out.version != frame_version || out.reserved != 0) {
        return "header";
    }
    if (out.gate_on_us > out.gate_off_us || out.gate_off_us > 100) {
        return "gate window";
    }
    if (out.start_capacitor_contact > 1 || out.bypass_contact > 1 || out.contactor_permit > 1) {
        return "a coil is neither on nor off";
    }
    if (out.start_capacitor_contact == 1 && out.bypass_contact == 1) {
        return "bypass together with start capacitor";
    }
    if (out.contactor_permit == 0 &&
        (gated || out.start_capacitor_contact == 1 || out.bypass_contact == 1)) {
        return "fed without permit";
    }
    if (!called && out.contactor_permit == 1) {
        return "permit without call";
    }
    if ((out.status & 0xFF) >= state_count || (out.status >> 8) >= reason_count) {
        return "status";
    }
    const State state = static_cast<State>(out.status & 0xFF);
    if (feeds_motor(state) != (out.contactor_permit == 1)) {
        return "state and permit disagree";
    }
    if (state == State::running && gated) {
        return "gated while running";
    }
    return "";
}

// Also: the pulses of one stretch never outlast a half cycle, and the start capacitor its limit.
class Watch {
  public:
    void look(const SensorFrame& in, const ActuatorFrame& out) {
        const std::string broken = broken_rule(in, out);
        if (!broken.empty() && first_broken.empty()) {
            first_broken = broken;
        }
        pulse_us_ = (out.gate_on_us == 0 ? pulse_us_ : 0) + (out.gate_off_us - out.gate_on_us);
        longest_pulse_us = std::max(longest_pulse_us, pulse_us_);
        if (out.gate_off_us != 100) {
            pulse_us_ = 0;
        }
        capacitor_ticks_ = out.start_capacitor_contact == 1 ? capacitor_ticks_ + 1 : 0;
        longest_capacitor_ticks = std::max(longest_capacitor_ticks, capacitor_ticks_);
        fed_ticks += out.contactor_permit;
        gated_ticks += out.gate_off_us > out.gate_on_us ? 1 : 0;
    }

    std::string first_broken;
    int longest_pulse_us = 0;
    int longest_capacitor_ticks = 0;
    int fed_ticks = 0;
    int gated_ticks = 0;

  private:
    int pulse_us_ = 0;
    int capacitor_ticks_ = 0;
};

Settings quick_to_start_again() {
    Settings settings;
    settings.rest_before_retry_s = 1;
    settings.tries = 20;
    settings.lockout_clear_s = 1;
    settings.locked_rotor_min_mA = 1000;
    settings.swapped_impedance_permille = 0;
    settings.start_capacitor_in_permille = 2500;
    settings.half_wave_difference_permille = 800;
    settings.run_capacitor_fitted = 0;
    return settings;
}

// Covers: CT-01, CT-02, CT-03
TEST(Garbage, TenMinutesOfRandomFramesNeverGiveAnIllegalFrame) {
    Controller controller(quick_to_start_again());
    Watch watch;
    std::mt19937_64 random(5);
    for (int tick = 0; tick < ten_minutes; ++tick) {
        const std::uint64_t bits = random();
        SensorFrame frame;
        frame.version = (bits & 0xF) != 0 ? frame_version : static_cast<std::uint16_t>(bits >> 48);
        frame.line_voltage_counts = static_cast<std::uint16_t>(bits >> 4);
        frame.output_current_counts = static_cast<std::uint16_t>(bits >> 20);
        frame.start_terminal_voltage_counts = static_cast<std::uint16_t>(bits >> 36);
        frame.heatsink_counts = static_cast<std::uint16_t>(bits >> 12);
        frame.call_for_cooling = (bits >> 52) % 64 != 0 ? 1 : static_cast<std::uint16_t>(bits);
        watch.look(frame, controller.step(frame));
    }
    EXPECT_EQ(watch.first_broken, "");
}

// Covers: CT-01, CT-02, CT-03, HO-01
TEST(Garbage, HalfAnHourOfAGoodLineWithRandomMotorSignalsNeverGiveAnIllegalFrame) {
    Controller controller(quick_to_start_again());
    Watch watch;
    std::mt19937 random(6);
    std::vector<std::uint16_t> line(500);  // three cycles of 60 Hz
    for (std::size_t i = 0; i < line.size(); ++i) {
        const double angle = 2.0 * std::acos(-1.0) * 60.0 * static_cast<double>(i) * 1e-4;
        line[i] = static_cast<std::uint16_t>(2048 + std::lround(1084.0 * std::sin(angle)));
    }
    std::uint32_t current_scale = 0;
    std::uint32_t voltage_scale = 0;
    bool call = true;
    ActuatorFrame out;
    int fed_ago = 0;
    for (int tick = 0; tick < 3 * ten_minutes; ++tick) {
        const auto bits = static_cast<std::uint32_t>(random());
        if (bits % 997 == 0) {
            current_scale = (bits >> 10) & 0x7FF;
            voltage_scale = (bits >> 21) & 0x7FF;
        }
        if (bits % 15013 == 0) {
            call = !call;
        }
        const auto swing =
            static_cast<std::int32_t>(line[static_cast<std::size_t>(tick) % 500]) - 2048;
        // ... and a start capacitor's leads.
        const std::size_t lead = out.start_capacitor_contact == 1 ? 42 : 0;
        const auto swing_of_current =
            static_cast<std::int32_t>(line[(static_cast<std::size_t>(tick) + lead) % 500]) - 2048;
        const auto scaled = [&](std::int32_t of, std::uint32_t scale) {
            return static_cast<std::uint16_t>(2048 + of * static_cast<std::int32_t>(scale) / 1100);
        };
        // Mostly a current only where one was asked for: else no start would get past its first
        // look.
        const bool asked = out.gate_off_us > out.gate_on_us || out.bypass_contact == 1 ||
                           out.start_capacitor_contact == 1;
        fed_ago = asked ? 0 : fed_ago + 1;
        const bool flows = fed_ago < 90 || fed_ago % 50000 > 40000;
        SensorFrame frame;
        frame.line_voltage_counts = line[static_cast<std::size_t>(tick) % 500];
        frame.output_current_counts = scaled(swing_of_current, flows ? current_scale : 0);
        frame.start_terminal_voltage_counts = scaled(swing, voltage_scale);
        frame.call_for_cooling = call ? 1 : 0;
        out = controller.step(frame);
        watch.look(frame, out);
    }
    EXPECT_EQ(watch.first_broken, "");
    // The run is worth something only if the motor has often been fed.
    EXPECT_GT(watch.fed_ticks, 20 * ticks_per_second);
    EXPECT_GT(watch.gated_ticks, 10 * ticks_per_second);
    EXPECT_LE(watch.longest_pulse_us, 1000000 / 120);
    EXPECT_LE(watch.longest_capacitor_ticks, 20000);
}

TEST(Garbage, ConstantExtremesNeverFeedTheMotor) {
    for (const int value : {0, 1, 2048, 4095, 0xFFFF}) {
        Controller controller{Settings{}};
        for (int tick = 0; tick < 5 * ticks_per_second; ++tick) {
            SensorFrame frame;
            frame.line_voltage_counts = static_cast<std::uint16_t>(value);
            frame.output_current_counts = static_cast<std::uint16_t>(value);
            frame.start_terminal_voltage_counts = static_cast<std::uint16_t>(value);
            frame.heatsink_counts = static_cast<std::uint16_t>(value);
            frame.call_for_cooling = 1;
            const ActuatorFrame out = controller.step(frame);
            ASSERT_EQ(broken_rule(frame, out), "");
            ASSERT_EQ(out.contactor_permit, 0) << value;
        }
    }
}

}  // namespace
