#include "firmware/sequence/rest_and_tries.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

Settings short_times() {
    Settings settings;
    settings.rest_before_retry_s = 3;
    settings.lockout_clear_s = 5;
    settings.tries = 2;
    return settings;
}

void pass(RestAndTries& rest_and_tries, int ticks, bool call) {
    for (int i = 0; i < ticks; ++i) {
        rest_and_tries.tick(call);
    }
}

TEST(RestAndTries, PowerUpNeedsNoRest) {
    EXPECT_TRUE(RestAndTries{short_times()}.rest_over());
    EXPECT_TRUE(RestAndTries{short_times()}.tries_left());
}

// Covers: RT-01
TEST(RestAndTries, TheRestIsCountedToTheTickAndIncludesTheContactsOpening) {
    RestAndTries rest_and_tries{short_times()};
    rest_and_tries.motor_let_go();
    pass(rest_and_tries, 3 * 10000 + 500 - 1, true);
    EXPECT_FALSE(rest_and_tries.rest_over());
    pass(rest_and_tries, 1, true);
    EXPECT_TRUE(rest_and_tries.rest_over());
}

// Covers: RT-01
TEST(RestAndTries, TheDefaultRestIsFourMinutesToTheTick) {
    RestAndTries rest_and_tries{Settings{}};
    rest_and_tries.motor_let_go();
    pass(rest_and_tries, 240 * 10000 + 500 - 1, false);
    EXPECT_FALSE(rest_and_tries.rest_over());
    pass(rest_and_tries, 1, false);
    EXPECT_TRUE(rest_and_tries.rest_over());
}

// Covers: RT-03
TEST(RestAndTries, TriesRunOutAndComeBackOnlyWithSuccessOrALongAbsenceOfTheCall) {
    RestAndTries rest_and_tries{short_times()};
    rest_and_tries.start_begins();
    EXPECT_TRUE(rest_and_tries.tries_left());
    rest_and_tries.start_begins();
    EXPECT_FALSE(rest_and_tries.tries_left());
    pass(rest_and_tries, 5 * 10000 - 1, false);
    pass(rest_and_tries, 1, true);
    pass(rest_and_tries, 5 * 10000 - 1, false);
    EXPECT_FALSE(rest_and_tries.tries_left()) << "the call came back in between";
    pass(rest_and_tries, 1, false);
    EXPECT_TRUE(rest_and_tries.tries_left());
    rest_and_tries.start_begins();
    rest_and_tries.start_begins();
    rest_and_tries.start_succeeded();
    EXPECT_TRUE(rest_and_tries.tries_left());
}

// Covers: RT-05
TEST(RestAndTries, WhatTheMemoryHeldCountsAsIfItHadJustHappened) {
    RestAndTries rest_and_tries{short_times()};
    rest_and_tries.remember({true, 2});
    EXPECT_FALSE(rest_and_tries.rest_over());
    EXPECT_FALSE(rest_and_tries.tries_left());
    rest_and_tries.settle_rest();
    EXPECT_TRUE(rest_and_tries.rest_mark().owed) << "the rest is not over";
    pass(rest_and_tries, 3 * 10000 + 500, true);
    EXPECT_TRUE(rest_and_tries.rest_over());
    rest_and_tries.settle_rest();
    EXPECT_FALSE(rest_and_tries.rest_mark().owed);
    RestAndTries fresh{short_times()};
    fresh.remember({});
    EXPECT_TRUE(fresh.rest_over());
}

}  // namespace
