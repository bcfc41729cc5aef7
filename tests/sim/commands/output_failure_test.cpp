// Output that cannot be written: exit code 2, one sentence, nothing half-written.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::line_count;
using sim_test::run_program;
using sim_test::TemporaryFolder;

void expect_failure(const sim_test::Outcome& run, const std::string& in_sentence) {
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(line_count(run.errors), 1) << run.errors;
    EXPECT_NE(run.errors.find(in_sentence), std::string::npos) << run.errors;
}

TEST(FullDisk, OnStandardOutputIsAnError) {
    const std::string file = bundled_path("reference_direct");
    const std::vector<std::vector<std::string>> commands = {{"start", file},
                                                            {"start", file, "--quiet"},
                                                            {"start", file, "--json", "-"},
                                                            {"start", file, "--trace", "-"},
                                                            {"motor", file},
                                                            {"motor", file, "--json", "-"},
                                                            {"keys"}};
    for (const std::vector<std::string>& arguments : commands) {
        SCOPED_TRACE(testing::PrintToString(arguments));
        expect_failure(run_program(arguments, {"/dev/null", "/dev/full"}), "standard output");
    }
}

TEST(FullDisk, OnTheJsonOrTheTraceIsAnError) {
    const std::string file = bundled_path("reference_direct");
    expect_failure(run_program({"start", file, "--json", "/dev/full"}), "/dev/full");
    expect_failure(run_program({"start", file, "--trace", "/dev/full"}), "/dev/full");
    expect_failure(run_program({"motor", file, "--json", "/dev/full"}), "/dev/full");
}

TEST(FullDisk, OnOneOutputLeavesNoOther) {
    // The trace fails: no JSON, no temporary.
    const TemporaryFolder folder;
    const sim_test::Outcome run = run_program({"start", bundled_path("reference_direct"), "--trace",
                                               "/dev/full", "--json", folder / "result.json"});
    expect_failure(run, "/dev/full");
    EXPECT_EQ(run.output, "");
    EXPECT_TRUE(folder.names().empty());
}

TEST(WrongPath, OfAnOutputIsFoundBeforeTheWork) {
    const TemporaryFolder folder;
    const std::string file = bundled_path("reference_direct");
    for (const std::string option : {"--json", "--trace"}) {
        for (const std::string& path : {folder / "no_such_folder/result", folder.path()}) {
            const sim_test::Outcome run = run_program({"start", file, option, path});
            expect_failure(run, path);
            EXPECT_EQ(run.output, "");
        }
    }
    EXPECT_TRUE(folder.names().empty());
}

}  // namespace
