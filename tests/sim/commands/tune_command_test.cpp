// runup tune, end to end.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "commands/program.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::run_program;

TEST(TuneCommand, PrintsALadderToCopy) {
    const sim_test::Outcome run =
        run_program({"tune", bundled_path("reference_limited"), "--starts", "40"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "");
    EXPECT_NE(run.output.find("\nstage_percent = ["), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("\nstage_dwell_ms = ["), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("40 starts simulated"), std::string::npos) << run.output;
}

TEST(TuneCommand, WritesJsonWithRegretAndBothLadders) {
    const sim_test::Outcome run =
        run_program({"tune", bundled_path("reference_limited"), "--starts", "40", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0);
    const auto json = nlohmann::json::parse(run.output);
    EXPECT_EQ(json["schema"], "runup.tune/1");
    EXPECT_EQ(json["starts"], 40);
    EXPECT_GE(json["regret"].get<double>(), 1.0);
    EXPECT_NEAR(json["regret"].get<double>(),
                json["given"]["inrush_100ms_rms_A"].get<double>() /
                    json["best"]["inrush_100ms_rms_A"].get<double>(),
                1e-12);
    EXPECT_EQ(json["best"]["stage_percent"].size(), 4U);
}

TEST(TuneCommand, RefusesAScenarioWithoutALimiterAndAnOddNumberOfStarts) {
    const sim_test::Outcome direct = run_program({"tune", bundled_path("reference_direct")});
    EXPECT_EQ(direct.exit_code, 2);
    EXPECT_EQ(direct.output, "");
    EXPECT_NE(direct.errors.find("limiter.kind: there is no ladder to tune"), std::string::npos)
        << direct.errors;
    EXPECT_EQ(run_program({"tune", bundled_path("reference_limited"), "--starts", "29"}).exit_code,
              2);
}

}  // namespace
