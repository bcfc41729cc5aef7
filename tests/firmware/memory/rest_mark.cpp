#include "firmware/memory/rest_mark.hpp"

#include <gtest/gtest.h>

#include <random>

namespace {

using namespace firmware;

TEST(RestMark, ComesBackFromAnyPayloadAndLeavesTheRestOfItAlone) {
    std::mt19937 random(3);
    for (int i = 0; i < 1000; ++i) {
        Payload payload;
        for (std::uint32_t& word : payload) {
            word = static_cast<std::uint32_t>(random());
        }
        const RestMark mark{i % 3 != 0, static_cast<std::uint8_t>(i % 3 != 0 ? i % 32 : 0)};
        const Payload marked = with_rest_mark(payload, mark);
        EXPECT_EQ(rest_mark_of(marked), mark);
        EXPECT_EQ(without_rest_mark(marked), without_rest_mark(payload));
        EXPECT_EQ(marked[4] & 0x00FFFFFFU, payload[4] & 0x00FFFFFFU);
    }
}

TEST(RestMark, OfAPayloadWithoutOneOwesNothing) {
    EXPECT_EQ(rest_mark_of(Payload{}), RestMark{});
    EXPECT_FALSE(rest_mark_of(without_rest_mark({~0U, ~0U, ~0U, ~0U, ~0U, ~0U})).owed);
}

TEST(RestMark, IsAnotherWhenEitherOfItsTwoIs) {
    EXPECT_FALSE((RestMark{true, 1} == RestMark{false, 1}));
    EXPECT_FALSE((RestMark{true, 1} == RestMark{true, 2}));
}

}  // namespace
