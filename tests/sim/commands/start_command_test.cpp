// runup start, end to end.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "bench/cases.hpp"
#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/start_json.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::line_count;
using sim_test::run_program;

TEST(StartCommand, ExitsWithZeroWhenTheRunEndsAsExpected) {
    for (const std::string name : {"reference_direct", "hut_inverter", "hut_inverter_direct"}) {
        const sim_test::Outcome run = run_program({"start", bundled_path(name)});
        EXPECT_EQ(run.exit_code, 0) << name;
        EXPECT_EQ(run.errors, "") << name;
        EXPECT_GT(line_count(run.output), 15) << name;
    }
}

TEST(StartCommand, ExitsWithOneWhenItDoesNot) {
    const sim_test::TemporaryFolder folder;
    const std::string text = sim_test::right_scenario() + "[expect]\noutcome = \"locked_out\"\n";
    const sim_test::Outcome run =
        run_program({"start", folder.put("cellar.toml", text), "--quiet"});
    EXPECT_EQ(run.exit_code, 1);
    EXPECT_EQ(run.errors, "");
    EXPECT_NE(run.output.find("expected locked_out"), std::string::npos) << run.output;
}

TEST(StartCommand, PrintsPureJsonOnStandardOutput) {
    const sim_test::Outcome run =
        run_program({"start", bundled_path("reference_limited"), "--json", "-"});
    EXPECT_EQ(run.exit_code, 0);
    const auto printed = nlohmann::ordered_json::parse(run.output);
    // The same as the library gives, to the last digit: nothing is lost on the way.
    const auto expected = sim::start_json(sim::run_start(sim_test::bundled("reference_limited")));
    EXPECT_EQ(printed.dump(), nlohmann::ordered_json::parse(expected.dump()).dump());
}

TEST(StartCommand, WritesJsonToAFileBesideThePage) {
    const sim_test::TemporaryFolder folder;
    const sim_test::Outcome run =
        run_program({"start", bundled_path("reference_direct"), "--json", folder / "result.json"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_NE(run.output.find("DIRECT START"), std::string::npos);
    EXPECT_EQ(nlohmann::json::parse(folder.get("result.json"))["schema"], "runup.start/1");
    EXPECT_EQ(folder.names(), std::set<std::string>{"result.json"});
}

TEST(StartCommand, PrintsOneLineWhenQuiet) {
    const sim_test::Outcome run =
        run_program({"start", bundled_path("reference_limited"), "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, "reference_limited: running\n");
}

TEST(StartCommand, ShowsTheDirectStartBesideTheLimitedOne) {
    const sim_test::Outcome run =
        run_program({"start", bundled_path("hut_inverter"), "--also-direct"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_NE(run.output.find("DIRECT START"), std::string::npos);
    EXPECT_NE(run.output.find("THROUGH THE LIMITER"), std::string::npos);
    EXPECT_NE(run.output.find("does not come up"), std::string::npos);
    EXPECT_NE(run.output.find("comes up"), std::string::npos);

    const sim_test::Outcome json =
        run_program({"start", bundled_path("hut_inverter"), "--also-direct", "--json", "-"});
    const auto object = nlohmann::json::parse(json.output);
    EXPECT_EQ(object["outcome"], "running");
    EXPECT_EQ(object["direct"]["schema"], "runup.start/1");
    EXPECT_EQ(object["direct"]["outcome"], "stalled");
}

TEST(StartCommand, WritesATraceOfEveryTick) {
    const sim_test::TemporaryFolder folder;
    const sim_test::Outcome run = run_program(
        {"start", bundled_path("reference_direct"), "--trace", folder / "trace.csv", "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, "reference_direct: running\n");
    const std::string trace = folder.get("trace.csv");
    EXPECT_EQ(line_count(trace), 20002);  // header, and 2 s of ticks with both ends
    EXPECT_EQ(trace.rfind("time_s,line_voltage_V,line_current_A,", 0), 0U);
    EXPECT_EQ(folder.names(), std::set<std::string>{"trace.csv"});
}

TEST(StartCommand, PrintsOnlyTheTraceWhenThatGoesToStandardOutput) {
    const sim_test::Outcome run =
        run_program({"start", bundled_path("reference_direct"), "--trace", "-"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(line_count(run.output), 20002);
}

TEST(StartCommand, ReadsAScenarioFromStandardInput) {
    const sim_test::Outcome run =
        run_program({"start", "-", "--quiet"}, {bundled_path("reference_limited"), ""});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, "standard input: running\n");
}

TEST(StartCommand, GivesTheSameBytesEachTime) {
    const std::vector<std::string> arguments = {"start", bundled_path("hut_inverter"),
                                                "--also-direct"};
    EXPECT_EQ(run_program(arguments).output, run_program(arguments).output);
}

}  // namespace
