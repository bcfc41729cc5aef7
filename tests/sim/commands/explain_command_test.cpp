// runup explain, end to end.
#include <gtest/gtest.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): kill is POSIX
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "commands/program.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::run_program;

TEST(ExplainCommand, PrintsThePageAndEndsAsTheScenarioExpects) {
    const sim_test::Outcome run = run_program({"explain", bundled_path("bakery_short_rest")});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "");
    EXPECT_NE(run.output.find("What brings it up"), std::string::npos) << run.output;
}

TEST(ExplainCommand, PrintsTheSameAtAnyNumberOfThreads) {
    const std::string file = bundled_path("cabin_battery_trip");
    EXPECT_EQ(run_program({"explain", file, "--threads", "1"}).output,
              run_program({"explain", file, "--threads", "4"}).output);
}

TEST(ExplainCommand, QuietIsOneLine) {
    const sim_test::Outcome run =
        run_program({"explain", bundled_path("reference_limited"), "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(sim_test::line_count(run.output), 1);
    EXPECT_NE(run.output.find("could fail by lower_line_voltage"), std::string::npos) << run.output;
}

TEST(ExplainCommand, JsonOnStandardOutputStandsAlone) {
    const sim_test::Outcome run =
        run_program({"explain", bundled_path("bakery_short_rest"), "--json", "-"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(nlohmann::json::parse(run.output)["schema"], "runup.explain/1");
}

TEST(ExplainCommand, AStartThatEndsOtherwiseThanItsScenarioExpectsIsOne) {
    std::ifstream file(bundled_path("bakery_short_rest"));
    std::stringstream text;
    text << file.rdbuf();
    std::string scenario = text.str();
    const std::size_t at = scenario.find("outcome = \"stalled\"");
    ASSERT_NE(at, std::string::npos);
    scenario.replace(at, 19, "outcome = \"running\"");
    const auto path = std::filesystem::temp_directory_path() / "explain_otherwise.toml";
    std::ofstream(path) << scenario;
    EXPECT_EQ(run_program({"explain", path.string(), "--quiet"}).exit_code, 1);
    std::filesystem::remove(path);
}

TEST(ExplainCommand, BadInputIsTwo) {
    EXPECT_EQ(run_program({"explain", "/nonexistent.toml"}).exit_code, 2);
    EXPECT_EQ(
        run_program({"explain", bundled_path("reference_direct"), "--threads", "0"}).exit_code, 2);
    const sim_test::Outcome path = run_program(
        {"explain", bundled_path("reference_direct"), "--json", "/nonexistent/folder/x.json"});
    EXPECT_EQ(path.exit_code, 2);
    EXPECT_EQ(path.output, "");
}

TEST(ExplainCommand, WritesAPageWithTheStoryTheChangesAndTheWaves) {
    const auto path = std::filesystem::temp_directory_path() / "explain_page.html";
    const sim_test::Outcome run = run_program(
        {"explain", bundled_path("bakery_short_rest"), "--page", path.string(), "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    for (const char* words : {"What happened", "What would have changed it", "a longer rest",
                              "Waves of the start", "The rotor rocks"}) {
        EXPECT_NE(text.str().find(words), std::string::npos) << words;
    }
    std::filesystem::remove(path);
}

TEST(ExplainCommand, AnInterruptionPrintsWhatIsKnown) {
    const sim_test::Outcome run = run_program(
        {"explain", bundled_path("shop_protector"), "--threads", "1"}, {}, [](int process) {
            // Its first start alone takes longer than this.
            ::usleep(300000);
            ::kill(process, SIGINT);
        });
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_NE(run.output.find("What happened"), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("Interrupted: "), std::string::npos) << run.output;
}

}  // namespace
