// The bundled compressors and supplies: every entry is read, runs, and says where its numbers are
// from.
#include "sim/library/library.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "library/combined.hpp"
#include "sim/bench/library_overview.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/library_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

using sim_test::combined_scenario;
using sim_test::on_stiff_grid;

/// A hundredth of the contract, as in the bench's own tests.
constexpr double largest_closure = 1e-5;

std::vector<sim::LibraryEntry> all_entries() {
    std::vector<sim::LibraryEntry> all = sim::library_compressors();
    all.insert(all.end(), sim::library_supplies().begin(), sim::library_supplies().end());
    return all;
}

/// The compressor with the smallest locked-rotor current that fits the supply.
const sim::CompressorOverview* smallest_fitting(
    const sim::SupplyOverview& supply, const std::vector<sim::CompressorOverview>& compressors) {
    const sim::CompressorOverview* smallest = nullptr;
    for (const sim::CompressorOverview& one : compressors) {
        const bool fits = one.frequency_Hz == supply.frequency_Hz &&
                          std::abs(supply.voltage_V / one.voltage_V - 1.0) < 0.1;
        if (fits && (smallest == nullptr || one.locked_rotor_A < smallest->locked_rotor_A)) {
            smallest = &one;
        }
    }
    return smallest;
}

TEST(BundledLibrary, HoldsAtLeastSixteenCompressorsAndElevenSupplies) {
    EXPECT_GE(sim::library_compressors().size(), 16u);
    EXPECT_GE(sim::library_supplies().size(), 11u);
}

TEST(BundledLibrary, NamesAreLowerCaseWordsAndSorted) {
    std::set<std::string_view> seen;
    for (const auto* entries : {&sim::library_compressors(), &sim::library_supplies()}) {
        EXPECT_TRUE(std::is_sorted(entries->begin(), entries->end(),
                                   [](const auto& a, const auto& b) { return a.name < b.name; }));
        for (const sim::LibraryEntry& entry : *entries) {
            EXPECT_EQ(entry.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_"),
                      std::string_view::npos)
                << entry.name;
            EXPECT_TRUE(seen.insert(entry.name).second) << entry.name << " is there twice";
        }
    }
}

TEST(BundledLibrary, IsBuiltInByteForByte) {
    for (const sim::LibraryEntry& entry : all_entries()) {
        std::ifstream file(std::string(RUNUP_SOURCE_FOLDER) + "/" + std::string(entry.file));
        ASSERT_TRUE(file) << entry.file;
        std::ostringstream text;
        text << file.rdbuf();
        EXPECT_EQ(text.str(), entry.text) << entry.file;
    }
}

TEST(BundledLibrary, CoversEveryKindOfCompressorGasAndFrequency) {
    std::set<std::string> loads;
    std::set<std::string> gases;
    std::set<double> frequencies;
    std::set<int> pistons;
    std::set<int> rolling_pistons;
    for (const sim::LibraryEntry& entry : sim::library_compressors()) {
        const sim::Scenario unit = sim::parse_library_entry(entry);
        gases.insert(std::string(unit.refrigerant.gas));
        frequencies.insert(unit.motor.rated_frequency_Hz);
        loads.insert(std::visit([](const auto& one) { return std::string(one.kind); }, unit.load));
        if (const auto* load = std::get_if<plant_models::ReciprocatingParameters>(&unit.load)) {
            pistons.insert(load->cylinders);
        }
        if (const auto* load = std::get_if<plant_models::RollingPistonParameters>(&unit.load)) {
            rolling_pistons.insert(load->cylinders);
        }
    }
    EXPECT_EQ(loads, (std::set<std::string>{"reciprocating", "rolling_piston", "scroll"}));
    EXPECT_EQ(gases, (std::set<std::string>{"R410A", "R22", "R134a", "R290", "R32"}));
    EXPECT_EQ(frequencies, (std::set<double>{50.0, 60.0}));
    EXPECT_EQ(pistons, (std::set<int>{1, 2}));
    EXPECT_EQ(rolling_pistons, (std::set<int>{1, 2}));
}

TEST(BundledLibrary, EveryEntryHasATitleOfOneLine) {
    for (const sim::LibraryEntry& entry : all_entries()) {
        const std::string title = sim::parse_library_entry(entry).title;
        EXPECT_FALSE(title.empty()) << entry.name;
        EXPECT_NE(title, entry.name);
        EXPECT_LE(title.size(), 60u) << entry.name;
    }
}

// A scenario may name any fitting pair; both must then be right together, too.
TEST(BundledLibrary, EveryFittingPairIsAScenarioWithoutWarnings) {
    const auto compressors = sim::overview_of_compressors();
    for (const sim::SupplyOverview& supply : sim::overview_of_supplies()) {
        for (const sim::CompressorOverview& compressor : compressors) {
            if (compressor.frequency_Hz == supply.frequency_Hz &&
                std::abs(supply.voltage_V / compressor.voltage_V - 1.0) < 0.1) {
                const sim::Scenario scenario = combined_scenario(compressor.name, supply.name);
                EXPECT_TRUE(scenario.warnings.empty()) << compressor.name << " on " << supply.name
                                                       << ": " << scenario.warnings.front();
            }
        }
    }
}

