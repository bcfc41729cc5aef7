#include "sim/scenario/closest_word.hpp"

#include <gtest/gtest.h>

#include <string>

namespace {

using sim::closest_word;
using sim::edit_distance;

TEST(ClosestWord, CountsInsertedDeletedAndReplacedLetters) {
    EXPECT_EQ(edit_distance("", ""), 0U);
    EXPECT_EQ(edit_distance("", "abc"), 3U);
    EXPECT_EQ(edit_distance("abc", ""), 3U);
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
    EXPECT_EQ(edit_distance("sunday", "saturday"), 3U);
    EXPECT_EQ(edit_distance("intention", "execution"), 5U);
}

TEST(ClosestWord, PrefersTheNearestAndThenTheFirst) {
    EXPECT_EQ(closest_word("poless", {"pole", "poles"}), "poles");
    EXPECT_EQ(closest_word("cat", {"bat", "hat"}), "bat");
}

TEST(ClosestWord, FindsAKeyWhoseUnitWasLeftOff) {
    EXPECT_EQ(closest_word("phase", {"voltage_V", "phase_deg"}), "phase_deg");
    EXPECT_EQ(closest_word("ph", {"voltage_V", "phase_deg"}), std::nullopt);
}

TEST(ClosestWord, DoesNotGuessWildly) {
    EXPECT_EQ(closest_word("colour", {"voltage_V", "phase_deg"}), std::nullopt);
    EXPECT_EQ(closest_word("", {"a"}), std::nullopt);
    EXPECT_EQ(closest_word("x", {"a"}), std::nullopt);
    EXPECT_EQ(closest_word(std::string(1000000, 'p'), {"poles"}), std::nullopt);
}

}  // namespace
