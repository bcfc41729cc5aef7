// Help and wrong command lines.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "commands/program.hpp"

namespace {

using sim_test::line_count;
using sim_test::run_program;

const std::vector<std::string>& verbs() {
    static const std::vector<std::string> list = {"start", "repeat", "motor", "list",
                                                  "fit",   "tune",   "keys"};
    return list;
}

TEST(Help, NamesEveryVerb) {
    const sim_test::Outcome help = run_program({"--help"});
    EXPECT_EQ(help.exit_code, 0);
    EXPECT_EQ(help.errors, "");
    for (const std::string& verb : verbs()) {
        EXPECT_NE(help.output.find("\n  " + verb), std::string::npos) << verb;
    }
}

TEST(Help, OfEachVerbHasAnExampleThatWorks) {
    for (const std::string& verb : verbs()) {
        const sim_test::Outcome help = run_program({verb, "--help"});
        EXPECT_EQ(help.exit_code, 0) << verb;
        const std::size_t at = help.output.find("Example: runup " + verb);
        ASSERT_NE(at, std::string::npos) << help.output;
        // The example itself, word by word, with the path as seen from the source folder.
        const std::size_t begin = at + std::string("Example: runup ").size();
        std::string example = help.output.substr(begin, help.output.find('\n', begin) - begin);
        std::vector<std::string> words;
        for (std::size_t from = 0; from < example.size();) {
            const std::size_t to = std::min(example.find(' ', from), example.size());
            std::string word = example.substr(from, to - from);
            if (word.rfind("sim/", 0) == 0) {
                word = std::string(RUNUP_SOURCE_FOLDER) + "/" + word;
            }
            words.push_back(word);
            from = to + 1;
        }
        EXPECT_EQ(run_program(words).exit_code, 0) << example;
    }
}

TEST(CommandLine, ThatIsWrongEndsInExitCodeTwoAndOneSentence) {
    const std::string file = sim_test::bundled_path("reference_direct");
    const std::vector<std::vector<std::string>> wrong = {
        {},
        {"fly"},
        {"--version-of-nothing"},
        {"start"},
        {"start", file, "--fast"},
        {"start", file, "another"},
        {"start", file, "--json"},
        {"start", file, "--quiet=maybe"},
        {"motor"},
        {"motor", file, "--slip"},
        {"keys", "motor", "extra"},
    };
    for (const std::vector<std::string>& arguments : wrong) {
        const sim_test::Outcome run = run_program(arguments);
        const std::string shown = testing::PrintToString(arguments);
        EXPECT_EQ(run.exit_code, 2) << shown;
        EXPECT_EQ(run.output, "") << shown;
        EXPECT_EQ(line_count(run.errors), 1) << shown << ": " << run.errors;
        EXPECT_NE(run.errors.find("--help"), std::string::npos) << shown;
    }
}

}  // namespace
