// A supply whose frequency changes under way.
#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/supplies/sine_reference.hpp"
#include "supplies/generator_bench.hpp"

namespace {

using plant_models::SineReference;

constexpr double pi = 3.14159265358979323846;

TEST(SineReference, GoesOnWithoutAJumpAtAnotherFrequency) {
    for (const double at_s : {0.0, 0.0123, 3600.004}) {
        SineReference sine(325.0, 50.0, 40.0);
        sine.set_origin(at_s);
        const double before = sine.value(at_s);
        const double slope = sine.rate(at_s);
        sine.set_frequency_share(0.8, at_s);
        EXPECT_NEAR(sine.value(at_s), before, 1e-6);
        EXPECT_NEAR(sine.rate(at_s), 0.8 * slope, 1e-3);
        EXPECT_EQ(sine.frequency_Hz(), 40.0);
        // A quarter turn at 40 Hz later it stands where its slope said.
        const double later_s = at_s + 0.25 / 40.0;
        sine.set_origin(later_s);
        EXPECT_NEAR(sine.value(later_s), slope / (2.0 * pi * 50.0), 1e-5);
    }
}

TEST(SineReference, ReturnsToItsOwnFrequencyWithShareOne) {
    SineReference sine(1.0, 60.0, 0.0);
    sine.set_frequency_share(0.7, 0.1);
    sine.set_frequency_share(1.1, 0.2);
    sine.set_frequency_share(1.0, 0.3);
    EXPECT_EQ(sine.frequency_Hz(), 60.0);
}

TEST(Generator, FollowsAnotherSettingOfItsGovernorWithItsInertia) {
    support::GeneratorBench bench(support::seven_kilovolt_amperes());
    const double before_Hz = bench.supply.frequency_Hz(bench.x.data());
    bench.supply.set_frequency_share(0.9, 0.0);
    EXPECT_EQ(bench.supply.frequency_Hz(bench.x.data()), before_Hz);
    bench.run_for(0.05);
    EXPECT_GT(bench.supply.frequency_Hz(bench.x.data()), 0.97 * before_Hz);
    bench.run_for(60.0);
    EXPECT_NEAR(bench.supply.frequency_Hz(bench.x.data()), 0.9 * before_Hz, 0.01 * before_Hz);
}

}  // namespace
