// The coarse course of a start, for pictures in text.
#include "sim/bench/course_recorder.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "monitors/tick_sequence.hpp"

namespace {

TEST(CourseRecorder, GivesOneRowPer20MillisecondsWithTheRmsOverThem) {
    sim::CourseRecorder course(0.2);
    sim_test::TickSequence at;
    for (int k = 0; k <= 2000; ++k) {
        const double phase = 2.0 * 3.14159265358979323846 * 50.0 * at.time_s();
        at.plant.line_current_A = 10.0 * std::sqrt(2.0) * std::sin(phase);
        at.plant.line_voltage_V = 230.0 * std::sqrt(2.0) * std::cos(phase);
        at.plant.speed_rad_per_s = 1000.0 * at.time_s();
        course.observe(at.view());
        at.next();
    }
    ASSERT_EQ(course.course().size(), 10U);
    for (std::size_t k = 0; k < 10; ++k) {
        const sim::CoursePoint& row = course.course()[k];
        EXPECT_NEAR(row.time_s, 0.02 * static_cast<double>(k + 1), 1e-12);
        EXPECT_NEAR(row.line_current_rms_A, 10.0, 0.05);
        EXPECT_NEAR(row.line_voltage_rms_V, 230.0, 1.0);
        EXPECT_NEAR(row.speed_rpm, 1000.0 * row.time_s * 30.0 / 3.14159265358979323846, 1e-6);
    }
}

TEST(CourseRecorder, KeepsEveryChangeOfStateOrStageOnce) {
    sim::CourseRecorder course(0.2);
    sim_test::TickSequence at;
    firmware::Telemetry telemetry;
    const auto show = [&](firmware::State state, std::uint8_t stage, int ticks) {
        telemetry.state = state;
        telemetry.stage = stage;
        for (int k = 0; k < ticks; ++k) {
            sim::TickView view = at.view();
            view.controller = &telemetry;
            course.observe(view);
            at.next();
        }
    };
    show(firmware::State::resting, 0, 5);
    show(firmware::State::climbing, 0, 7);
    show(firmware::State::climbing, 1, 9);
    show(firmware::State::running, 1, 3);
    ASSERT_EQ(course.controller_steps().size(), 4U);
    EXPECT_NEAR(course.controller_steps()[1].time_s, 5e-4, 1e-12);
    EXPECT_NEAR(course.controller_steps()[2].time_s, 12e-4, 1e-12);
    EXPECT_EQ(course.controller_steps()[2].stage, 1);
    EXPECT_NEAR(course.controller_steps()[3].time_s, 21e-4, 1e-12);
}

TEST(CourseRecorder, ReachesTheEndOfAnHourInCoarserRows) {
    sim::CourseRecorder course(3600.0);
    sim_test::TickSequence at;
    sim::Instant now{0};
    // One sample in a hundred milliseconds is enough to see which rows come of it.
    for (int k = 0; k <= 36000; ++k) {
        sim::TickView view = at.view();
        view.time = now;
        at.plant.time_s = 1e-9 * static_cast<double>(now.count());
        course.observe(view);
        now += sim::Instant{100000000};
    }
    EXPECT_LE(course.course().size(), 3000U);
    EXPECT_GE(course.course().size(), 1500U);
    EXPECT_GE(course.course().back().time_s, 3590.0);
}

TEST(CourseRecorder, DropsRowsRatherThanGrowing) {
    sim::CourseRecorder course(0.04);
    sim_test::TickSequence at;
    for (int k = 0; k <= 10000; ++k) {
        course.observe(at.view());
        at.next();
    }
    EXPECT_LE(course.course().size(), 4U);
    EXPECT_GE(course.course().size(), 2U);
}

}  // namespace
