// Hashes: as published, and of everything that matters in a scenario.
#include "sim/regression/fingerprint.hpp"

#include <gtest/gtest.h>

#include <set>

#include "scenario/scenario_text.hpp"
#include "sim/regression/build_identity.hpp"
#include "sim/regression/scenario_fingerprint.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

using sim::fingerprint_of;

// Test vectors of the algorithm's authors (memory).
TEST(Fingerprint, IsThePublishedHash) {
    EXPECT_EQ(fingerprint_of(""), "cbf29ce484222325");
    EXPECT_EQ(fingerprint_of("a"), "af63dc4c8601ec8c");
    EXPECT_EQ(fingerprint_of("foobar"), "85944171f73967e8");
}

/// Two values that the rule accepts.
std::pair<sim::KeyValue, sim::KeyValue> two_values(const sim::Rule& rule) {
    if (const auto* number = std::get_if<sim::NumberRule>(&rule)) {
        return {number->lowest, number->highest};
    }
    if (const auto* word = std::get_if<sim::WordRule>(&rule)) {
        return {std::string(word->words.front()), std::string(word->words.back())};
    }
    if (const auto* list = std::get_if<sim::NumberListRule>(&rule)) {
        return {std::vector<double>(list->fewest, list->each.lowest),
                std::vector<double>(list->most, list->each.highest)};
    }
    return {std::string("one"), std::string("two")};
}

bool may_be_left_out(const sim::ScenarioTable& table) {
    return table.name == sim::heading_table || table.name == sim::library_table;
}

TEST(ScenarioFingerprint, ChangesWithEveryKeyOfEveryTable) {
    int keys = 0;
    sim::Scenario scenario = sim::parse_scenario(sim_test::right_scenario(), "cellar.toml");
    for (const sim::ScenarioTable& table : sim::scenario_tables(scenario)) {
        if (may_be_left_out(table)) {
            continue;
        }
        for (const sim::TableKind& kind : table.kinds) {
            const sim::TableForm form = kind.begin();
            for (const sim::Key& key : form.keys) {
                const auto [low, high] = two_values(key.rule);
                if (low == high) {
                    continue;  // a word that has no choice yet
                }
                key.store(low);
                const std::string before = sim::scenario_fingerprint(scenario);
                key.store(high);
                EXPECT_NE(before, sim::scenario_fingerprint(scenario))
                    << table.name << " " << kind.kind << " " << key.name;
                ++keys;
            }
        }
    }
    EXPECT_GT(keys, 200);
}

TEST(ScenarioFingerprint, TellsTheKindsOfATableApart) {
    sim::Scenario scenario = sim::parse_scenario(sim_test::right_scenario(), "cellar.toml");
    for (const sim::ScenarioTable& table : sim::scenario_tables(scenario)) {
        std::set<std::string> seen;
        for (const sim::TableKind& kind : table.kinds) {
            kind.begin();
            EXPECT_TRUE(seen.insert(sim::scenario_fingerprint(scenario)).second)
                << table.name << " " << kind.kind;
        }
    }
}

TEST(ScenarioFingerprint, DoesNotFollowNamesAndTitles) {
    const sim::Scenario one = sim::parse_scenario(sim_test::right_scenario(), "cellar.toml");
    const sim::Scenario other = sim::parse_scenario(
        "[scenario]\ntitle = \"Another\"\n" + sim_test::right_scenario(), "attic.toml");
    EXPECT_EQ(sim::scenario_fingerprint(one), sim::scenario_fingerprint(other));
}

TEST(SettingsFingerprint, FollowsTheControllerAlone) {
    sim::Scenario scenario = sim::parse_scenario(sim_test::right_scenario(), "cellar.toml");
    const std::string before = sim::settings_fingerprint(scenario);
    scenario.motor.inertia_kg_m2 *= 2.0;
    EXPECT_EQ(sim::settings_fingerprint(scenario), before);
    scenario.limiter = sim::BuiltinLimiter{};
    const std::string builtin = sim::settings_fingerprint(scenario);
    EXPECT_NE(builtin, before);
    sim::settings_of(scenario.limiter)->stage_count += 1;
    EXPECT_NE(sim::settings_fingerprint(scenario), builtin);
}

TEST(BuildIdentity, IsAVersionAndTwelveDigits) {
    const std::string identity(sim::build_identity());
    const std::size_t plus = identity.find('+');
    ASSERT_NE(plus, std::string::npos);
    EXPECT_EQ(identity.size() - plus - 1, 12U);
    EXPECT_EQ(identity.find_first_not_of("0123456789abcdef", plus + 1), std::string::npos);
}

}  // namespace
