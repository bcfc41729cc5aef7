// runup repeat, end to end.
#include <gtest/gtest.h>
#include <signal.h>  // kill is POSIX

#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "bench/cases.hpp"
#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::line_count;
using sim_test::run_program;

TEST(RepeatCommand, PrintsALinePerStartAndTheJsonBesideIt) {
    const sim_test::TemporaryFolder folder;
    // Five: the settings' ladder, the one trial that it is worth, and three after it settled.
    const sim_test::Outcome run = run_program({"repeat", bundled_path("reference_limited"),
                                               "--starts", "5", "--json", folder / "r.json"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "") << "no progress where nobody looks";
    int rows = 0;
    for (std::size_t at = run.output.find("running"); at != std::string::npos;
         at = run.output.find("running", at + 1)) {
        ++rows;
    }
    EXPECT_EQ(rows, 5) << run.output;
    EXPECT_NE(run.output.find("█"), std::string::npos);

    const auto json = nlohmann::json::parse(folder.get("r.json"));
    EXPECT_EQ(json["schema"], "runup.repeat/1");
    EXPECT_EQ(json["scenario"], "reference_limited");
    EXPECT_EQ(json["rest_between_s"], 300.0);
    EXPECT_EQ(json["interrupted"], false);
    EXPECT_EQ(json["settled_after"], 3);
    EXPECT_TRUE(json.contains("regret"));
    EXPECT_TRUE(json["regret"].is_null());
    ASSERT_EQ(json["starts"].size(), 5U);
    int number = 0;
    for (const auto& start : json["starts"]) {
        EXPECT_EQ(start["number"], ++number);
        EXPECT_EQ(start["outcome"], "running");
        EXPECT_GT(start["line_current"]["inrush_100ms_rms_A"], 10.0);
        EXPECT_GT(start["sensor_current"]["inrush_100ms_rms_A"], 10.0);
        EXPECT_GE(start["stage"], 1);
        EXPECT_TRUE(start["cause"].is_null());
    }
    EXPECT_EQ(folder.names(), std::set<std::string>{"r.json"});
}

TEST(RepeatCommand, RunsTwelveStartsWithTheScenariosRestUnlessTold) {
    const sim_test::TemporaryFolder folder;
    std::string text = sim_test::right_scenario();
    text += "[run]\nduration_s = 1\nrest_between_s = 77\n";
    const std::string file = folder.put("cellar.toml", text);
    const auto json = nlohmann::json::parse(run_program({"repeat", file, "--json", "-"}).output);
    EXPECT_EQ(json["starts"].size(), 12U);
    EXPECT_EQ(json["rest_between_s"], 77.0);
    const auto told = nlohmann::json::parse(
        run_program({"repeat", file, "--rest", "5.5", "--starts", "2", "--json", "-"}).output);
    EXPECT_EQ(told["starts"].size(), 2U);
    EXPECT_EQ(told["rest_between_s"], 5.5);
}

TEST(RepeatCommand, ADirectStartHasNoStageAndNoSensor) {
    const auto json = nlohmann::json::parse(
        run_program({"repeat", bundled_path("reference_direct"), "--starts", "1", "--json", "-"})
            .output);
    EXPECT_TRUE(json["starts"][0]["stage"].is_null());
    EXPECT_TRUE(json["starts"][0]["sensor_current"]["inrush_100ms_rms_A"].is_null());
    EXPECT_TRUE(json["settled_after"].is_null()) << "one start settles nothing";
}

TEST(RepeatCommand, ExitsWithOneWhenAStartDoesNotEndAsExpected) {
    const sim_test::Outcome run = run_program(
        {"repeat", bundled_path("reference_limited"), "--starts", "2", "--rest", "10", "--quiet"});
    EXPECT_EQ(run.exit_code, 1);
    EXPECT_EQ(line_count(run.output), 1);
    EXPECT_NE(run.output.find("1 of 2 starts come up"), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("not as expected"), std::string::npos) << run.output;
}

TEST(RepeatCommand, RefusesNumbersThatMakeNoSeriesInOneSentence) {
    const std::string file = bundled_path("reference_limited");
    const std::vector<std::vector<std::string>> wrong = {
        {"--starts", "0"},   {"--starts", "-3"},   {"--starts", "10001"},
        {"--starts", "2.5"}, {"--starts", "many"}, {"--starts"},
        {"--starts", "nan"}, {"--rest", "-1"},     {"--rest", "86400.5"},
        {"--rest", "nan"},   {"--rest", "inf"},    {"--rest", "soon"},
        {"--rest"},          {"--starts", "1e9"},
    };
    for (const auto& numbers : wrong) {
        std::vector<std::string> arguments = {"repeat", file};
        arguments.insert(arguments.end(), numbers.begin(), numbers.end());
        const sim_test::Outcome run = run_program(arguments);
        EXPECT_EQ(run.exit_code, 2) << testing::PrintToString(numbers);
        EXPECT_EQ(run.output, "") << testing::PrintToString(numbers);
        EXPECT_EQ(line_count(run.errors), 1) << run.errors;
    }
}

TEST(RepeatCommand, KeepsWhatIsFinishedWhenItIsInterrupted) {
    const sim_test::TemporaryFolder folder;
    const auto stop = [&folder](int process) {
        // The output is opened when the interrupt is already caught, and before the first start.
        while (folder.names().empty()) {
            std::this_thread::yield();
        }
        ::kill(process, SIGTERM);
    };
    const sim_test::Outcome run =
        run_program({"repeat", bundled_path("reference_limited"), "--starts", "10000", "--json",
                     folder / "r.json", "--quiet"},
                    {}, stop);
    EXPECT_EQ(run.exit_code, 1);
    EXPECT_NE(run.output.find("stopped early"), std::string::npos) << run.output;
    EXPECT_EQ(folder.names(), std::set<std::string>{"r.json"});
    const auto json = nlohmann::json::parse(folder.get("r.json"));
    EXPECT_EQ(json["interrupted"], true);
    EXPECT_EQ(json["starts_planned"], 10000);
    EXPECT_GE(json["starts"].size(), 1U);
    EXPECT_LT(json["starts"].size(), 10000U);
}

TEST(RepeatCommand, ComparesLearningLawsInOneTableAndOneJson) {
    const sim_test::TemporaryFolder folder;
    const sim_test::Outcome run =
        run_program({"repeat", bundled_path("reference_limited"), "--starts", "4", "--compare",
                     "easing,none", "--json", folder / "r.json"});
    EXPECT_EQ(run.exit_code, 0);
    const std::size_t heading = run.output.find("easing");
    ASSERT_NE(heading, std::string::npos) << run.output;
    const std::string line = run.output.substr(heading, run.output.find('\n', heading) - heading);
    EXPECT_NE(line.find("none"), std::string::npos) << "side by side";
    for (const std::string label : {"settled", "ratio"}) {
        EXPECT_NE(run.output.find(label), std::string::npos) << run.output;
    }
    const auto json = nlohmann::json::parse(folder.get("r.json"));
    EXPECT_EQ(json["schema"], "runup.repeat_comparison/1");
    EXPECT_EQ(json["scenario"], "reference_limited");
    ASSERT_EQ(json["series"].size(), 2U);
    EXPECT_EQ(json["series"][0]["learning_law"], "easing");
    EXPECT_EQ(json["series"][1]["learning_law"], "none");
    EXPECT_EQ(json["series"][1]["ratio_to_last"], 1.0);
    for (const auto& series : json["series"]) {
        EXPECT_EQ(series["result"]["schema"], "runup.repeat/1");
        EXPECT_EQ(series["result"]["starts"].size(), 4U);
    }
}

TEST(RepeatCommand, ComparesNothingThatDoesNotLearn) {
    const std::string file = bundled_path("reference_limited");
    for (const std::string laws : {"", "easing", "easing,nine", "none, easing"}) {
        const sim_test::Outcome run = run_program({"repeat", file, "--compare", laws});
        EXPECT_EQ(run.exit_code, 2) << laws;
        EXPECT_EQ(run.output, "") << laws;
        EXPECT_EQ(line_count(run.errors), 1) << run.errors;
    }
    const sim_test::Outcome direct =
        run_program({"repeat", bundled_path("reference_direct"), "--compare", "easing,none"});
    EXPECT_EQ(direct.exit_code, 2);
    EXPECT_NE(direct.errors.find("limiter.kind: --compare needs a controller that learns"),
              std::string::npos)
        << direct.errors;
}

TEST(RepeatCommand, MeasuresRegretOfOneLawAtATime) {
    const std::string file = bundled_path("reference_limited");
    const sim_test::Outcome both = run_program(
        {"repeat", file, "--starts", "2", "--compare", "easing,none", "--regret", "40"});
    EXPECT_EQ(both.exit_code, 2);
    EXPECT_EQ(both.output, "");
    EXPECT_EQ(line_count(both.errors), 1) << both.errors;
}

TEST(RepeatCommand, SaysWhyAControllerWithoutPowerWaits) {
    // Thirty seconds of rest are far less than it owes.
    const std::string file = bundled_path("reference_limited");
    const sim_test::Outcome cut =
        run_program({"repeat", file, "--starts", "2", "--rest", "30", "--power-cuts"});
    EXPECT_NE(cut.output.find("finds at power-up that a rest is owed"), std::string::npos)
        << cut.output;
    const sim_test::Outcome kept = run_program({"repeat", file, "--starts", "2", "--rest", "30"});
    EXPECT_EQ(kept.output.find("finds at power-up that a rest is owed"), std::string::npos)
        << kept.output;
}

TEST(RepeatCommand, CutsThePowerWhenAskedToByOptionOrScenario) {
    const std::string file = bundled_path("reference_limited");
    const auto cut = nlohmann::json::parse(
        run_program({"repeat", file, "--starts", "2", "--power-cuts", "--json", "-"}).output);
    EXPECT_EQ(cut["power_cuts"], true);
    const sim_test::TemporaryFolder folder;
    const std::string own =
        folder.put("cellar.toml", sim_test::right_scenario() +
                                      "[run]\nduration_s = 1\npower_between_starts = \"off\"\n");
    const auto by_scenario =
        nlohmann::json::parse(run_program({"repeat", own, "--starts", "2", "--json", "-"}).output);
    EXPECT_EQ(by_scenario["power_cuts"], true);
}

TEST(RepeatCommand, MarksTheStartsBeforeWhichSomethingChanged) {
    const sim_test::TemporaryFolder folder;
    const std::string file =
        folder.put("cellar.toml", sim_test::right_scenario() +
                                      "[run]\nduration_s = 1\n[[change]]\nbefore_start = 3\n"
                                      "run_capacitor_factor = 0.8\nambient_C = 30\n");
    const sim_test::Outcome run =
        run_program({"repeat", file, "--starts", "4", "--json", folder / "r.json"});
    const std::string mark = "changed: ambient 30 C, run capacitor x 0.8\n";
    const std::size_t at = run.output.find(mark);
    ASSERT_NE(at, std::string::npos) << run.output;
    EXPECT_EQ(run.output.find("     3 ", at), at + mark.size()) << "above its start";
    const auto json = nlohmann::json::parse(folder.get("r.json"));
    EXPECT_TRUE(json["starts"][1]["changed"].is_null());
    EXPECT_EQ(json["starts"][2]["changed"], "ambient 30 C, run capacitor x 0.8");
    EXPECT_TRUE(json["starts"][3]["changed"].is_null());
}

TEST(RepeatCommand, RefusesAChangeThatTheSeriesCannotCarryOut) {
    const sim_test::TemporaryFolder folder;
    const std::string file =
        folder.put("cellar.toml", sim_test::right_scenario() +
                                      "[run]\nduration_s = 1\n[[change]]\nbefore_start = 2\n"
                                      "friction_factor_per_start = 1.1\n");
    const sim_test::Outcome run = run_program({"repeat", file, "--starts", "500"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.output, "");
    EXPECT_EQ(line_count(run.errors), 1) << run.errors;
    EXPECT_NE(run.errors.find(":33: change: before start "), std::string::npos) << run.errors;
}

TEST(RepeatCommand, GivesTheSameBytesEachTime) {
    const std::vector<std::string> arguments = {
        "repeat", bundled_path("vaccine_fridge"), "--starts", "2", "--json", "-"};
    EXPECT_EQ(run_program(arguments).output, run_program(arguments).output);
}

}  // namespace
