// runup report and runup compare, as a user runs them, over made-up results.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <random>
#include <string>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "reporting/sample_campaign.hpp"
#include "reporting/write_results.hpp"

namespace {

using nlohmann::json;
using sim_test::run_program;

sim::CampaignResults campaign_of(int cases, int failures) {
    sim::CampaignResults results = sim_test::campaign();
    std::mt19937 random(1);
    std::normal_distribution<double> spread(25.0, 4.0);
    for (int k = 0; k < cases; ++k) {
        sim::CaseRecord& one = sim_test::add_case(
            results, k < failures ? sim_test::failed_start("outcome", "stalled instead of running")
                                  : sim_test::passed_start(spread(random)));
        one.inputs = {{"line_voltage_percent", 90.0 + k}};
    }
    return results;
}

TEST(ReportCommand, TellsWhatACampaignCameToAndExitsByIt) {
    const sim_test::TemporaryFolder folder;
    const std::string good = sim_test::write_results(folder / "good.results", campaign_of(50, 0));
    const sim_test::Outcome passed = run_program({"report", good});
    EXPECT_EQ(passed.exit_code, 0) << passed.errors;
    EXPECT_NE(passed.output.find("smoke passed: 100.0 %"), std::string::npos) << passed.output;

    const std::string bad = sim_test::write_results(folder / "bad.results", campaign_of(50, 20));
    const sim_test::Outcome failed = run_program({"report", bad});
    EXPECT_EQ(failed.exit_code, 1) << failed.errors;
    EXPECT_NE(failed.output.find("runup start --case " + bad + "#0"), std::string::npos);
    EXPECT_NE(failed.output.find("A low line_voltage_percent drives failure"), std::string::npos);
    EXPECT_EQ(run_program({"report", bad, "--quiet"}).output,
              "smoke did not pass: 60.0 % (46.2 to 72.4) of 50 cases are as expected.\n");
}

TEST(ReportCommand, WritesEveryKindOfFile) {
    const sim_test::TemporaryFolder folder;
    const std::string results = sim_test::write_results(folder / "a.results", campaign_of(50, 20));
    const sim_test::Outcome outcome =
        run_program({"report", results, "--json", "-", "--junit", folder / "a.xml", "--csv",
                     folder / "a.csv", "--page", folder / "a.html"});
    EXPECT_EQ(outcome.exit_code, 1) << outcome.errors;
    const json summary = json::parse(outcome.output);
    EXPECT_EQ(summary.at("schema"), "runup.report/1");
    EXPECT_EQ(summary.at("cases").at("passed"), 30);
    EXPECT_EQ(summary.at("worst").size(), 10U);
    EXPECT_EQ(summary.at("drivers").at(0).at("inputs").at(0).at("drives"), true);
    EXPECT_NE(folder.get("a.xml").find("tests=\"50\" failures=\"20\""), std::string::npos);
    EXPECT_EQ(sim_test::line_count(folder.get("a.csv")), 51);
    EXPECT_NE(folder.get("a.html").find("class=\"table heat\""), std::string::npos);
    EXPECT_NE(folder.get("a.html").find("class=\"histogram\""), std::string::npos);
}

TEST(ReportCommand, GivesTheSameBytesEveryTime) {
    const sim_test::TemporaryFolder folder;
    const std::string results = sim_test::write_results(folder / "a.results", campaign_of(30, 12));
    for (const std::string option : {"--json", "--junit", "--csv", "--page"}) {
        const std::string once = run_program({"report", results, option, "-"}).output;
        EXPECT_FALSE(once.empty()) << option;
        EXPECT_EQ(run_program({"report", results, option, "-"}).output, once) << option;
    }
}

TEST(ReportCommand, RefusesWhatHoldsNoResults) {
    const sim_test::TemporaryFolder folder;
    const std::string text = folder.put("no.results", "not a database");
    for (const std::string& path : {text, folder / "missing.results"}) {
        const sim_test::Outcome outcome = run_program({"report", path});
        EXPECT_EQ(outcome.exit_code, 2);
        EXPECT_EQ(sim_test::line_count(outcome.errors), 1) << outcome.errors;
        EXPECT_EQ(run_program({"compare", path, path}).exit_code, 2);
    }
}

TEST(CompareCommand, ExitsByWhetherAnythingGotWorse) {
    const sim_test::TemporaryFolder folder;
    const std::string before = sim_test::write_results(folder / "old.results", campaign_of(60, 0));
    const std::string after = sim_test::write_results(folder / "new.results", campaign_of(60, 15));
    const sim_test::Outcome same = run_program({"compare", before, before});
    EXPECT_EQ(same.exit_code, 0) << same.errors;
    EXPECT_NE(same.output.find("Identical: every figure of all 60 pairs, to the bit."),
              std::string::npos);
    // Nothing is told row by row where there is nothing to tell.
    EXPECT_EQ(same.output.find("did not move"), std::string::npos) << same.output;

    const sim_test::Outcome worse =
        run_program({"compare", before, after, "--json", "-", "--page", folder / "change.html"});
    EXPECT_EQ(worse.exit_code, 1) << worse.errors;
    const json change = json::parse(worse.output);
    EXPECT_EQ(change.at("schema"), "runup.compare/1");
    EXPECT_EQ(change.at("anything_worse"), true);
    EXPECT_EQ(change.at("pairs").at("cases"), 60);
    EXPECT_EQ(change.at("requirements").at(0).at("newly_failed"), 15);
    EXPECT_NE(folder.get("change.html").find("Newly failed"), std::string::npos);
    EXPECT_EQ(run_program({"compare", after, before}).exit_code, 0);
}

TEST(CompareCommand, RefusesResultsThatHaveNoCaseInCommon) {
    const sim_test::TemporaryFolder folder;
    sim::CampaignResults other = campaign_of(5, 0);
    for (sim::CaseRecord& one : other.cases) {
        one.seed += 1;
    }
    const std::string before = sim_test::write_results(folder / "old.results", campaign_of(5, 0));
    const std::string after = sim_test::write_results(folder / "new.results", other);
    const sim_test::Outcome outcome = run_program({"compare", before, after});
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_NE(outcome.errors.find("no case of it is also in"), std::string::npos) << outcome.errors;
}

}  // namespace
