#include "plant_models/supplies/sine_reference.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "support/random_numbers.hpp"

namespace {

using plant_models::SineReference;

constexpr long double long_pi = 3.14159265358979323846264338327950288L;

struct Wave {
    double amplitude, frequency_Hz, phase_deg;

    long double angle(double time_s) const {
        const long double turns = static_cast<long double>(frequency_Hz) * time_s;
        return 2.0L * long_pi * (turns - std::floor(turns)) + long_pi / 180.0L * phase_deg;
    }
    double value(double time_s) const {
        return static_cast<double>(amplitude * std::sin(angle(time_s)));
    }
    double rate(double time_s) const {
        return static_cast<double>(2.0L * long_pi * frequency_Hz * amplitude *
                                   std::cos(angle(time_s)));
    }
    /// Rounding of `frequency x time` in double precision, as an angle, and a little more.
    double tolerance(double time_s) const {
        return amplitude * (1e-13 + 2.0 * 2.3e-16 * 6.3 * frequency_Hz * std::abs(time_s));
    }
};

const std::vector<Wave> waves = {
    {325.27, 60.0, 0.0}, {325.27, 50.0, 90.0}, {141.4, 59.7, -217.0}, {1.0, 45.0, 360.0}};

void expect_wave(const SineReference& sine, const Wave& wave, double time_s) {
    EXPECT_NEAR(sine.value(time_s), wave.value(time_s), wave.tolerance(time_s)) << time_s;
    const double omega = 6.2831853 * wave.frequency_Hz;
    EXPECT_NEAR(sine.rate(time_s), wave.rate(time_s), omega * wave.tolerance(time_s)) << time_s;
}

TEST(SineReference, ValueAndRateAreThoseOfTheSineOverTenHoursOfSteps) {
    support::RandomNumbers random(4);
    for (const Wave& wave : waves) {
        SineReference sine(wave.amplitude, wave.frequency_Hz, wave.phase_deg);
        for (const double hour : {0.0, 1.0, 10.0}) {
            double time_s = 3600.0 * hour;
            for (int step = 0; step < 3000; ++step) {
                sine.set_origin(time_s);
                const double length_s = random.between(0.0, 200e-6);
                // In the order in which a Runge-Kutta step asks.
                for (const double share : {0.0, 0.5, 0.5, 1.0, 1.0}) {
                    expect_wave(sine, wave, time_s + share * length_s);
                }
                time_s += length_s;
            }
        }
    }
}

TEST(SineReference, OriginMayHopAnywhere) {
    support::RandomNumbers random(5);
    for (const Wave& wave : waves) {
        SineReference sine(wave.amplitude, wave.frequency_Hz, wave.phase_deg);
        double time_s = 0.0;
        for (int hop = 0; hop < 3000; ++hop) {
            switch (random.below(4)) {
                case 0:
                    time_s += random.between(0.0, 1e-3);
                    break;
                case 1:
                    time_s = std::max(0.0, time_s - random.between(0.0, 1e-3));
                    break;
                case 2:
                    time_s = random.between(0.0, 36000.0);
                    break;
                default:
                    break;  // the same instant again
            }
            sine.set_origin(time_s);
            expect_wave(sine, wave, time_s);
            expect_wave(sine, wave, time_s + random.between(-0.5e-3, 0.5e-3));
        }
    }
}

TEST(SineReference, StaysExactWithinAQuarterOfARadianOfItsOrigin) {
    for (const Wave& wave : waves) {
        SineReference sine(wave.amplitude, wave.frequency_Hz, wave.phase_deg);
        const double reach_s = 0.25 / (6.2831853 * wave.frequency_Hz);
        for (double share = -1.0; share <= 1.0; share += 1.0 / 16) {
            EXPECT_NEAR(sine.value(share * reach_s), wave.value(share * reach_s),
                        1e-14 * wave.amplitude)
                << share;
        }
    }
}

TEST(SineReference, AskingDoesNotChangeTheAnswer) {
    SineReference sine(325.0, 60.0, 30.0);
    sine.set_origin(0.5);
    const double first = sine.value(0.5001);
    EXPECT_NE(sine.value(0.5002), first);
    EXPECT_EQ(sine.value(0.5001), first);
    sine.set_origin(0.50005);
    EXPECT_NEAR(sine.value(0.5001), first, 1e-11);
    EXPECT_NEAR(sine.value(0.50005), 325.0 * std::sin(2.0 * M_PI * (60.0 * 0.50005 + 1.0 / 12.0)),
                1e-10);
}

}  // namespace
