// The suites that come with the program.
#include "sim/suites/bundled_suites.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>

#include "sim/campaigns/single_faults.hpp"
#include "sim/suites/suite.hpp"
#include "sim/suites/suite_overview.hpp"

namespace {

TEST(BundledSuites, AreTheFourThatAreToldAndReadAgainFromTheirText) {
    std::set<std::string_view> names;
    for (const sim::LibraryEntry& entry : sim::bundled_suites()) {
        names.insert(entry.name);
        const auto suite = sim::read_suite(std::string(entry.name));
        EXPECT_EQ(suite->name(), entry.name);
        EXPECT_GT(suite->case_count(), 0);
        const auto again = sim::suite_from_text(suite->text(), suite->name());
        EXPECT_EQ(again->case_count(), suite->case_count());
        EXPECT_EQ(again->text(), suite->text());
    }
    EXPECT_EQ(names, (std::set<std::string_view>{"faults", "learning", "nightly", "smoke"}));
    for (const sim::SuiteOverview& row : sim::overview_of_suites()) {
        EXPECT_FALSE(row.title.empty()) << row.name;
    }
}

TEST(BundledSuites, HaveNoCaseThatCannotBeMade) {
    for (const sim::LibraryEntry& entry : sim::bundled_suites()) {
        const auto suite = sim::read_suite(std::string(entry.name));
        // Every cell of nightly, and some of its draws.
        for (std::int64_t id = 0; id < suite->case_count(); id += 3) {
            EXPECT_NO_THROW(suite->case_at(id)) << entry.name << '#' << id;
        }
    }
}

TEST(BundledSuites, NightlyIsTenThousandStartsOfEveryCompressor) {
    const auto suite = sim::read_suite("nightly");
    EXPECT_EQ(suite->case_count(), 10000);
    std::set<std::string> compressors;
    for (std::int64_t id = 0; id < suite->case_count(); id += 10) {
        const sim::SuiteCase one = suite->case_at(id);
        compressors.insert(one.place.compressor);
        EXPECT_EQ(one.series.starts, 1);
    }
    EXPECT_EQ(compressors.size(), sim::library_compressors().size());
}

TEST(BundledSuites, FaultsHoldsEverySingleFaultOfEveryUnitInEveryPhase) {
    const auto suite = sim::read_suite("faults");
    std::map<std::string, std::multiset<std::string>> seen;
    std::map<std::string, std::set<std::string>> wanted;
    for (std::int64_t id = 0; id < suite->case_count(); ++id) {
        sim::SuiteCase one = suite->case_at(id);
        const std::string unit = one.place.compressor + " on " + one.place.supply;
        if (!one.place.fault.empty()) {
            seen[unit].insert(one.place.fault);
        }
        if (wanted[unit].empty()) {
            one.scenario.faults.clear();
            for (const sim::SingleFault& single : sim::single_faults(one.scenario)) {
                if (single.only_from_the_beginning) {
                    wanted[unit].insert(single.name);
                    continue;
                }
                for (const char* at : {" at 0 s", " at 0.2 s", " at 2 s"}) {
                    wanted[unit].insert(single.name + at);
                }
            }
        }
    }
    EXPECT_EQ(seen.size(), 4U);
    for (const auto& [unit, faults] : wanted) {
        // Each once: a fault that two blocks hold would have two expectations.
        EXPECT_EQ(seen[unit], std::multiset<std::string>(faults.begin(), faults.end())) << unit;
    }
}

TEST(BundledSuites, LearningIsMadeOfSeriesInPairs) {
    const auto suite = sim::read_suite("learning");
    std::map<std::uint32_t, std::set<std::string>> settings;
    for (std::int64_t id = 0; id < suite->case_count(); ++id) {
        const sim::SuiteCase one = suite->case_at(id);
        EXPECT_GT(one.series.starts, 1);
        settings[one.seed].insert(one.place.setting);
    }
    for (const auto& [seed, pair] : settings) {
        EXPECT_EQ(pair, (std::set<std::string>{"easing", "none"})) << seed;
    }
}

}  // namespace
