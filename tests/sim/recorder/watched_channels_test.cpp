#include "sim/recorder/watched_channels.hpp"

#include <gtest/gtest.h>

#include "sim/files/input_error.hpp"

namespace {

const std::vector<std::string> offered = {"line.locked", "line.phase", "linear.gain",
                                          "sequence.state"};

std::vector<std::size_t> chosen(const std::string& list) {
    std::vector<std::size_t> indices;
    for (const sim::WatchedChannel& channel : sim::choose_watched(list, offered)) {
        EXPECT_EQ(channel.name, offered.at(channel.index));
        indices.push_back(channel.index);
    }
    return indices;
}

std::string refusal(const std::string& list, const std::vector<std::string>& watchable = offered) {
    try {
        sim::choose_watched(list, watchable);
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(WatchedChannels, AreThoseThatAreNamedInTheirOrder) {
    EXPECT_EQ(chosen("sequence.state,line.locked"), (std::vector<std::size_t>{3, 0}));
}

TEST(WatchedChannels, OfAPartAreAllThatBeginWithItsNameAndAPoint) {
    EXPECT_EQ(chosen("line"), (std::vector<std::size_t>{0, 1}));
}

TEST(WatchedChannels, ComeOnceHoweverOftenTheyAreNamed) {
    EXPECT_EQ(chosen("line.phase,line,line.phase"), (std::vector<std::size_t>{1, 0}));
}

TEST(WatchedChannels, ThatDoNotExistAreRefusedWithTheClosestName) {
    EXPECT_EQ(refusal("sequence.stat"),
              "--watch: sequence.stat: the controller has no such variable; did you mean "
              "sequence.state?");
    EXPECT_EQ(refusal("lines"),
              "--watch: lines: the controller has no such variable; did you mean line?");
    EXPECT_EQ(refusal("zzzzzzzz"),
              "--watch: zzzzzzzz: the controller has no such variable; --watch list prints those "
              "that it has");
    EXPECT_EQ(refusal("line,"), "accepted");
    EXPECT_EQ(refusal(",line").rfind("--watch: the", 0), 0U) << refusal(",line");
}

TEST(WatchedChannels, OfAControllerThatOffersNoneAreRefused) {
    EXPECT_EQ(refusal("line", {}),
              "--watch: line: this limiter's controller offers nothing to watch; leave --watch "
              "out");
}

}  // namespace
