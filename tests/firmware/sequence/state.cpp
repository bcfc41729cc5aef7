#include "firmware/sequence/state.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace {

using namespace firmware;

// Covers: CT-06
TEST(State, EveryStateAndEveryReasonHasANameOfItsOwn) {
    std::set<std::string> states;
    for (int i = 0; i < state_count; ++i) {
        states.insert(name_of(static_cast<State>(i)));
    }
    std::set<std::string> reasons;
    for (int i = 0; i < reason_count; ++i) {
        reasons.insert(name_of(static_cast<Reason>(i)));
    }
    EXPECT_EQ(states.size(), state_count);
    EXPECT_EQ(reasons.size(), reason_count);
    EXPECT_EQ(states.count("") + reasons.count(""), 0U);
    EXPECT_STREQ(name_of(static_cast<State>(state_count)), "");
    EXPECT_STREQ(name_of(static_cast<Reason>(reason_count)), "");
}

// The numbers are in recorded status words: they never change their meaning.
// Covers: CT-06
TEST(State, NumbersAreAsPublished) {
    EXPECT_EQ(static_cast<int>(State::locked_out), 7);
    EXPECT_EQ(static_cast<int>(Reason::settings_refused), 18);
    EXPECT_EQ(static_cast<int>(Reason::sensor_off_zero), 19);
    EXPECT_EQ(static_cast<int>(Reason::current_beyond_order), 30);
}

}  // namespace
