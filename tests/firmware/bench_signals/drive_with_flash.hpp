// A controller at a synthetic motor whose memory lies in a flash that keeps its rules.
#pragma once

#include <gtest/gtest.h>

#include "bench_signals/drive.hpp"
#include "memory/flash.hpp"

namespace bench_signals {

/// A controller that learns, and whose rest before a start is too short to wait for.
inline firmware::Settings learning_with_short_rests() {
    firmware::Settings settings;
    settings.learning_law = firmware::LearningLawKind::easing;
    settings.rest_before_retry_s = 1;
    return settings;
}

/// One tick, with what it tells the store.
inline void tick(Drive& drive, memory_test::Flash& flash) {
    drive.tick();
    flash.carry_out(drive.controller.store_command());
}

inline void run_for(Drive& drive, memory_test::Flash& flash, double seconds) {
    // Half a tick, so that no rounding adds one.
    const double end_s = drive.motor.time_s() + seconds - 5e-5;
    while (drive.motor.time_s() < end_s) {
        tick(drive, flash);
    }
    EXPECT_EQ(flash.broken_rule(), "");
}

/// False if the state is not met in that time.
inline bool run_until(Drive& drive, memory_test::Flash& flash, firmware::State state,
                      double limit_s) {
    const double end_s = drive.motor.time_s() + limit_s;
    while (drive.motor.time_s() < end_s) {
        tick(drive, flash);
        if (drive.state() == state) {
            return true;
        }
    }
    return false;
}

}  // namespace bench_signals
