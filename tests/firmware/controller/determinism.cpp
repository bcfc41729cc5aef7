#include <gtest/gtest.h>

#include <cstring>

#include "bench_signals/drive.hpp"

namespace {

using namespace firmware;
using bench_signals::Drive;

// Covers: CT-05
TEST(Determinism, SameInputsGiveSameBits) {
    Drive drive;
    Controller twin{Settings{}};
    for (int tick = 0; tick < 30000; ++tick) {
        drive.motor.call = tick < 25000;
        const SensorFrame samples = drive.motor.sense();
        const ActuatorFrame again = twin.step(samples);
        const ActuatorFrame answer = drive.tick();
        ASSERT_EQ(std::memcmp(&answer, &again, sizeof answer), 0) << tick;
    }
}

TEST(Determinism, ACopyGoesOnFromWhereTheOriginalStood) {
    Drive drive;
    drive.run_for(0.4);
    Controller copy = drive.controller;
    for (int tick = 0; tick < 20000; ++tick) {
        const ActuatorFrame from_copy = copy.step(drive.motor.sense());
        const ActuatorFrame answer = drive.tick();
        ASSERT_EQ(std::memcmp(&answer, &from_copy, sizeof answer), 0) << tick;
    }
}

// The frames of a whole start, as one number (FNV-1a). It must be the same for every compiler,
// optimisation and word size; a change of behaviour changes it, and then it is set anew.
// Covers: CT-05
TEST(Determinism, AllFramesOfAStartAreAsRecorded) {
    Controller controller{Settings{}};
    std::uint64_t hash = 1469598103934665603ULL;
    std::uint32_t state = 12345;
    std::int32_t position = 0;
    std::int32_t speed = 1084 * 64;
    ActuatorFrame out;
    int fired_ago = 1000;
    for (int tick = 0; tick < 30000; ++tick) {
        // A sine by integer rotation (no floating point, so it is the same everywhere): 59.7 Hz.
        position += (speed * 75) / 2000;
        speed -= (position * 75) / 2000;
        state = state * 1664525U + 1013904223U;
        // A motor's current while it is fired or bypassed, a capacitor's while its contact is in.
        fired_ago = out.gate_off_us > out.gate_on_us || out.bypass_contact == 1 ? 0 : fired_ago + 1;
        const std::int32_t lagging = fired_ago < 90 ? position / 600 : 0;
        const std::int32_t leading = out.start_capacitor_contact == 1 ? speed / 1500 : 0;
        SensorFrame frame;
        frame.line_voltage_counts = static_cast<std::uint16_t>(2048 + position / 64);
        frame.output_current_counts =
            static_cast<std::uint16_t>(2048 + lagging + leading + static_cast<int>(state >> 30));
        frame.start_terminal_voltage_counts =
            static_cast<std::uint16_t>(2048 + speed / (tick < 6000 ? 300 : 100));
        frame.call_for_cooling = tick > 100 ? 1 : 0;
        out = controller.step(frame);
        for (const std::uint32_t value :
             {static_cast<std::uint32_t>(out.gate_on_us),
              static_cast<std::uint32_t>(out.gate_off_us), static_cast<std::uint32_t>(out.status),
              static_cast<std::uint32_t>(out.start_capacitor_contact * 4 + out.bypass_contact * 2 +
                                         out.contactor_permit)}) {
            hash = (hash ^ value) * 1099511628211ULL;
        }
    }
    EXPECT_EQ(controller.telemetry().state, State::running);
    EXPECT_EQ(hash, 0xd91c0ffc07dca599ULL) << std::hex << hash;
}

}  // namespace
