// The figures of a start, from made-up courses whose figures are known in closed form.
#include "sim/metrics/start_metrics.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "monitors/tick_sequence.hpp"

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double tick_s = 1e-4;
constexpr double synchronous = 120.0 * pi;

/// Feeds `ticks` + 1 views; `set` fills the plant's outputs at a time.
template <class Set>
sim::StartFigures figures(int ticks, bool has_limiter, Set set, double frequency_Hz = 60.0) {
    sim::StartMetrics metrics(synchronous, frequency_Hz, has_limiter);
    sim_test::TickSequence sequence;
    for (int k = 0; k <= ticks; ++k) {
        sequence.plant.supply_frequency_Hz = frequency_Hz;
        set(sequence.plant, k * tick_s);
        metrics.observe(sequence.view());
        sequence.next();
    }
    return metrics.figures();
}

TEST(StartMetrics, FindThePeakBetweenTicksOfADecayingSineOfAnyPhase) {
    // i = A exp(-t/T) sin(w t + phase): the crest is where tan(w t + phase) = w T.
    constexpr double amplitude = 130.0;
    constexpr double decay_s = 0.05;
    constexpr double omega = 120.0 * pi;
    for (double phase = 0.0; phase < 1.4; phase += 0.11) {
        const auto current = [&](double t) {
            return amplitude * std::exp(-t / decay_s) * std::sin(omega * t + phase);
        };
        const auto rate = [&](double t) {
            return amplitude * std::exp(-t / decay_s) *
                   (omega * std::cos(omega * t + phase) - std::sin(omega * t + phase) / decay_s);
        };
        const sim::StartFigures found =
            figures(500, false, [&](plant_models::PlantOutputs& plant, double t) {
                plant.line_current_A = current(t);
                plant.line_current_rate_A_per_s = rate(t);
            });
        const double crest_s = (std::atan(omega * decay_s) - phase) / omega;
        EXPECT_NEAR(found.line_current_peak_A, current(crest_s), 1e-6 * current(crest_s)) << phase;
        EXPECT_NEAR(found.line_current_peak_at_s, crest_s, 1e-7) << phase;
    }
}

TEST(StartMetrics, FindANegativePeakToo) {
    const double omega = 120.0 * pi;
    const sim::StartFigures found =
        figures(120, false, [&](plant_models::PlantOutputs& plant, double t) {
            plant.line_current_A = -20.0 - 70.0 * std::sin(omega * t + 0.2);
            plant.line_current_rate_A_per_s = -70.0 * omega * std::cos(omega * t + 0.2);
        });
    EXPECT_NEAR(found.line_current_peak_A, 90.0, 90.0 * 1e-6);
}

TEST(StartMetrics, InterpolateTheTimeToSpeed) {
    // w = W (1 - exp(-t/T)) passes 90 % at T ln 10, between two ticks.
    constexpr double time_constant_s = 0.217;
    const sim::StartFigures found =
        figures(8000, false, [&](plant_models::PlantOutputs& plant, double t) {
            plant.speed_rad_per_s = synchronous * (1.0 - std::exp(-t / time_constant_s));
            plant.acceleration_rad_per_s2 =
                synchronous / time_constant_s * std::exp(-t / time_constant_s);
        });
    ASSERT_TRUE(found.time_to_speed_s.has_value());
    EXPECT_NEAR(*found.time_to_speed_s, time_constant_s * std::log(10.0), 1e-9);
}

TEST(StartMetrics, KeepTheFirstTimeToSpeedWhenTheSpeedPassesTwice) {
    const sim::StartFigures found =
        figures(1000, false, [&](plant_models::PlantOutputs& plant, double t) {
            // Rises to 100 % at 50 ms and falls, and again.
            const double period_s = 0.1;
            const double u = std::fmod(t, period_s) / period_s;
            const double up = u < 0.5 ? 2.0 * u : 2.0 - 2.0 * u;
            plant.speed_rad_per_s = synchronous * up;
            plant.acceleration_rad_per_s2 = (u < 0.5 ? 2.0 : -2.0) * synchronous / period_s;
        });
    EXPECT_NEAR(found.time_to_speed_s.value(), 0.045, 1e-9);
    EXPECT_NEAR(found.highest_speed_rpm, 3600.0, 1e-6);
}

TEST(StartMetrics, OfARotorThatNeverComesUpHaveNoTimeToSpeed) {
    const sim::StartFigures found =
        figures(2000, true, [&](plant_models::PlantOutputs& plant, double) {
            plant.speed_rad_per_s = 0.8999 * synchronous;
        });
    EXPECT_FALSE(found.time_to_speed_s.has_value());
    EXPECT_FALSE(found.handover_s.has_value());
    EXPECT_NEAR(found.final_speed_rpm, 0.8999 * 3600.0, 1e-6);
}

