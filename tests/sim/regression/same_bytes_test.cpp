// The results file follows from the suite alone: not from workers, shards or interruptions.
#include <gtest/gtest.h>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/case_run.hpp"
#include "sim/regression/merged_results.hpp"
#include "sim/regression/results_reader.hpp"
#include "small_suite.hpp"

namespace {

using sim::ExistingFile;
using sim::RegressPlan;
using sim_test::plan_for;
using sim_test::run_small;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

TEST(Campaign, HasTheSameBytesForAnyNumberOfWorkers) {
    const TemporaryFolder folder;
    const SmallSuite suite(90);
    for (const int jobs : {1, 2, 7}) {
        run_small(suite, plan_for(folder / std::to_string(jobs), jobs));
        EXPECT_FALSE(folder.get("1").empty());
        EXPECT_TRUE(folder.get(std::to_string(jobs)) == folder.get("1")) << jobs;
    }
    EXPECT_EQ(folder.names(), (std::set<std::string>{"1", "2", "7"}));
}

TEST(Campaign, RecordsWhatACaseComesToByItself) {
    const TemporaryFolder folder;
    const SmallSuite suite(20);
    run_small(suite, plan_for(folder / "results"));
    const sim::ResultsReader reader(folder / "results");
    EXPECT_EQ(reader.case_count(), 20);
    int failed = 0;
    reader.each_case([&](const sim::CaseRecord& record) {
        const sim::CaseRecord alone = sim::run_case(suite, record.id);
        EXPECT_EQ(record.scenario_hash, alone.scenario_hash);
        EXPECT_EQ(record.seed, 1000 + record.id);
        ASSERT_EQ(record.starts.size(), alone.starts.size());
        EXPECT_EQ(record.starts.size(), record.id % 10 == 9 ? 2U : 1U);
        for (std::size_t k = 0; k < alone.starts.size(); ++k) {
            EXPECT_EQ(record.starts[k].outcome, "stalled");
            EXPECT_EQ(record.starts[k].figures, alone.starts[k].figures);
            EXPECT_EQ(record.starts[k].passed, alone.starts[k].passed);
        }
        failed += record.passed() ? 0 : 1;
    });
    EXPECT_GT(failed, 0);
    EXPECT_LT(failed, 10);
}

TEST(Campaign, FiveShardsMergedAreTheWholeToTheByte) {
    const TemporaryFolder folder;
    const SmallSuite suite(83);
    run_small(suite, plan_for(folder / "whole"));
    std::vector<std::string> shards;
    for (const int index : {3, 1, 5, 2, 4}) {
        RegressPlan plan = plan_for(folder / "shard" + std::to_string(index));
        plan.shard = {index, 5};
        run_small(suite, plan);
        shards.push_back(plan.results);
    }
    sim::merge_results(shards, folder / "merged");
    EXPECT_TRUE(folder.get("merged") == folder.get("whole"));
}

TEST(Campaign, MoreShardsThanCasesAreNoTrouble) {
    const TemporaryFolder folder;
    const SmallSuite suite(3);
    run_small(suite, plan_for(folder / "whole"));
    std::vector<std::string> shards;
    for (int index = 1; index <= 12; ++index) {  // more than SQLite has open at the same time
        RegressPlan plan = plan_for(folder / "shard" + std::to_string(index), 1);
        plan.shard = {index, 12};
        run_small(suite, plan);
        shards.push_back(plan.results);
    }
    sim::merge_results(shards, folder / "merged");
    EXPECT_TRUE(folder.get("merged") == folder.get("whole"));
}

TEST(Campaign, InterruptedAnywhereAndGoneOnWithItHasTheSameBytes) {
    const TemporaryFolder folder;
    const SmallSuite suite(80);
    run_small(suite, plan_for(folder / "whole"));
    RegressPlan plan = plan_for(folder / "stopped");
    plan.existing = ExistingFile::go_on;
    std::int64_t known = 0;
    for (const std::int64_t stop_at : {1, 2, 20, 79}) {
        std::int64_t reached = 0;
        EXPECT_FALSE(sim::run_campaign(suite, plan, [&](std::int64_t done, std::int64_t of, auto) {
            EXPECT_GE(done, known);
            EXPECT_EQ(of, 80);
            reached = done;
            return done < stop_at;
        }));
        known = reached;
        const sim::ResultsReader reader(plan.results);
        EXPECT_FALSE(reader.campaign().finished);
        EXPECT_EQ(reader.case_count(), known) << "what was done is kept";
    }
    run_small(suite, plan);
    EXPECT_TRUE(folder.get("stopped") == folder.get("whole"));
    // Once more finds everything done.
    run_small(suite, plan);
    EXPECT_TRUE(folder.get("stopped") == folder.get("whole"));
}

TEST(Campaign, RunAgainOverItsOwnFinishedFileHasTheSameBytes) {
    const TemporaryFolder folder;
    const SmallSuite suite(10);
    run_small(suite, plan_for(folder / "results"));
    const std::string before = folder.get("results");
    run_small(suite, plan_for(folder / "results"));
    EXPECT_TRUE(folder.get("results") == before);
}

TEST(Campaign, AnEmptySuiteIsFinishedAtOnce) {
    const TemporaryFolder folder;
    run_small(SmallSuite(0), plan_for(folder / "results"));
    EXPECT_TRUE(sim::ResultsReader(folder / "results").campaign().finished);
}

}  // namespace
