// runup list: what is in the library, and one entry in full.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/suites/bundled_suites.hpp"
#include "sim/suites/suite_overview.hpp"

namespace {

using sim_test::line_count;
using sim_test::run_program;
using sim_test::TemporaryFolder;

std::vector<const sim::LibraryEntry*> all_entries() {
    std::vector<const sim::LibraryEntry*> all;
    for (const auto* entries :
         {&sim::library_compressors(), &sim::library_supplies(), &sim::bundled_suites()}) {
        for (const sim::LibraryEntry& entry : *entries) {
            all.push_back(&entry);
        }
    }
    return all;
}

std::string title_of(const sim::LibraryEntry& entry) {
    for (const sim::SuiteOverview& suite : sim::overview_of_suites()) {
        if (suite.name == entry.name) {
            return suite.title;
        }
    }
    return sim::parse_library_entry(entry).title;
}

TEST(ListCommand, ShowsEveryEntryWithItsTitleOnALineOfItsOwn) {
    const sim_test::Outcome run = run_program({"list"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "");
    ASSERT_FALSE(all_entries().empty());
    std::size_t at = 0;
    for (const sim::LibraryEntry* entry : all_entries()) {
        // In the library's order, so that the eye finds it.
        const std::size_t found = run.output.find("\n  " + std::string(entry->name) + " ", at);
        ASSERT_NE(found, std::string::npos) << entry->name;
        at = found + 1;
        const std::string line = run.output.substr(at, run.output.find('\n', at) - at);
        EXPECT_NE(line.find(title_of(*entry)), std::string::npos) << line;
    }
    for (const std::string word :
         {"Compressors\n", "\nSupplies\n", "\nSuites", "[library] compressor"}) {
        EXPECT_NE(run.output.find(word), std::string::npos) << word;
    }
}

TEST(ListCommand, PrintsAnEntrysFileByteForByte) {
    for (const sim::LibraryEntry* entry : all_entries()) {
        const sim_test::Outcome run = run_program({"list", std::string(entry->name)});
        EXPECT_EQ(run.exit_code, 0);
        EXPECT_EQ(run.errors, "");
        EXPECT_EQ(run.output, entry->text) << entry->name;
    }
}

TEST(ListCommand, PrintsOnlyTheNamesWhenAskedToBeQuiet) {
    std::string names;
    for (const sim::LibraryEntry* entry : all_entries()) {
        names += std::string(entry->name) + "\n";
    }
    const sim_test::Outcome run = run_program({"list", "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, names);
}

TEST(ListCommand, AnswersAnUnknownNameWithTheClosestAndExitCodeTwo) {
    for (const sim::LibraryEntry* entry : {all_entries().front(), all_entries().back()}) {
        const sim_test::Outcome run = run_program({"list", std::string(entry->name) + "x"});
        EXPECT_EQ(run.exit_code, 2);
        EXPECT_EQ(run.output, "");
        EXPECT_EQ(line_count(run.errors), 1) << run.errors;
        EXPECT_NE(run.errors.find("did you mean " + std::string(entry->name) + "?"),
                  std::string::npos)
            << run.errors;
    }
    const sim_test::Outcome strange = run_program({"list", "zzz"});
    EXPECT_EQ(strange.exit_code, 2);
    EXPECT_NE(strange.errors.find("give a name that runup list shows"), std::string::npos)
        << strange.errors;
}

TEST(ListCommand, EchoesNothingThatWouldDriveATerminalOrFillIt) {
    for (const std::string& name :
         {std::string("\x1b[2J\x07"), std::string(100000, 'k'), std::string("\xff\xfe")}) {
        const sim_test::Outcome run = run_program({"list", name});
        EXPECT_EQ(run.exit_code, 2);
        EXPECT_EQ(run.output, "");
        EXPECT_EQ(line_count(run.errors), 1);
        EXPECT_LT(run.errors.size(), 300U);
        for (const char letter : run.errors) {
            EXPECT_TRUE(letter == '\n' || static_cast<unsigned char>(letter) >= 0x20U);
        }
    }
}

TEST(ListCommand, WritesTheListAsJsonWithNumbersThatTheEntriesGive) {
    const sim_test::Outcome run = run_program({"list", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "");
    const auto json = nlohmann::json::parse(run.output);
    EXPECT_EQ(json.at("schema"), "runup.list/1");
    ASSERT_EQ(json.at("compressors").size(), sim::library_compressors().size());
    for (std::size_t k = 0; k < sim::library_compressors().size(); ++k) {
        const sim::LibraryEntry& entry = sim::library_compressors()[k];
        const sim::Scenario unit = sim::parse_library_entry(entry);
        const auto& row = json.at("compressors")[k];
        EXPECT_EQ(row.at("name"), entry.name);
        EXPECT_EQ(row.at("title"), unit.title);
        EXPECT_EQ(row.at("voltage_V"), unit.motor.rated_voltage_V);
        EXPECT_EQ(row.at("frequency_Hz"), unit.motor.rated_frequency_Hz);
        EXPECT_EQ(row.at("run_capacitor_uF"), unit.motor.run_capacitor_uF);
        EXPECT_GT(row.at("locked_rotor_A").get<double>(), 1.0);
        const bool pumps =
            !std::holds_alternative<plant_models::PolynomialLoadParameters>(unit.load);
        EXPECT_EQ(row.at("gas").is_null(), !pumps);
    }
    ASSERT_EQ(json.at("supplies").size(), sim::library_supplies().size());
    for (std::size_t k = 0; k < sim::library_supplies().size(); ++k) {
        const sim::Scenario supply = sim::parse_library_entry(sim::library_supplies()[k]);
        const auto& row = json.at("supplies")[k];
        EXPECT_EQ(row.at("name"), sim::library_supplies()[k].name);
        EXPECT_EQ(row.at("voltage_V"), plant_models::nominal_voltage_V(supply.source));
        EXPECT_EQ(row.at("frequency_Hz"), plant_models::nominal_frequency_Hz(supply.source));
    }
}

TEST(ListCommand, WritesJsonToAFileBesideTheText) {
    const TemporaryFolder folder;
    const sim_test::Outcome run = run_program({"list", "--json", folder / "list.json"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, run_program({"list"}).output);
    EXPECT_EQ(folder.get("list.json"), run_program({"list", "--json", "-"}).output);
}

TEST(ListCommand, ThatCannotWriteSaysSoAndLeavesNothing) {
    const TemporaryFolder folder;
    const sim_test::Outcome run = run_program({"list", "--json", folder / "none/list.json"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(line_count(run.errors), 1) << run.errors;
    EXPECT_TRUE(folder.names().empty());
}

TEST(ListCommand, RefusesMoreThanOneName) {
    const sim_test::Outcome run = run_program({"list", "one", "two"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.output, "");
    EXPECT_EQ(line_count(run.errors), 1) << run.errors;
}

}  // namespace
