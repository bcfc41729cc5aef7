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

TEST(RestAndTries, TheRestIsCountedToTheTickAndIncludesTheContactsOpening) {
    RestAndTries rest_and_tries{short_times()};
    rest_and_tries.motor_let_go();
    pass(rest_and_tries, 3 * 10000 + 500 - 1, true);
    EXPECT_FALSE(rest_and_tries.rest_over());
    pass(rest_and_tries, 1, true);
    EXPECT_TRUE(rest_and_tries.rest_over());
}

TEST(RestAndTries, TheDefaultRestIsFourMinutesToTheTick) {
    RestAndTries rest_and_tries{Settings{}};
    rest_and_tries.motor_let_go();
    pass(rest_and_tries, 240 * 10000 + 500 - 1, false);
    EXPECT_FALSE(rest_and_tries.rest_over());
    pass(rest_and_tries, 1, false);
    EXPECT_TRUE(rest_and_tries.rest_over());
}

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

}  // namespace
