// [limiter] kind = "library" as a user meets it: paths, messages, exit codes, clean outputs, and
// nothing left running.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "commands/program.hpp"
#include "controllers/test_libraries.hpp"
#include "files/temporary_folder.hpp"

namespace {

using nlohmann::json;
using sim_test::run_program;
using sim_test::TemporaryFolder;

std::string scenario_with(const std::string& path, const std::string& more = "") {
    return "[library]\ncompressor = \"cold_room_230v_50hz\"\n"
           "supply = \"hut_inverter_3kva_230v_50hz\"\n\n"
           "[limiter]\nkind = \"library\"\npath = \"" +
           path + "\"\nstart_capacitor_uF = 80\n" + more + "\n[run]\nduration_s = 0.3\n";
}

void expect_refused(const std::string& scenario_path, const std::string& sentence) {
    const sim_test::Outcome run = run_program({"start", scenario_path, "--json", "-"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.output, "");
    EXPECT_EQ(sim_test::line_count(run.errors), 1) << run.errors;
    EXPECT_NE(run.errors.find(scenario_path + sentence), std::string::npos)
        << scenario_path + sentence << " is not in: " << run.errors;
}

TEST(LibraryLimiter, PathBeginsAtTheScenariosFolder) {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder / "controllers");
    std::filesystem::copy_file(sim_test::test_controller("well_behaved"),
                               folder / "controllers/mine.so");
    const std::string path = folder.put("cellar.toml", scenario_with("controllers/mine.so"));
    const sim_test::Outcome run = run_program({"start", path, "--quiet"});
    EXPECT_EQ(run.exit_code, 1) << run.errors;
    EXPECT_EQ(run.output, "cellar: stalled (rotor never turned), expected running\n");
}

TEST(LibraryLimiter, ThatIsMissingOrNoLibraryIsBadInputWithItsLine) {
    const TemporaryFolder folder;
    expect_refused(folder.put("cellar.toml", scenario_with("mine.so")),
                   ":7: limiter.path: there is no file \"");
    folder.put("text.so",
               "not a library, but long enough to hold the header of one, if it had "
               "been one, which it is not");
    expect_refused(folder.put("a.toml", scenario_with("text.so")), ":7: limiter.path: \"");
    std::filesystem::create_directory(folder / "folder.so");
    expect_refused(folder.put("b.toml", scenario_with("folder.so")), ":7: limiter.path: \"");
    expect_refused(
        folder.put("c.toml", scenario_with(sim_test::test_controller("wrong_version"))),
        ":7: limiter.path: wrong_version.so is built for version 7 of the controller's interface, "
        "and this program speaks version 1; give a shared library that offers what "
        "firmware/contract/controller_abi.h says");
    expect_refused(folder.put("d.toml", scenario_with(sim_test::test_controller("lacks_tick"))),
                   ":7: limiter.path: lacks_tick.so lacks the function runup_tick; give ");
    expect_refused(
        folder.put("e.toml",
                   scenario_with(sim_test::test_controller("refuses"), "options = \"bad\"\n")),
        ":9: limiter.options: refuses.so refuses: only good options are accepted; give ");
}

TEST(LibraryLimiter, OfAnotherProcessorIsNamedAsSuch) {
    const TemporaryFolder folder;
    std::ifstream built(sim_test::test_controller("well_behaved"), std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(built), {}};
    bytes.at(18) = static_cast<char>(bytes.at(18) ^ 0x40);  // e_machine
    folder.put("other.so", bytes);
    expect_refused(folder.put("cellar.toml", scenario_with("other.so")), ":7: limiter.path: \"");
    const sim_test::Outcome run = run_program({"start", folder / "cellar.toml"});
    EXPECT_NE(run.errors.find("is built for another processor than this program"),
              std::string::npos)
        << run.errors;
}

TEST(LibraryLimiter, AFaultThatWaitsForAStateNeedsALibraryThatTellsThem) {
    const TemporaryFolder folder;
    const std::string fault = "\n[[fault]]\nkind = \"rotor_seized\"\nwhen = \"climbing\"\n";
    expect_refused(
        folder.put("cellar.toml", scenario_with(sim_test::test_controller("well_behaved"), fault)),
        ":10: fault.when: this library does not tell which state its controller is in; "
        "give at_s");
    const std::string path =
        folder.put("own.toml", scenario_with(sim_test::test_controller("own_firmware"), fault));
    EXPECT_EQ(run_program({"start", path, "--quiet"}).exit_code, 1);
}

TEST(LibraryLimiter, ThatFailsInTheRunIsItsOutcomeInTextAndJson) {
    const TemporaryFolder folder;
    const std::string path =
        folder.put("cellar.toml", scenario_with(sim_test::test_controller("crashes"),
                                                "\n[expect]\noutcome = \"controller_failed\"\n"));
    const sim_test::Outcome text = run_program({"start", path});
    EXPECT_EQ(text.exit_code, 0) << "as it expects";
    EXPECT_NE(text.output.find("the controller failed"), std::string::npos) << text.output;
    const sim_test::Outcome run = run_program({"start", path, "--json", "-"});
    const json result = json::parse(run.output);
    EXPECT_EQ(result["outcome"], "controller_failed");
    EXPECT_EQ(result["cause"], "crashed");
    EXPECT_EQ(result["warnings"][0],
              "crashes.so crashed with SIGSEGV (Segmentation fault) in runup_tick, at tick 100, "
              "0.0100 s after power-up");
    const json& last = result["controller"].back();
    EXPECT_EQ(last["seen"], "failed, everything off");
    EXPECT_TRUE(last["state"].is_null());
}

TEST(LibraryLimiter, ThatPrintsLeavesStandardOutputToTheResult) {
    const TemporaryFolder folder;
    const std::string path =
        folder.put("cellar.toml", scenario_with(sim_test::test_controller("prints")));
    const sim_test::Outcome run = run_program({"start", path, "--json", "-"});
    const json result = json::parse(run.output);
    EXPECT_EQ(result["warnings"].size(), 1U);
    EXPECT_EQ(run.errors, "");
}

TEST(LibraryLimiter, IsExplainedByWhatItsOutputsDoAndByNoStateOfOurs) {
    const sim_test::Outcome run =
        run_program({"explain", sim_test::example_path("cold_room_fixed_angle.toml")});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    for (const char* sentence :
         {"The controller permits the contactor, start capacitor and bypass out.",
          "The controller puts the start capacitor in.",
          "The controller lets the start capacitor go and feeds on.",
          "The controller closes the bypass."}) {
        EXPECT_NE(run.output.find(sentence), std::string::npos) << sentence << run.output;
    }
    for (const char* ours :
         {"prob", "ladder", "stage", "climb", "backing", "locked rotor estimate"}) {
        EXPECT_EQ(run.output.find(ours), std::string::npos) << ours << run.output;
    }
}

TEST(LibraryLimiter, HasATraceWithoutWhatItDoesNotTell) {
    const TemporaryFolder folder;
    const std::string path =
        folder.put("cellar.toml", scenario_with(sim_test::test_controller("well_behaved")));
    run_program({"start", path, "--quiet", "--trace", folder / "trace.csv"});
    std::ifstream trace(folder / "trace.csv");
    std::string header;
    std::getline(trace, header);
    EXPECT_NE(header.find("line_voltage_counts"), std::string::npos);
    EXPECT_NE(header.find("controller_seen"), std::string::npos);
    EXPECT_EQ(header.find("controller_firing_angle_deg"), std::string::npos);
}

/// Its library computes for ever and nobody is left to stop it, so it must stop by itself: the pipe
/// that both hold ends only when both are gone.
TEST(LibraryLimiter, LeavesNoProcessBehindWhenTheProgramIsKilled) {
    const TemporaryFolder folder;
    const std::string pipe = folder / "output";
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    const std::string path =
        folder.put("cellar.toml", scenario_with(sim_test::test_controller("says_that_it_hangs")));
    // The program's standard error leads into the pipe, and with it the library's.
    const pid_t program = ::fork();
    if (program == 0) {
        std::freopen(pipe.c_str(), "w", stderr);
        ::execl(RUNUP_PROGRAM, RUNUP_PROGRAM, "start", path.c_str(), "--quiet", nullptr);
        ::_exit(127);
    }
    std::ifstream errors(pipe);
    std::string line;
    std::getline(errors, line);  // the library says so from inside its endless loop
    ASSERT_EQ(line, "hanging");
    ASSERT_EQ(::kill(program, SIGKILL), 0);
    EXPECT_FALSE(std::getline(errors, line)) << line;
    ::waitpid(program, nullptr, 0);
}

}  // namespace
