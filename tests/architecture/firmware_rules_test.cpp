// The controller's own rules: no floating point, no heap, no exceptions, no run-time types, no
// clock, no input or output.
#include <gtest/gtest.h>

#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "source_tree.hpp"

namespace {

using architecture_test::SourceFile;

void expect_no_word(
    const std::set<std::string>& forbidden,
    const std::vector<SourceFile>& sources = architecture_test::sources_of("firmware")) {
    for (const SourceFile& file : sources) {
        for (const std::string& word :
             architecture_test::words_of(architecture_test::code_only(file.text))) {
            EXPECT_EQ(forbidden.count(word), 0U) << file.path << " uses " << word;
        }
    }
}

TEST(Firmware, HasNoFloatingPointTypes) {
    expect_no_word({"float", "double", "float_t", "double_t"});
}

TEST(Firmware, HasNoFloatingPointConstants) {
    // A digit with a point, or digits with an exponent; hexadecimal 0x1e5 is none.
    const std::regex constant(R"((^|[^\w.])(\d[\d']*\.\d*|\.\d+|\d[\d']*[eE][+-]?\d+))");
    EXPECT_TRUE(std::regex_search("x = 1.5;", constant));
    EXPECT_TRUE(std::regex_search("x = 2e3;", constant));
    EXPECT_FALSE(std::regex_search("x = 0x1e5 + 1'000 + a.b;", constant));
    for (const SourceFile& file : architecture_test::sources_of("firmware")) {
        std::smatch found;
        std::string code = architecture_test::code_only(file.text);
        EXPECT_FALSE(std::regex_search(code, found, constant))
            << file.path << " has " << found.str();
    }
}

TEST(Firmware, DoesNotAllocate) {
    expect_no_word({"new", "delete", "malloc", "calloc", "realloc", "free", "unique_ptr",
                    "shared_ptr", "make_unique", "make_shared", "vector", "string", "function"});
}

TEST(Firmware, HasNoExceptionsAndNoRunTimeTypes) {
    expect_no_word({"throw", "try", "catch", "dynamic_cast", "typeid", "virtual"});
}

TEST(Firmware, HasNoJumpsOutOfOrder) {
    expect_no_word({"goto", "setjmp", "longjmp", "asm", "__asm__", "signal", "va_list"},
                   architecture_test::sources_of_controller());
}

TEST(Firmware, LeavesNoEnumeratorToADefault) {
    // A new state or reason must be thought of wherever one is chosen by (-Wswitch-enum).
    const std::regex label(R"(\bdefault\s*:)");
    EXPECT_TRUE(std::regex_search("default: break;", label));
    EXPECT_FALSE(std::regex_search("Phase() = default;", label));
    for (const SourceFile& file : architecture_test::sources_of_controller()) {
        EXPECT_FALSE(std::regex_search(architecture_test::code_only(file.text), label))
            << file.path;
    }
}

TEST(Firmware, UsesThePreprocessorForIncludesOnly) {
    const std::regex directive(R"((^|\n)[ \t]*#[ \t]*(\w+[ \t]*\w*))");
    for (const SourceFile& file : architecture_test::sources_of_controller()) {
        const std::string code = architecture_test::code_only(file.text);
        for (std::sregex_iterator found(code.begin(), code.end(), directive), end; found != end;
             ++found) {
            const std::string said = (*found)[2];
            EXPECT_TRUE(said.rfind("include", 0) == 0 || said == "pragma once")
                << file.path << ": #" << said;
        }
    }
}

TEST(Firmware, GivesAReasonForEverySuppressedWarning) {
    // Behind it, or in a comment in the line above.
    const std::regex suppression(R"(NOLINT\w*(\([\w-]+\))?|cppcheck-suppress\s+(\w+))");
    for (const SourceFile& file : architecture_test::sources_of_controller()) {
        std::istringstream lines(file.text);
        std::string line;
        std::string above;
        while (std::getline(lines, line)) {
            std::smatch found;
            if (std::regex_search(line, found, suppression)) {
                EXPECT_TRUE(found[1].matched || found[2].matched)
                    << file.path << " does not say what is suppressed: " << line;
                const bool explained = found.suffix().str().find_first_of(
                                           "abcdefghijklmnopqrstuvwxyz") != std::string::npos ||
                                       above.find("//") != std::string::npos;
                EXPECT_TRUE(explained) << file.path << ": " << line;
            }
            above = line;
        }
    }
}

TEST(Firmware, HasNoClockAndNoInputOrOutput) {
    expect_no_word({"chrono", "time_t", "clock", "printf", "puts", "cout", "cerr", "iostream",
                    "fopen", "rand", "thread", "mutex"});
}

}  // namespace
