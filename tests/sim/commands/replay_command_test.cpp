// runup replay, end to end.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "recorder/traced_start.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::Outcome;
using sim_test::run_program;
using sim_test::TemporaryFolder;

/// A bundled scenario as a file of its own, with a line more in its table [limiter].
std::string with_setting(const TemporaryFolder& folder, const std::string& line) {
    const std::string path = bundled_path("reference_limited");
    std::ifstream file(path);
    std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    const std::string kind = "kind = \"builtin\"\n";
    const std::size_t at = text.find(kind);
    EXPECT_NE(at, std::string::npos);
    text.insert(at + kind.size(), line + "\n");
    return folder.put("other.toml", text);
}

TEST(ReplayCommand, ExitsWithZeroWhenEveryTickIsDecidedAsThen) {
    const TemporaryFolder folder;
    const std::string recording = folder / "a.rec";
    ASSERT_EQ(
        run_program({"start", bundled_path("reference_limited"), "--record", recording, "--quiet"})
            .exit_code,
        0);
    const Outcome run = run_program({"replay", recording});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_EQ(run.output.rfind("reference_limited: the same decisions in all ", 0), 0U)
        << run.output;
    EXPECT_NE(run.output.find("handing over"), std::string::npos);
    const Outcome json = run_program({"replay", recording, "--json", "-"});
    const auto object = nlohmann::json::parse(json.output);
    EXPECT_EQ(object["schema"], "runup.replay/1");
    EXPECT_EQ(object["same"], true);
    EXPECT_EQ(object["different_ticks"], 0);
    EXPECT_TRUE(object["first_difference"].is_null());
    EXPECT_EQ(object["states"]["then"], object["states"]["now"]);
}

TEST(ReplayCommand, ExitsWithOneAndSaysWhereOtherSettingsDecideOtherwise) {
    const TemporaryFolder folder;
    const std::string recording = folder / "a.rec";
    run_program({"start", bundled_path("reference_limited"), "--record", recording, "--quiet"});
    const std::string other = with_setting(folder, "probe_half_cycles = 6");
    const Outcome run = run_program({"replay", recording, "--settings", other});
    EXPECT_EQ(run.exit_code, 1) << run.errors;
    EXPECT_NE(run.output.find("The first at tick "), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("\n  ! "), std::string::npos) << run.output;
    const Outcome quiet = run_program({"replay", recording, "--settings", other, "--quiet"});
    EXPECT_EQ(quiet.exit_code, 1);
    EXPECT_EQ(sim_test::line_count(quiet.output), 1);
    const auto json = nlohmann::json::parse(
        run_program({"replay", recording, "--settings", other, "--json", "-"}).output);
    EXPECT_EQ(json["same"], false);
    EXPECT_GT(json["different_ticks"], 10);
    EXPECT_GT(json["first_difference"]["tick"], 600);
    EXPECT_NE(json["states"]["then"], json["states"]["now"]);
}

TEST(ReplayCommand, OfASeriesWithPowerCutsIsTheSame) {
    const TemporaryFolder folder;
    const std::string recording = folder / "series.rec";
    const Outcome series =
        run_program({"repeat", bundled_path("hut_inverter"), "--starts", "3", "--rest", "300",
                     "--power-cuts", "--record", recording, "--quiet"});
    ASSERT_EQ(series.errors, "");
    const Outcome run = run_program({"replay", recording, "--quiet"});
    EXPECT_EQ(run.exit_code, 0) << run.output << run.errors;
}

TEST(ReplayCommand, TracesTheNewDecisions) {
    const TemporaryFolder folder;
    const std::string recording = folder / "a.rec";
    run_program({"start", bundled_path("reference_limited"), "--record", recording, "--trace",
                 folder / "then.csv", "--quiet"});
    const Outcome run = run_program({"replay", recording, "--quiet", "--trace", folder / "now.csv",
                                     "--watch", "line.locked", "--trace", folder / "now.vcd"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    const sim_test::CsvColumns then(folder.get("then.csv"));
    const sim_test::CsvColumns now(folder.get("now.csv"));
    for (const std::string& name : now.names) {
        if (name == "line.locked") {
            EXPECT_EQ(now.columns.at(name), now.columns.at("controller_line_locked"));
            continue;
        }
        std::vector<std::string> column = then.columns.at(name);
        column.resize(now.rows);
        EXPECT_EQ(column, now.columns.at(name)) << name;
    }
    EXPECT_NE(folder.get("now.vcd"), "");
}

TEST(ReplayCommand, RefusesWhatIsNoRecordingInOneSentence) {
    const TemporaryFolder folder;
    const auto refused = [](const std::vector<std::string>& arguments, const std::string& words) {
        const Outcome run = run_program(arguments);
        EXPECT_EQ(run.exit_code, 2) << words;
        EXPECT_EQ(sim_test::line_count(run.errors), 1) << run.errors;
        EXPECT_NE(run.errors.find(words), std::string::npos) << run.errors;
    };
    refused({"replay", folder / "none.rec"}, "none.rec");
    refused({"replay", bundled_path("reference_limited")}, "this is no recording");
    refused({"start", bundled_path("reference_direct"), "--record", folder / "a.rec"},
            "no controller to record");
    EXPECT_EQ(folder.names(), std::set<std::string>());
}

}  // namespace