TEST(StartMetrics, OfAShortRunLeaveEmptyWhatHasNotBeenMeasured) {
    const auto constant = [](plant_models::PlantOutputs& plant, double) {
        plant.line_current_A = 3.0;
        plant.line_voltage_V = 230.0;
    };
    const sim::StartFigures half = figures(80, false, constant);  // 8 ms, a half cycle is 8.33
    EXPECT_FALSE(half.line_current_half_cycle_rms_max_A.has_value());
    EXPECT_FALSE(half.line_current_one_cycle_rms_max_A.has_value());
    EXPECT_FALSE(half.line_voltage_half_cycle_rms_min_V.has_value());
    EXPECT_FALSE(half.line_current_inrush_100ms_rms_A.has_value());
    const sim::StartFigures more = figures(120, false, constant);
    EXPECT_NEAR(more.line_current_half_cycle_rms_max_A.value(), 3.0, 1e-9);
    EXPECT_FALSE(more.line_current_one_cycle_rms_max_A.has_value());
    EXPECT_FALSE(more.line_voltage_one_cycle_rms_min_V.has_value());
    const sim::StartFigures cycle = figures(170, false, constant);
    EXPECT_NEAR(cycle.line_current_one_cycle_rms_max_A.value(), 3.0, 1e-9);
    EXPECT_NEAR(cycle.line_voltage_one_cycle_rms_min_V.value(), 230.0, 1e-9);
    EXPECT_FALSE(cycle.line_current_inrush_100ms_rms_A.has_value());
    EXPECT_NEAR(figures(1000, false, constant).line_current_inrush_100ms_rms_A.value(), 3.0, 1e-9);
}

TEST(StartMetrics, KeepTheHighestCurrentAndTheLowestVoltageOfAllHalfCycles) {
    // 10 A and 230 V, but 30 A and 190 V in the fourth half cycle only.
    const sim::StartFigures found = figures(
        2000, false,
        [&](plant_models::PlantOutputs& plant, double t) {
            const bool fourth = t > 0.03 + 1e-9 && t < 0.04 - 1e-9;
            plant.line_current_A = fourth ? 30.0 : 10.0;
            plant.line_voltage_V = fourth ? 190.0 : 230.0;
        },
        50.0);
    EXPECT_NEAR(found.line_current_half_cycle_rms_max_A.value(), 30.0, 0.2);
    EXPECT_NEAR(found.line_current_one_cycle_rms_max_A.value(), std::sqrt(500.0), 0.2);
    EXPECT_NEAR(found.line_voltage_half_cycle_rms_min_V.value(), 190.0, 0.5);
    EXPECT_NEAR(found.line_voltage_one_cycle_rms_min_V.value(),
                std::sqrt(0.5 * (190.0 * 190.0 + 230.0 * 230.0)), 0.5);
    // 100 ms with one such half cycle in it: sqrt(0.9 * 100 + 0.1 * 900).
    EXPECT_NEAR(found.line_current_inrush_100ms_rms_A.value(), std::sqrt(180.0), 0.1);
}

TEST(StartMetrics, TimeTheHandOverAndTheStartCapacitorOnlyWithALimiter) {
    const auto course = [](plant_models::PlantOutputs& plant, double t) {
        plant.bypass_closed = t > 0.0500 - 1e-9;
        plant.start_capacitor_in = t > 0.0100 - 1e-9 && t < 0.0300 - 1e-9;
    };
    const sim::StartFigures limited = figures(1000, true, course);
    EXPECT_NEAR(limited.handover_s.value(), 0.05, 1e-12);
    EXPECT_NEAR(limited.start_capacitor_in_s, 0.02, 1e-9);
    const sim::StartFigures direct = figures(1000, false, course);
    EXPECT_FALSE(direct.handover_s.has_value());
    EXPECT_EQ(direct.start_capacitor_in_s, 0.0);
}

TEST(StartMetrics, CountTheTimeThatTheRotorHasTurnedBackwardsWithoutAPause) {
    // Rocks at 5 Hz, then turns backwards for good from 0.3 s on.
    const auto rocking = [](plant_models::PlantOutputs& plant, double t) {
        plant.speed_rad_per_s = t < 0.3 - 1e-9 ? 50.0 * std::sin(10.0 * pi * t) : -80.0;
    };
    EXPECT_NEAR(figures(2999, false, rocking).backwards_at_end_s, 0.0, 1e-9);
    EXPECT_NEAR(figures(1999, false, rocking).backwards_at_end_s, 0.1, 2.0 * tick_s);
    EXPECT_NEAR(figures(8000, false, rocking).backwards_at_end_s, 0.5, 2.0 * tick_s);
}

TEST(StartMetrics, ReadALineWhoseFrequencyDipsAtItsOwnFrequency) {
    // 230 V and 20 A from 60 Hz down to 50 Hz within 0.25 s: neither RMS changes.
    const auto dipping = [](plant_models::PlantOutputs& plant, double t) {
        plant.supply_frequency_Hz = 60.0 - 40.0 * t;
        const double phase = 2.0 * pi * (60.0 * t - 20.0 * t * t);
        plant.line_voltage_V = std::sqrt(2.0) * 230.0 * std::sin(phase + 0.4);
        plant.line_current_A = std::sqrt(2.0) * 20.0 * std::sin(phase + 0.4);
    };
    const sim::StartFigures read = figures(2500, false, dipping);
    EXPECT_NEAR(*read.line_voltage_half_cycle_rms_min_V, 230.0, 0.01 * 230.0);
    EXPECT_NEAR(*read.line_current_half_cycle_rms_max_A, 20.0, 0.01 * 20.0);
}

}  // namespace
