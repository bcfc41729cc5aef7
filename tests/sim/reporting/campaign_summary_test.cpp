// A campaign in numbers.
#include "sim/reporting/campaign_summary.hpp"

#include <gtest/gtest.h>

#include <string>

#include "sample_campaign.hpp"
#include "sim/reporting/block_verdict.hpp"

namespace {

using sim_test::add_case;
using sim_test::failed_start;
using sim_test::passed_start;

sim::CasePlace on(const std::string& compressor, const std::string& supply) {
    return {"matrix", compressor, supply, "", "", ""};
}

TEST(CampaignSummary, CountsASeriesAsOneCaseThatPassesIfAllOfItDoes) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    sim::CaseRecord& series = add_case(results, passed_start());
    series.starts.push_back(passed_start());
    series.starts.push_back(failed_start("outcome"));
    const sim::CampaignSummary summary = sim::summary_of(results);
    EXPECT_EQ(summary.cases.trials, 2);
    EXPECT_EQ(summary.cases.successes, 1);
    EXPECT_EQ(summary.starts, 4);
    EXPECT_EQ(summary.starts_passed, 3);
}

TEST(CampaignSummary, ShowsOnlySidesWithMoreThanOneValueInTheSuitesOrder) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start(), on("scroll", "hut"));
    add_case(results, failed_start("outcome"), on("dairy", "hut"));
    add_case(results, failed_start("outcome"), on("scroll", "hut"));
    const sim::CampaignSummary summary = sim::summary_of(results);
    ASSERT_EQ(summary.sides.size(), 1U);
    EXPECT_EQ(summary.sides[0].side, "compressor");
    ASSERT_EQ(summary.sides[0].rates.size(), 2U);
    EXPECT_EQ(summary.sides[0].rates[0].name, "scroll");
    EXPECT_EQ(summary.sides[0].rates[0].cases.successes, 1);
    EXPECT_EQ(summary.sides[0].rates[0].cases.trials, 2);
    EXPECT_EQ(summary.sides[0].rates[1].cases.successes, 0);
}

TEST(CampaignSummary, CountsWhatBrokeByStartsAndByCases) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, failed_start("outcome", "first"));
    sim::CaseRecord& series = add_case(results, failed_start("limit:tries_count", "second"));
    series.starts.push_back(failed_start("limit:tries_count"));
    const sim::CampaignSummary summary = sim::summary_of(results);
    ASSERT_EQ(summary.broken.size(), 2U);
    EXPECT_EQ(summary.broken[0].requirement, "limit:tries_count");
    EXPECT_EQ(summary.broken[0].starts, 2);
    EXPECT_EQ(summary.broken[0].cases, 1);
    EXPECT_EQ(summary.broken[0].example->id, 1);
    EXPECT_EQ(summary.broken[0].example_words, "second");
}

TEST(BlockVerdict, FailsWithItsFirstFailedStartUnlessTheBlockAnswersForARate) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    add_case(results, failed_start("outcome"));
    EXPECT_FALSE(sim::campaign_passed(results));
    EXPECT_EQ(sim::block_verdicts(results)[0].failed, 1);
    results.rates = {{"matrix", 50.0}};
    EXPECT_TRUE(sim::campaign_passed(results));
    results.rates = {{"matrix", 51.0}};
    EXPECT_FALSE(sim::campaign_passed(results));
    results.rates = {{"another", 10.0}};
    EXPECT_FALSE(sim::campaign_passed(results));
}

TEST(BlockVerdict, JudgesNoRateByAShardButStillWhatFailsByItself) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, failed_start("outcome"));
    add_case(results, passed_start());
    results.rates = {{"matrix", 90.0}};
    EXPECT_FALSE(sim::block_verdicts(results).front().passed());
    results.campaign.shard_total = 5;
    EXPECT_TRUE(sim::block_verdicts(results).front().passed());
    add_case(results, failed_start("monitor:standing_rotor"));
    EXPECT_FALSE(sim::block_verdicts(results).front().passed());
}

TEST(BlockVerdict, ToleratesForNoRateWhatIsUnsafeOrHasNoResult) {
    for (const sim::StartRow& start :
         {failed_start("monitor:standing_rotor"), failed_start("limit:tries_count"),
          failed_start("outcome", "", "crashed")}) {
        sim::CampaignResults results = sim_test::campaign();
        add_case(results, passed_start());
        add_case(results, start);
        results.rates = {{"matrix", 10.0}};
        EXPECT_FALSE(sim::campaign_passed(results)) << start.broken[0].requirement;
    }
}

TEST(BlockVerdict, OfResultsThatAreNotFinishedIsNeverThatTheCampaignPassed) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    EXPECT_TRUE(sim::campaign_passed(results));
    results.campaign.finished = false;
    EXPECT_FALSE(sim::campaign_passed(results));
}

TEST(WorstStarts, BeginWithWhatIsUnsafe) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, failed_start("limit:tries_count"));
    add_case(results, failed_start("outcome"));
    add_case(results, failed_start("outcome", "", "crashed"));
    add_case(results, passed_start());
    add_case(results, failed_start("monitor:standing_rotor"));
    sim::StartRow hot = failed_start("outcome");
    hot.figures[1] = 140.0;
    add_case(results, hot);
    const auto worst = sim::worst_starts(results, 10);
    ASSERT_EQ(worst.size(), 5U);
    const std::vector<std::int64_t> order = {4, 2, 5, 1, 0};
    for (std::size_t k = 0; k < order.size(); ++k) {
        EXPECT_EQ(worst[k].in_case->id, order[k]) << k;
    }
    EXPECT_EQ(sim::worst_starts(results, 2).size(), 2U);
}

TEST(WorstStarts, ShowEveryPlaceOnceBeforeAnyTwice) {
    sim::CampaignResults results = sim_test::campaign();
    for (int k = 0; k < 3; ++k) {
        add_case(results, failed_start("monitor:standing_rotor"));
    }
    add_case(results, failed_start("outcome"), {"matrix", "scroll", "hut_inverter", "", "", ""});
    add_case(results, failed_start("outcome"), {"matrix", "scroll", "house_grid", "", "", ""});
    const auto ids_of = [&results](std::size_t most) {
        std::vector<std::int64_t> ids;
        for (const sim::WorstStart& one : sim::worst_starts(results, most)) {
            ids.push_back(one.in_case->id);
        }
        return ids;
    };
    EXPECT_EQ(ids_of(3), (std::vector<std::int64_t>{0, 3, 4}));
    EXPECT_EQ(ids_of(4), (std::vector<std::int64_t>{0, 1, 3, 4}));
    EXPECT_EQ(ids_of(5), (std::vector<std::int64_t>{0, 1, 2, 3, 4}));
}

TEST(CampaignResults, NameTheCommandThatRunsACaseAgain) {
    sim::CampaignResults results = sim_test::campaign();
    add_case(results, passed_start());
    EXPECT_EQ(sim::rerun_command(results, results.cases[0]), "runup start --case smoke#0");
    results.cases[0].starts.push_back(passed_start());
    results.rerun_from = "my results/it's.results";
    EXPECT_EQ(sim::rerun_command(results, results.cases[0]),
              "runup repeat --case 'my results/it'\\''s.results#0'");
}

TEST(CampaignResults, NameACaseByTheSidesThatItHas) {
    EXPECT_EQ(sim::place_words(on("dairy", "hut")), "dairy on hut");
    EXPECT_EQ(sim::place_words({"b", "dairy", "", "hot", "open", "soft"}),
              "dairy, hot, open, soft");
    EXPECT_EQ(sim::place_words({"b", "", "", "", "", ""}), "b");
}

}  // namespace
