// The controller has no loop without a bound that is known when it is compiled; and the reading of
// loops that this stands on.
#include "loops.hpp"

#include <gtest/gtest.h>

#include <string>

#include "source_tree.hpp"

namespace {

using architecture_test::code_only;
using architecture_test::constants_of;
using architecture_test::fault_of;
using architecture_test::Loop;
using architecture_test::loops_of;
using architecture_test::SourceFile;

std::string fault_in(const std::string& code) {
    const std::vector<Loop> loops = loops_of(code);
    return loops.size() == 1 ? fault_of(loops[0], {"most", "page_count"}) : "not one loop";
}

TEST(Loops, WithABoundAreAccepted) {
    for (const char* code :
         {"for (int i = 0; i < 4; ++i) { sum += i; }", "for (auto& x : all) x = 0;",
          "for (std::size_t i = 1; i < table.size(); ++i) { f(i); }",
          "for (unsigned s = 0; s < 32; s += 8) { f(word >> s); }",
          "for (int n = 2; n <= most; n += 2) {}", "for (i = 0; i < Page::most / 2; ++i) {}",
          "for (i = 0; i < a.size() && i < a.count; ++i) { if (i == 3 && i != k) {} }",
          "for (std::size_t slot = most; slot > 0; --slot) { f(slot - 1); }",
          "for (; bit != 0 && bit > n; bit >>= 2) {\n}",
          "for (const Bound& bound : bounds) { g(bound); }"}) {
        EXPECT_EQ(fault_in(code), "") << code;
    }
}

TEST(Loops, WithoutABoundAreRefused) {
    for (const char* code : {"for (;;) {}",
                             "while (true) {}",
                             "while (i < 4) { ++i; }",
                             "goto again;",
                             "for (int i = 0; i < count; ++i) {}",
                             "for (int i = 0; i < ladder.count; ++i) {}",
                             "for (int i = 0; i < 4; i += n) {}",
                             "for (int i = 0; i < 4; i = next(i)) {}",
                             "for (int i = 0; i < 4; ++i) { i = 0; }",
                             "for (int i = 0; i < 4; ++i) { --i; }",
                             "for (int i = 0; i < 4; ++i) { i -= 1; }",
                             "for (int i = 0; i < 4; ++i) { f(&i); }",
                             "for (int i = 0; i < 4; ++i) i--;",
                             "for (int i = 0; i < 4 || again; ++i) {}",
                             "for (int i = 0; i < 4; ++j) {}",
                             "for (int i = 0; i < most + f(); ++i) {}",
                             "for (; bit > n; bit >>= 2) {}",
                             "for (; bit != 0; bit >>= 0) {}",
                             "for (int i = 0; i < 4; --i) {}",
                             "for (; n != 0; n /= 2) {}"}) {
        EXPECT_NE(fault_in(code), "") << code;
    }
    EXPECT_EQ(loops_of("do { ++i; } while (i < 3);").size(), 2U);
}

TEST(Loops, AreFoundWithTheirLinesAndBodies) {
    const auto loops = loops_of(
        "int form; // x\nfor (int i = 0;\n i < f(2); ++i) { a[i] = 1; }\n"
        "void before() { while(x) y(); }\n");
    ASSERT_EQ(loops.size(), 2U);
    EXPECT_EQ(loops[0].line, 2U);
    EXPECT_EQ(loops[0].body, "{ a[i] = 1; }");
    EXPECT_EQ(loops[1].keyword, "while");
    EXPECT_EQ(loops[1].header, "x");
    EXPECT_EQ(loops[1].body, "y();");
}

TEST(Loops, BoundsAreNamesOfConstexprValuesOnly) {
    const auto names = constants_of(
        "constexpr std::size_t most = 3; inline constexpr int page_count{2};\n"
        "static constexpr int f(int x) { return x; } const int late = read(); int other = 1;");
    EXPECT_EQ(names, (std::set<std::string>{"most", "page_count"}));
}

TEST(Firmware, HasNoLoopWithoutABoundKnownWhenItIsCompiled) {
    std::set<std::string> constants;
    for (const SourceFile& file : architecture_test::sources_of_controller()) {
        constants.merge(constants_of(code_only(file.text)));
    }
    std::size_t seen = 0;
    for (const SourceFile& file : architecture_test::sources_of_controller()) {
        for (const Loop& loop : loops_of(code_only(file.text))) {
            ++seen;
            EXPECT_EQ(fault_of(loop, constants), "")
                << file.path << ":" << loop.line << ": " << loop.header;
        }
    }
    EXPECT_GT(seen, 20U);
}

}  // namespace
