#include "firmware/learning/start_witness.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

TEST(StartWitness, SeesNothingBeforeTheFirstHalfCycle) {
    const StartWitness witness;
    EXPECT_EQ(witness.inrush().count(), 0);
}

TEST(StartWitness, OfASteadyCurrentIsThatCurrentAfterTenHalfCycles) {
    StartWitness witness;
    for (int k = 0; k < 30; ++k) {
        witness.observe(MilliAmperes{25000}, MilliAmperes{25000 * 3 / 2});
    }
    EXPECT_EQ(witness.inrush().count(), 25000);
}

TEST(StartWitness, MeansTheSquaresOverItsWindowAndKeepsTheLargest) {
    StartWitness witness;
    for (int k = 0; k < 5; ++k) {
        witness.observe(MilliAmperes{40000}, MilliAmperes{40000 * 3 / 2});
    }
    // Five of ten: the square root of a half.
    EXPECT_EQ(witness.inrush().count(), 28284);
    for (int k = 0; k < 40; ++k) {
        witness.observe(MilliAmperes{1000}, MilliAmperes{1000 * 3 / 2});
    }
    EXPECT_NEAR(witness.inrush().count(), 28293, 1);  // and five of 1 A
}

TEST(StartWitness, BearsTheLargestReadingThatTheChannelHas) {
    StartWitness witness;
    for (int k = 0; k < 10; ++k) {
        witness.observe(MilliAmperes{434000}, MilliAmperes{434000 * 3 / 2});
    }
    EXPECT_EQ(witness.inrush().count(), 434000);
    witness.begin();
    EXPECT_EQ(witness.inrush().count(), 0);
}

TEST(StartWitness, KeepsTheHighestPeak) {
    StartWitness witness;
    for (const std::int32_t peak : {10000, 45000, 30000}) {
        witness.observe(MilliAmperes{5000}, MilliAmperes{peak});
    }
    EXPECT_EQ(witness.peak().count(), 45000);
}

}  // namespace