// A unit that cannot start from the mains after the trade's five minutes of rest is not a plausible
// one; nor is one that does not stay up then.
TEST(BundledLibrary, EveryCompressorStartsDirectlyFromAStiffGridWithinTwoSeconds) {
    for (const double ambient_C : {15.0, 35.0}) {
        for (const sim::LibraryEntry& entry : sim::library_compressors()) {
            const auto result = sim::run_start(on_stiff_grid(entry.name, ambient_C));
            const std::string what = fmt::format("{} at {} C", entry.name, ambient_C);
            EXPECT_EQ(result.outcome, sim::Outcome::running) << what << ": " << result.cause;
            ASSERT_TRUE(result.figures.time_to_speed_s.has_value()) << what;
            EXPECT_LT(*result.figures.time_to_speed_s, 2.0) << what;
            EXPECT_LT(result.energy.closure(), largest_closure) << what;
        }
    }
}

// The mark of a start aid that is needed: with it every start succeeds, wherever on the wave the
// contact closes; without it some do not.
TEST(BundledLibrary, OnlyUnitsThatNeedAStartAidHaveOne) {
    int aided = 0;
    for (const sim::LibraryEntry& entry : sim::library_compressors()) {
        sim::Scenario scenario = on_stiff_grid(entry.name, 25.0);
        const plant_models::UnitParameters fitted = scenario.unit;
        if (std::holds_alternative<plant_models::NoStartAid>(fitted.start_aid)) {
            continue;
        }
        ++aided;
        int failed_without = 0;
        for (const double phase_deg : {0.0, 45.0, 90.0, 135.0}) {
            std::get<plant_models::GridParameters>(scenario.source).phase_deg = phase_deg;
            scenario.unit = fitted;
            EXPECT_EQ(sim::run_start(scenario).outcome, sim::Outcome::running)
                << entry.name << ", closed at " << phase_deg;
            scenario.unit.start_aid = plant_models::NoStartAid{};
            failed_without += sim::run_start(scenario).outcome == sim::Outcome::running ? 0 : 1;
        }
        EXPECT_GT(failed_without, 0) << entry.name;
    }
    EXPECT_GE(aided, 2);
}

TEST(BundledLibrary, EverySupplyCarriesTheSmallestCompressorThatFitsIt) {
    const auto compressors = sim::overview_of_compressors();
    for (const sim::SupplyOverview& supply : sim::overview_of_supplies()) {
        const auto* compressor = smallest_fitting(supply, compressors);
        ASSERT_NE(compressor, nullptr) << "nothing fits " << supply.name;
        const auto result = sim::run_start(combined_scenario(compressor->name, supply.name));
        EXPECT_EQ(result.outcome, sim::Outcome::running)
            << compressor->name << " on " << supply.name << ": " << result.cause;
        EXPECT_LT(result.energy.closure(), largest_closure) << supply.name;
        EXPECT_GT(result.energy.source_J, 0.0) << supply.name;
    }
}

// Both come from the same nameplate, but by different ways: the motor through runup fit.
TEST(BundledLibrary, TheProtectorsShortTimeTripIsTheLockedRotorCurrent) {
    const auto rows = sim::overview_of_compressors();
    for (std::size_t k = 0; k < rows.size(); ++k) {
        const auto unit = sim::parse_library_entry(sim::library_compressors()[k]);
        const auto* protector =
            std::get_if<plant_models::LineBreakParameters>(&unit.unit.protector);
        ASSERT_NE(protector, nullptr) << rows[k].name;
        EXPECT_NEAR(rows[k].locked_rotor_A, protector->trip_current_A,
                    0.01 * protector->trip_current_A)
            << rows[k].name;
    }
}

/// Words that say where a number is from; without their first letter where they may begin a
/// sentence.
bool names_an_origin(const std::string& comment) {
    constexpr std::array<std::string_view, 9> origins = {
        "published", "seen",           "secondary",
        "memory",    "computed",       "itted by runup fit",
        "nvented",   "ommon practice", "ngineering judgement"};
    return std::any_of(origins.begin(), origins.end(), [&comment](std::string_view word) {
        return comment.find(word) != std::string::npos;
    });
}

TEST(BundledLibrary, EveryTableWithNumbersStandsUnderACommentThatNamesTheirOrigin) {
    for (const sim::LibraryEntry& entry : all_entries()) {
        std::istringstream text{std::string(entry.text)};
        std::string comment;
        for (std::string line; std::getline(text, line);) {
            if (line.rfind('#', 0) == 0) {
                comment += (comment.empty() ? "" : " ") +
                           line.substr(std::min<std::size_t>(2, line.size()));
            } else if (line.rfind('[', 0) == 0) {
                EXPECT_TRUE(line == "[scenario]" || names_an_origin(comment))
                    << entry.name << ", " << line << ": " << comment;
                comment.clear();
            } else if (line.empty()) {
                comment.clear();
            }
        }
    }
}

TEST(BundledLibrary, TheListStaysReadableInAWideTerminal) {
    std::istringstream text(sim::library_text(
        sim::overview_of_compressors(), sim::overview_of_supplies(), sim::overview_of_suites()));
    std::size_t lines = 0;
    for (std::string line; std::getline(text, line); ++lines) {
        EXPECT_LE(line.size(), 150u) << line;
    }
    EXPECT_GT(lines, sim::library_compressors().size() + sim::library_supplies().size());
}

}  // namespace
