// The reading of sources that the rules stand on.
#include "source_tree.hpp"

#include <gtest/gtest.h>

namespace {

using architecture_test::code_only;
using architecture_test::includes_of;
using architecture_test::words_of;

TEST(Includes, AreFoundHoweverTheyAreSpaced) {
    const auto found = includes_of(
        "#pragma once\n#include <array>\n  #  include \"sim/main.hpp\" // why\n"
        "// #include <not/this>\nint x;\n#include<vector>\n");
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].name, "array");
    EXPECT_FALSE(found[0].in_quotes);
    EXPECT_EQ(found[1].name, "sim/main.hpp");
    EXPECT_TRUE(found[1].in_quotes);
    EXPECT_EQ(found[2].name, "vector");
}

TEST(Words, LeaveOutCommentsAndStrings) {
    const std::string code = code_only(
        "int a = 1'000; // double trouble\n/* float */ char b = 'x'; const char* c = \"new \\\" "
        "throw\"; auto d = '\\'';\nlong e;");
    const auto words = words_of(code);
    for (const char* there : {"int", "a", "char", "b", "const", "c", "auto", "d", "long", "e"}) {
        EXPECT_EQ(words.count(there), 1U) << there;
    }
    for (const char* absent : {"double", "float", "new", "throw", "x", "trouble"}) {
        EXPECT_EQ(words.count(absent), 0U) << absent;
    }
}

TEST(Sources, AreThere) {
    for (const std::string part : {"firmware", "plant_models", "sim", "tests"}) {
        EXPECT_GE(architecture_test::sources_of(part).size(), 15U) << part;
    }
}

}  // namespace
