// What is said of a campaign: counted right, and fit to act on.
#include <gtest/gtest.h>

#include "files/temporary_folder.hpp"
#include "sim/regression/regress_summary.hpp"
#include "sim/results/regress_json.hpp"
#include "sim/results/regress_text.hpp"
#include "small_suite.hpp"

namespace {

using sim::RegressSummary;
using sim_test::plan_for;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

RegressSummary summary_of(const SmallSuite& suite) {
    const TemporaryFolder folder;
    sim_test::run_small(suite, plan_for(folder / "results"));
    return sim::summarize(sim::ResultsReader(folder / "results"), suite);
}

/// Passes but for what a test makes of it.
SmallSuite harmless_suite(std::int64_t cases) {
    SmallSuite suite(cases);
    suite.also = [](sim::SuiteCase& one) { one.limits.clear(); };
    return suite;
}

/// Every second case of the block "third" ends otherwise than accepted.
SmallSuite half_a_block_fails() {
    SmallSuite suite(60);
    suite.also = [](sim::SuiteCase& one) {
        one.limits.clear();
        if (one.id % 6 == 0) {
            one.accepted = {sim::Outcome::running};
        }
    };
    return suite;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST(RegressSummary, CountsCasesStartsAndBlocks) {
    const RegressSummary summary = summary_of(harmless_suite(30));
    EXPECT_EQ(summary.passed.trials, 30);
    EXPECT_EQ(summary.passed.successes, 30);
    EXPECT_EQ(summary.starts, 33);
    ASSERT_EQ(summary.blocks.size(), 2U);
    EXPECT_EQ(summary.blocks[0].block, "third");
    EXPECT_EQ(summary.blocks[0].passed.trials, 10);
    EXPECT_EQ(summary.blocks[1].passed.trials, 20);
    EXPECT_TRUE(summary.broken.empty());
    EXPECT_TRUE(summary.as_expected());
}

TEST(RegressSummary, OneFailedCaseFailsABlockThatAnswersForAll) {
    const RegressSummary summary = summary_of(half_a_block_fails());
    EXPECT_FALSE(summary.as_expected());
    EXPECT_EQ(summary.blocks[0].failures, 10);
    EXPECT_TRUE(summary.blocks[1].holds());
    ASSERT_EQ(summary.broken.size(), 1U);
    EXPECT_EQ(summary.broken[0].requirement, "outcome");
    EXPECT_EQ(summary.broken[0].starts, 10);
    EXPECT_EQ(summary.broken[0].first_case, 0);
    EXPECT_EQ(summary.first_failed.size(), sim::most_listed_failures);
}

TEST(RegressSummary, ABlockThatAnswersForARateHoldsAsLongAsTheRateDoes) {
    SmallSuite suite = half_a_block_fails();
    suite.rates_ = {{"third", 40.0}};
    const RegressSummary held = summary_of(suite);
    EXPECT_TRUE(held.as_expected());
    EXPECT_NEAR(held.blocks[0].accepted_percent(), 100.0 * 12 / 22, 1e-9);
    suite.rates_ = {{"third", 60.0}};
    EXPECT_FALSE(summary_of(suite).as_expected());
}

TEST(RegressSummary, AShardDoesNotJudgeTheRateOfTheWhole) {
    const TemporaryFolder folder;
    SmallSuite suite = half_a_block_fails();
    suite.rates_ = {{"third", 99.0}};
    sim::RegressPlan plan = plan_for(folder / "results");
    plan.shard = {1, 2};
    sim_test::run_small(suite, plan);
    const sim::ResultsReader results(folder / "results");
    const RegressSummary summary = sim::summarize(results, suite);
    EXPECT_LT(summary.blocks[0].accepted_percent(), 99.0);
    EXPECT_TRUE(summary.as_expected());
}

TEST(RegressSummary, NoRateAnswersForACrash) {
    SmallSuite suite = harmless_suite(30);
    suite.rates_ = {{"third", 10.0}, {"others", 10.0}};
    EXPECT_TRUE(summary_of(suite).as_expected());
    suite.instead[7] = [] { ::_exit(1); };
    const RegressSummary summary = summary_of(suite);
    EXPECT_FALSE(summary.as_expected());
    EXPECT_EQ(summary.blocks.size(), 3U) << "a case that died before it was known has no block";
}

TEST(RegressText, SaysWhatDidNotPassAndHowToRunItAgain) {
    const std::string text =
        regress_text(summary_of(half_a_block_fails()), {"my/small.toml", "small.results"});
    EXPECT_TRUE(contains(text, "small: Short starts for the tests\n  60 of 60 cases, 66 starts"));
    EXPECT_TRUE(contains(text, "third         20      10  50 % (29.93 to 70.07)      all  NOT MET"))
        << text;
    EXPECT_TRUE(contains(text, "10 starts  outcome, first in case 0: ended in stalled"));
    EXPECT_TRUE(contains(text, "Rerun one: runup start --case my/small.toml#0"));
    EXPECT_TRUE(contains(text, "Every case is in small.results."));
    EXPECT_TRUE(contains(text, "small: Not as expected: 10 cases failed\n"));
}

TEST(RegressText, RunsASeriesAgainAsOne) {
    SmallSuite suite = harmless_suite(20);
    suite.also = [](sim::SuiteCase& one) {
        one.limits.clear();
        if (one.id == 9) {
            one.accepted = {sim::Outcome::running};
        }
    };
    const std::string text = regress_text(summary_of(suite), {"small", "a.results"});
    EXPECT_TRUE(contains(text, "Rerun one: runup repeat --case small#9\n")) << text;
}

TEST(RegressText, IsShortWhereAllIsWell) {
    const std::string text = regress_text(summary_of(harmless_suite(30)), {"small", "a.results"});
    EXPECT_FALSE(contains(text, "not met"));
    EXPECT_FALSE(contains(text, "Rerun"));
    EXPECT_TRUE(contains(text, "small: As expected: 30 of 30 cases passed\n")) << text;
}

TEST(RegressText, SaysWhichRateIsMissed) {
    SmallSuite suite = half_a_block_fails();
    suite.rates_ = {{"third", 60.0}};
    EXPECT_EQ(
        regress_verdict(summary_of(suite)),
        "small: Not as expected: 0 cases failed; third has 54.55 % of its starts, not 60 %\n");
}

TEST(RegressJson, HoldsTheSameNumbers) {
    const RegressSummary summary = summary_of(half_a_block_fails());
    const auto json = regress_json(summary, {"small", "small.results"});
    EXPECT_EQ(json["schema"], "runup.regress/1");
    EXPECT_EQ(json["cases"], 60);
    EXPECT_EQ(json["starts"], 66);
    EXPECT_EQ(json["as_expected"], false);
    EXPECT_EQ(json["success"]["passed"], 50);
    EXPECT_NEAR(json["success"]["rate_lowest"].get<double>(), summary.passed.lowest(), 1e-15);
    EXPECT_EQ(json["blocks"][0]["block"], "third");
    EXPECT_EQ(json["blocks"][0]["success"]["cases"], 20);
    EXPECT_TRUE(json["blocks"][0]["least_accepted_percent"].is_null());
    EXPECT_EQ(json["broken"][0]["requirement"], "outcome");
    EXPECT_EQ(json["first_failed"].size(), sim::most_listed_failures);
    EXPECT_EQ(json["first_failed"][0]["case"], 0);
}

}  // namespace
