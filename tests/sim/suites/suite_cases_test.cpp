// From a suite's text to its cases: what lies over what, and whose luck is whose.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "files/temporary_folder.hpp"
#include "sim/campaigns/single_faults.hpp"
#include "sim/library/library.hpp"
#include "sim/regression/scenario_fingerprint.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/sizing/way.hpp"
#include "sim/suites/case_draws.hpp"
#include "suites/suite_text.hpp"

namespace {

using sim::SuiteCase;
using sim_test::one_pair;
using sim_test::suite_of;

std::vector<SuiteCase> cases_of(const sim::Suite& suite) {
    std::vector<SuiteCase> all;
    for (std::int64_t id = 0; id < suite.case_count(); ++id) {
        all.push_back(suite.case_at(id));
    }
    return all;
}

const char* const three_spreads =
    "[[spread]]\ngroup = \"luck\"\ninput = \"phase_deg\"\nkind = \"uniform\"\nlowest = 0\n"
    "highest = 360\n"
    "[[spread]]\ngroup = \"luck\"\ninput = \"run_capacitor_factor\"\nkind = \"normal\"\nmean = 1\n"
    "deviation = 0.02\nlowest = 0.94\nhighest = 1.06\n"
    "[[spread]]\ngroup = \"wear\"\ninput = \"run_capacitor_factor\"\nkind = \"uniform\"\n"
    "lowest = 0.8\nhighest = 0.9\n";

std::map<std::string, double> drawn(const SuiteCase& one) {
    std::map<std::string, double> values;
    for (const sim::DrawnInput& input : one.drawn) {
        EXPECT_TRUE(values.emplace(input.name, input.value).second) << input.name;
    }
    return values;
}

TEST(SuiteCases, OfABlockWithAScenarioAloneAreThatScenario) {
    const auto suite = suite_of("[[block]]\nname = \"x\"\nscenario = \"hut_inverter_direct\"\n");
    ASSERT_EQ(suite->case_count(), 1);
    const SuiteCase one = suite->case_at(0);
    sim::Scenario given = sim::parse_scenario(
        sim::find_entry(sim::bundled_scenarios(), "hut_inverter_direct")->text, "given.toml");
    ASSERT_EQ(one.accepted.size(), 1U);
    EXPECT_EQ(one.accepted.front(), given.expect.outcome);
    EXPECT_NE(given.expect.outcome, sim::Outcome::running);
    given.run.seed = static_cast<int>(one.seed);
    EXPECT_EQ(sim::scenario_fingerprint(one.scenario), sim::scenario_fingerprint(given));
}

TEST(SuiteCases, AreThoseOfAScenarioThatNamesTheSameParts) {
    const auto suite =
        suite_of(one_pair("settings = \"limiter\"\n[block.conditions]\nambient_C = 31\n"));
    sim::Scenario given = sim::parse_scenario(
        "[library]\ncompressor = \"cold_room_230v_50hz\"\nsupply = \"house_grid_230v_50hz\"\n"
        "[conditions]\nambient_C = 31\n[limiter]\nkind = \"none\"\n",
        "given.toml");
    given = sim::brought_up(given, sim::Way::limiter).value();
    const SuiteCase one = suite->case_at(0);
    given.run.seed = static_cast<int>(one.seed);
    EXPECT_EQ(sim::scenario_fingerprint(one.scenario), sim::scenario_fingerprint(given));
    EXPECT_EQ(one.scenario.name, "test.toml#0");
    EXPECT_EQ(one.place.compressor, "cold_room_230v_50hz");
    EXPECT_EQ(one.place.supply, "house_grid_230v_50hz");
    EXPECT_EQ(one.place.setting, "limiter");
    EXPECT_EQ(one.place.condition, "");
}

TEST(SuiteCases, LaySettingOverFaultConditionSupplyCompressorBlockAndScenario) {
    // Each side gives the duration; the uppermost that is chosen counts.
    const std::string tables =
        "[[compressor]]\nname = \"c\"\nlibrary = \"cold_room_230v_50hz\"\n"
        "[compressor.run]\nduration_s = 12\n"
        "[[supply]]\nname = \"s\"\nlibrary = \"house_grid_230v_50hz\"\n"
        "[supply.run]\nduration_s = 13\n"
        "[[condition]]\nname = \"w\"\n[condition.run]\nduration_s = 14\n"
        "[[fault]]\nname = \"f\"\n[fault.run]\nduration_s = 15\n[[fault.fault]]\n"
        "kind = \"rotor_seized\"\n"
        "[[setting]]\nname = \"l\"\nway = \"limiter\"\n[setting.run]\nduration_s = 16\n";
    const auto duration_s = [&tables](const std::string& sides) {
        return suite_of(tables + "[[block]]\nname = \"x\"\n" + sides +
                        "[block.run]\nduration_s = 11\n")
            ->case_at(0)
            .scenario.run.duration_s;
    };
    const std::string scenario = "scenario = \"dairy_50hz\"\n";
    EXPECT_EQ(duration_s(scenario), 11.0);
    EXPECT_EQ(duration_s(scenario + "compressors = \"c\"\nsupplies = \"house_grid_230v_50hz\"\n"),
              12.0);
    const std::string pair = scenario + "compressors = \"c\"\nsupplies = \"s\"\n";
    EXPECT_EQ(duration_s(pair), 13.0);
    EXPECT_EQ(duration_s(pair + "conditions = \"w\"\n"), 14.0);
    EXPECT_EQ(duration_s(pair + "conditions = \"w\"\nfaults = \"f\"\n"), 15.0);
    EXPECT_EQ(duration_s(pair + "conditions = \"w\"\nfaults = \"f\"\nsettings = \"l\"\n"), 16.0);
}

TEST(SuiteCases, ExchangeACompressorAsAWhole) {
    // What is fitted to the scenario's own unit goes with it: its start aid, its heat.
    const std::string below =
        "[block.start_aid]\nkind = \"thermistor\"\ncold_resistance_ohm = "
        "25\n[block.source]\nsag_begin_s = 1\n"
        "sag_length_s = 1\nsag_to_percent = 50\n";
    const std::string scenario = "[[block]]\nname = \"x\"\nscenario = \"reference_direct\"\n";
    const SuiteCase own = suite_of(scenario + below)->case_at(0);
    EXPECT_FALSE(std::holds_alternative<plant_models::NoStartAid>(own.scenario.unit.start_aid));
    EXPECT_EQ(std::get<plant_models::GridParameters>(own.scenario.source).sag_to_percent, 50.0);
    const SuiteCase other =
        suite_of(scenario + "compressors = \"outdoor_3_ton_scroll\"\n" + below)->case_at(0);
    EXPECT_TRUE(std::holds_alternative<plant_models::NoStartAid>(other.scenario.unit.start_aid));
    EXPECT_EQ(std::get<plant_models::GridParameters>(other.scenario.source).sag_to_percent, 50.0);
    EXPECT_EQ(other.scenario.library.compressor->name, "outdoor_3_ton_scroll");
    EXPECT_EQ(other.scenario.library.supply, nullptr);
    const SuiteCase elsewhere =
        suite_of(
            "[[supply]]\nname = \"s\"\n[supply.source]\nkind = \"grid\"\nvoltage_V = 230\n"
            "frequency_Hz = 60\nresistance_ohm = 0.1\ninductance_mH = 0.1\nphase_deg = 0\n" +
            scenario + "supplies = \"s\"\n" + below)
            ->case_at(0);
    EXPECT_EQ(std::get<plant_models::GridParameters>(elsewhere.scenario.source).sag_to_percent,
              100.0);
    EXPECT_FALSE(
        std::holds_alternative<plant_models::NoStartAid>(elsewhere.scenario.unit.start_aid));
}

TEST(SuiteCases, MeetTheSameLuckUnderEverySettingAndAnotherElsewhere) {
    const auto suite =
        suite_of(std::string(three_spreads) +
                 "[[block]]\nname = \"x\"\ncompressors = [\"cold_room_230v_50hz\", "
                 "\"display_case_230v_50hz\"]\nsupplies = [\"house_grid_230v_50hz\", "
                 "\"rural_grid_230v_50hz\"]\nsettings = [\"directly\", \"limiter\"]\ndraws = 5\n"
                 "spreads = [\"luck\", \"wear\"]\n");
    ASSERT_EQ(suite->case_count(), 40);
    std::map<std::string, std::vector<SuiteCase>> by_place;
    std::set<std::uint32_t> seeds;
    std::set<double> phases;
    for (const SuiteCase& one : cases_of(*suite)) {
        by_place[one.place.compressor + one.place.supply + one.place.setting].push_back(one);
        seeds.insert(one.seed);
        phases.insert(drawn(one).at("phase_deg"));
        EXPECT_EQ(one.scenario.run.seed, static_cast<int>(one.seed));
    }
    EXPECT_EQ(seeds.size(), 20U);
    EXPECT_EQ(phases.size(), 20U);
    for (const std::string place : {"cold_room_230v_50hzhouse_grid_230v_50hz",
                                    "display_case_230v_50hzrural_grid_230v_50hz"}) {
        const auto& direct = by_place.at(place + "directly");
        const auto& limited = by_place.at(place + "limiter");
        for (std::size_t k = 0; k < 5; ++k) {
            EXPECT_EQ(direct[k].seed, limited[k].seed);
            EXPECT_EQ(drawn(direct[k]), drawn(limited[k]));
        }
    }
}

TEST(SuiteCases, KeepTheirLuckWhenSomethingIsAddedElsewhere) {
    const std::string block = one_pair("draws = 3\nspreads = \"luck\"\n");
    const auto alone = suite_of(three_spreads + block);
    const auto among =
        suite_of(std::string("[[spread]]\ngroup = \"luck\"\ninput = \"rest_s\"\nkind = "
                             "\"uniform\"\nlowest = 100\nhighest = 200\n") +
                 three_spreads + one_pair("", "before") +
                 "[[block]]\nname = \"pair\"\ncompressors = [\"milk_cooler_240v_50hz\", "
                 "\"cold_room_230v_50hz\"]\nsupplies = \"house_grid_230v_50hz\"\ndraws = 3\n"
                 "spreads = \"luck\"\n");
    for (std::int64_t k = 0; k < 3; ++k) {
        const SuiteCase one = alone->case_at(k);
        const SuiteCase other = among->case_at(1 + 3 + k);
        EXPECT_EQ(one.seed, other.seed);
        EXPECT_EQ(other.place.compressor, "cold_room_230v_50hz");
        for (const auto& [name, value] : drawn(one)) {
            EXPECT_EQ(drawn(other).at(name), value) << name;
        }
        EXPECT_EQ(drawn(other).count("rest_s"), 1U);
    }
}

TEST(SuiteCases, ChangeTheirLuckWithTheSeed) {
    const std::string tables = three_spreads + one_pair("spreads = \"luck\"\n");
    const auto three = suite_of(tables);
    const auto four = sim::suite_from_text("[suite]\ntitle = \"A test\"\nseed = 4\n" + tables, "x");
    EXPECT_NE(three->case_at(0).seed, four->case_at(0).seed);
    EXPECT_NE(drawn(three->case_at(0)), drawn(four->case_at(0)));
}

TEST(SuiteCases, MultiplyToleranceAndWearOfTheSamePart) {
    const auto fixed = [](const std::string& group, const std::string& value) {
        return "[[spread]]\ngroup = \"" + group +
               "\"\ninput = \"run_capacitor_factor\"\nkind = \"fixed\"\nvalue = " + value + "\n";
    };
    const SuiteCase one = suite_of(fixed("tolerance", "1.06") + fixed("wear", "0.5") +
                                   one_pair("spreads = [\"tolerance\", \"wear\"]\n"))
                              ->case_at(0);
    EXPECT_DOUBLE_EQ(drawn(one).at("run_capacitor_factor"), 0.53);
    EXPECT_DOUBLE_EQ(one.scenario.motor.run_capacitor_uF, 25.0 * 0.53);
}

TEST(SuiteCases, DrawTwoSpreadsOfAPartIndependently) {
    const std::string tables = std::string(three_spreads) +
                               "[[spread]]\ngroup = \"twin\"\ninput = \"run_capacitor_factor\"\n"
                               "kind = \"uniform\"\nlowest = 0.8\nhighest = 0.9\n";
    const double once = drawn(suite_of(tables + one_pair("spreads = \"wear\"\n"))->case_at(0))
                            .at("run_capacitor_factor");
    const double twice =
        drawn(suite_of(tables + one_pair("spreads = [\"wear\", \"twin\"]\n"))->case_at(0))
            .at("run_capacitor_factor");
    EXPECT_NE(twice, once * once);
    EXPECT_GE(twice, 0.8 * once);
    EXPECT_LE(twice, 0.9 * once);
}

// The documented generator by the standard library's own, which must be the same (C++11).
TEST(SuiteCases, DrawWhatTheDocumentedGeneratorGives) {
    const auto hash = [](const std::string& text) {
        std::uint64_t value = 14695981039346656037ULL;
        for (const char letter : text) {
            value = (value ^ static_cast<unsigned char>(letter)) * 1099511628211ULL;
        }
        return value;
    };
    const std::uint64_t place = hash("pair\ncold_room_230v_50hz\nhouse_grid_230v_50hz\n\n\n");
    const std::uint64_t input = hash("phase_deg");
    const auto low = [](std::uint64_t word) { return static_cast<std::uint32_t>(word); };
    const auto high = [](std::uint64_t word) { return static_cast<std::uint32_t>(word >> 32U); };
    const SuiteCase one =
        suite_of(three_spreads + one_pair("draws = 8\nspreads = \"luck\"\n"))->case_at(7);
    std::seed_seq of_input{3U, low(place), high(place), 7U, low(input), high(input), 0U};
    std::mt19937_64 generator(of_input);
    const double even = std::ldexp(static_cast<double>(generator()), -64);
    EXPECT_NEAR(drawn(one).at("phase_deg"), 360.0 * even, 1e-9);
    std::seed_seq of_case{3U, low(place), high(place), 7U};
    std::vector<std::uint32_t> seed(1);
    of_case.generate(seed.begin(), seed.end());
    EXPECT_EQ(one.seed, seed[0] & 0x7fffffffU);
}

TEST(SuiteCases, OfFittingSuppliesAreThosePairsThatSuitAndNoOthers) {
    const auto suite =
        suite_of("[[block]]\nname = \"x\"\ncompressors = \"all\"\nsupplies = \"fitting\"\n");
    std::set<std::string> compressors;
    for (const SuiteCase& one : cases_of(*suite)) {
        compressors.insert(one.place.compressor);
        const double supply_Hz = plant_models::nominal_frequency_Hz(one.scenario.source);
        const double supply_V = plant_models::nominal_voltage_V(one.scenario.source);
        EXPECT_EQ(supply_Hz, one.scenario.motor.rated_frequency_Hz);
        EXPECT_NEAR(supply_V / one.scenario.motor.rated_voltage_V, 1.0, 0.15);
        EXPECT_EQ(one.scenario.library.compressor->name, one.place.compressor);
        EXPECT_EQ(one.scenario.library.supply->name, one.place.supply);
    }
    EXPECT_EQ(compressors.size(), sim::library_compressors().size());
}

TEST(SuiteCases, OfSingleFaultsAreAllThatTheUnitCanHaveAtEachInstant) {
    const auto suite = suite_of(
        one_pair("settings = [\"limiter\", \"directly\"]\nfaults = [\"none\", \"single\"]\n"
                 "fault_at_s = [0, 0.25]\n"));
    std::set<std::string> limited;
    std::set<std::string> direct;
    for (const SuiteCase& one : cases_of(*suite)) {
        (one.place.setting == "limiter" ? limited : direct).insert(one.place.fault);
        ASSERT_EQ(one.scenario.faults.size(), one.place.fault.empty() ? 0U : 1U);
        if (one.place.fault.find(" at 0.25 s") != std::string::npos) {
            EXPECT_EQ(one.scenario.faults.front().timing.at_s, 0.25);
        }
    }
    sim::Scenario unit = suite->case_at(0).scenario;
    unit.faults.clear();
    std::set<std::string> all{""};
    for (const sim::SingleFault& single : sim::single_faults(unit)) {
        if (single.only_from_the_beginning) {
            all.insert(single.name);
        } else {
            all.insert(single.name + " at 0 s");
            all.insert(single.name + " at 0.25 s");
        }
    }
    EXPECT_EQ(limited, all);
    EXPECT_GT(direct.size(), 10U);
    EXPECT_EQ(direct.count("thyristor_dead both at 0 s"), 0U);
}

TEST(SuiteCases, OfASeriesCarryItsPlan) {
    const SuiteCase one =
        suite_of(one_pair("settings = \"limiter\"\nstarts = 7\n[block.run]\nrest_between_s = 60\n"
                          "power_between_starts = \"off\"\n"))
            ->case_at(0);
    EXPECT_EQ(one.series.starts, 7);
    EXPECT_EQ(one.series.rest_between_s, 60.0);
    EXPECT_TRUE(one.series.power_cuts);
}

TEST(SuiteCases, CarryLimitsOutcomesAndRatesOfTheirBlock) {
    const auto suite = suite_of(
        "[[expectation]]\nname = \"e\"\noutcome = [\"resting\", \"locked_out\"]\n"
        "at_most_hottest_winding_C = 90\nat_least_hottest_winding_C = 10\n" +
        one_pair("expect = \"e\"\nsuccess_at_least_percent = 97.5\n", "first") +
        one_pair("", "second"));
    const SuiteCase one = suite->case_at(0);
    EXPECT_EQ(one.accepted, (std::vector{sim::Outcome::resting, sim::Outcome::locked_out}));
    EXPECT_EQ(one.scenario.expect.outcome, sim::Outcome::resting);
    ASSERT_EQ(one.limits.size(), 1U);
    EXPECT_EQ(one.limits[0].figure, "hottest_winding_C");
    EXPECT_EQ(one.limits[0].lowest, 10.0);
    EXPECT_EQ(one.limits[0].highest, 90.0);
    ASSERT_EQ(suite->rates().size(), 1U);
    EXPECT_EQ(suite->rates()[0].block, "first");
    EXPECT_EQ(suite->rates()[0].success_at_least_percent, 97.5);
    EXPECT_EQ(suite->case_at(1).accepted, std::vector{sim::Outcome::running});
    EXPECT_TRUE(suite->case_at(1).limits.empty());
}

TEST(SuiteText, ReadsAgainToTheSameCasesWithoutAnyOfItsFiles) {
    std::string text;
    std::vector<SuiteCase> before;
    {
        const sim_test::TemporaryFolder folder;
        const std::string path = folder.put(
            "outer.toml", sim_test::suite_text("include = [\"inner.toml\", \"smoke\"]\n" +
                                               std::string(three_spreads) +
                                               one_pair("draws = 2\nspreads = \"luck\"\n")));
        folder.put("inner.toml",
                   "[suite]\ntitle = \"In\"\nseed = 9\n[[block]]\nname = \"own\"\nscenario = "
                   "\"own.toml\"\nsettings = [\"directly\", \"limiter\"]\n");
        folder.put(
            "own.toml",
            "# \"\"\" a comment with \\quotes\\ and a tab\t\n[scenario]\ntitle = \"Own \\\"\""
            "\n[library]\ncompressor = \"cold_room_230v_50hz\"\nsupply = "
            "\"rural_grid_230v_50hz\"\n[limiter]\nkind = \"none\"\n");
        const auto suite = sim::read_suite(path);
        EXPECT_EQ(suite->name(), "outer");
        text = suite->text();
        before = cases_of(*suite);
    }
    const auto again = sim::suite_from_text(text, "outer");
    EXPECT_EQ(again->text(), text);
    EXPECT_EQ(again->title(), "A test");
    ASSERT_EQ(again->case_count(), static_cast<std::int64_t>(before.size()));
    EXPECT_GT(before.size(), 60U);
    for (const SuiteCase& one : before) {
        const SuiteCase other = again->case_at(one.id);
        EXPECT_EQ(sim::scenario_fingerprint(one.scenario),
                  sim::scenario_fingerprint(other.scenario));
        EXPECT_EQ(one.seed, other.seed);
        EXPECT_EQ(one.place.block, other.place.block);
        EXPECT_EQ(one.scenario.name, other.scenario.name);
        EXPECT_EQ(one.scenario.title, other.scenario.title);
        EXPECT_EQ(drawn(one), drawn(other));
    }
    EXPECT_EQ(before[2].place.block, "inner/own");
    EXPECT_EQ(before[4].place.block, "smoke/limited");
}

}  // namespace
