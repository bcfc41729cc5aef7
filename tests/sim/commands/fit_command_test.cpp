// runup fit, end to end.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "fitting/nameplate_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

using sim_test::line_count;
using sim_test::right_nameplate;
using sim_test::run_program;
using sim_test::TemporaryFolder;

std::vector<std::string> bundled_nameplates() {
    std::vector<std::string> paths;
    const std::string folder = std::string(RUNUP_SOURCE_FOLDER) + "/sim/nameplates";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        paths.push_back(entry.path().string());
    }
    std::sort(paths.begin(), paths.end());
    return paths;
}

TEST(FitCommand, FitsEveryBundledNameplate) {
    EXPECT_GE(bundled_nameplates().size(), 3U);
    for (const std::string& path : bundled_nameplates()) {
        const sim_test::Outcome run = run_program({"fit", path, "--json", "-"});
        EXPECT_EQ(run.exit_code, 0) << path;
        EXPECT_EQ(run.errors, "") << path;
        const auto json = nlohmann::json::parse(run.output);
        EXPECT_EQ(json["schema"], "runup.fit/1");
        EXPECT_TRUE(json["bands_held"].get<bool>()) << path;
        for (const auto& row : json["printed"]) {
            EXPECT_LT(std::abs(row["difference_percent"].get<double>()), 0.5) << path << row;
        }
    }
}

TEST(FitCommand, WritesTablesThatAScenarioAccepts) {
    for (const std::string& path : bundled_nameplates()) {
        const sim_test::Outcome run = run_program({"fit", path, "--toml", "-"});
        ASSERT_EQ(run.exit_code, 0) << path;
        const sim_test::Outcome as_json = run_program({"fit", path, "--json", "-"});
        const auto json = nlohmann::json::parse(as_json.output);
        const std::string rest =
            "[source]\nkind = \"grid\"\nvoltage_V = " + json["motor"]["rated_voltage_V"].dump() +
            "\nfrequency_Hz = " + json["motor"]["rated_frequency_Hz"].dump() +
            "\nresistance_ohm = 0.1\ninductance_mH = 0.2\nphase_deg = 0\n"
            "[limiter]\nkind = \"none\"\n";
        const sim::Scenario scenario = sim::parse_scenario(run.output + rest, "fitted.toml");
        EXPECT_EQ(scenario.motor.main_resistance_ohm, json["motor"]["main_resistance_ohm"]);
        EXPECT_EQ(scenario.motor.inertia_kg_m2, json["motor"]["inertia_kg_m2"]);
    }
}

TEST(FitCommand, PrintsAPageOrOneLine) {
    const TemporaryFolder folder;
    const std::string path = folder.put("unit.toml", right_nameplate());
    const sim_test::Outcome page = run_program({"fit", path});
    EXPECT_EQ(page.exit_code, 0);
    EXPECT_NE(page.output.find("what the nameplate leaves open"), std::string::npos);
    const sim_test::Outcome line = run_program({"fit", path, "--quiet"});
    EXPECT_EQ(line.exit_code, 0);
    EXPECT_EQ(line_count(line.output), 1);
    EXPECT_EQ(line.output.find("fitted: 3 printed figures met within 0.0"), 0U);
    EXPECT_EQ(run_program({"fit", path}).output, page.output);
}

TEST(FitCommand, WritesBothFilesAndThePage) {
    const TemporaryFolder folder;
    const std::string path = folder.put("unit.toml", right_nameplate());
    const sim_test::Outcome run =
        run_program({"fit", path, "--json", folder / "fit.json", "--toml", folder / "fit.toml"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_GT(line_count(run.output), 20);
    EXPECT_EQ(nlohmann::json::parse(folder.get("fit.json"))["schema"], "runup.fit/1");
    EXPECT_NE(folder.get("fit.toml").find("[motor]"), std::string::npos);
}

TEST(FitCommand, RefusesAnImpossibleNameplateAndWritesNothing) {
    const TemporaryFolder folder;
    const std::string path = folder.put(
        "unit.toml",
        sim_test::right_nameplate_with("locked_rotor_current_A", "locked_rotor_current_A = 12"));
    const auto before = folder.names();
    const sim_test::Outcome run =
        run_program({"fit", path, "--json", folder / "fit.json", "--toml", folder / "fit.toml"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.output, "");
    EXPECT_EQ(line_count(run.errors), 1);
    EXPECT_NE(run.errors.find("unit.toml:5: nameplate: locked_rotor_current_A is 12"),
              std::string::npos)
        << run.errors;
    EXPECT_EQ(folder.names(), before);
}

TEST(FitCommand, RefusesTwoOutputsOnStandardOutputAndAFolderThatIsNotThere) {
    const TemporaryFolder folder;
    const std::string path = folder.put("unit.toml", right_nameplate());
    const sim_test::Outcome both = run_program({"fit", path, "--json", "-", "--toml", "-"});
    EXPECT_EQ(both.exit_code, 2);
    EXPECT_EQ(both.output, "");
    EXPECT_EQ(line_count(both.errors), 1);
    const sim_test::Outcome nowhere =
        run_program({"fit", path, "--json", folder / "fit.json", "--toml", folder / "no/fit.toml"});
    EXPECT_EQ(nowhere.exit_code, 2);
    EXPECT_EQ(folder.names(), std::set<std::string>{"unit.toml"});
}

}  // namespace
