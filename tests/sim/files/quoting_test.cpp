#include "sim/files/quoting.hpp"

#include <gtest/gtest.h>

#include <string>

namespace {

TEST(Quoting, LeavesPlainTextAndOtherAlphabetsAlone) {
    EXPECT_EQ(sim::escaped("cellar 4 °C, Kühlraum, 冷蔵庫, 🧊"),
              "cellar 4 °C, Kühlraum, 冷蔵庫, 🧊");
}

TEST(Quoting, LetsNothingThroughThatATerminalWouldObey) {
    EXPECT_EQ(sim::escaped("\x1b[31m\n\r\t\x7f"), "\\x1b[31m\\x0a\\x0d\\x09\\x7f");
    // A C1 control in UTF-8 (the one-character form of "escape, bracket").
    EXPECT_EQ(sim::escaped("\xc2\x9b"), "\\xc2\\x9b");
}

TEST(Quoting, ShowsEveryBrokenUtf8SequenceAsBytes) {
    EXPECT_EQ(sim::escaped("\xff"), "\\xff");
    EXPECT_EQ(sim::escaped("a\xc3"), "a\\xc3");
    EXPECT_EQ(sim::escaped("\xc3("), "\\xc3(");
    EXPECT_EQ(sim::escaped("\xc0\xaf"), "\\xc0\\xaf");           // overlong
    EXPECT_EQ(sim::escaped("\xe0\x80\xaf"), "\\xe0\\x80\\xaf");  // overlong
    EXPECT_EQ(sim::escaped("\xed\xa0\x80"), "\\xed\\xa0\\x80");  // surrogate
    EXPECT_EQ(sim::escaped("\xf4\x90\x80\x80"), "\\xf4\\x90\\x80\\x80");
    EXPECT_EQ(sim::escaped(std::string(1, '\0')), "\\x00");
}

TEST(Quoting, CutsLongTextWithoutCuttingACharacter) {
    EXPECT_EQ(sim::shortened("abcdef", 6), "abcdef");
    EXPECT_EQ(sim::shortened("abcdef", 3), "abc…");
    EXPECT_EQ(sim::shortened("aé", 2), "a…");
    EXPECT_EQ(sim::shortened("冷蔵庫", 4), "冷…");
    EXPECT_LT(sim::quoted(std::string(1000000, '\x01')).size(), 200U);
}

}  // namespace
