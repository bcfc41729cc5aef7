// Ending as soon as the rate is known well enough, at the same case for any number of workers.
#include <gtest/gtest.h>

#include "files/temporary_folder.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/statistics/success_rate.hpp"
#include "small_suite.hpp"

namespace {

using sim::RegressPlan;
using sim_test::plan_for;
using sim_test::run_small;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

constexpr double width = 0.08;

double width_of_first(const sim::ResultsReader& results, std::int64_t cases, std::int64_t first) {
    const sim::CaseOrder order(cases);
    sim::SuccessRate rate;
    for (std::int64_t place = 0; place < first; ++place) {
        const auto record = results.case_of(order.id_at(place));
        EXPECT_TRUE(record) << place;
        ++rate.trials;
        rate.successes += record && record->passed() ? 1 : 0;
    }
    return rate.highest() - rate.lowest();
}

TEST(Until, EndsAtTheFirstHundredThatTellsEnough) {
    const TemporaryFolder folder;
    const SmallSuite suite(900);
    RegressPlan plan = plan_for(folder / "results");
    plan.until_width = width;
    run_small(suite, plan);
    const sim::ResultsReader results(folder / "results");
    const std::int64_t done = results.case_count();
    EXPECT_TRUE(results.campaign().finished);
    EXPECT_EQ(done % sim::until_batch, 0);
    EXPECT_GT(done, sim::until_batch);
    EXPECT_LT(done, 900);
    EXPECT_LE(width_of_first(results, 900, done), width);
    EXPECT_GT(width_of_first(results, 900, done - sim::until_batch), width);
}

TEST(Until, EndsAtTheSameCaseForAnyNumberOfWorkersAndAfterAnyInterruption) {
    const TemporaryFolder folder;
    const SmallSuite suite(700);
    for (const int jobs : {1, 2, 7}) {
        RegressPlan plan = plan_for(folder / std::to_string(jobs), jobs);
        plan.until_width = width;
        plan.existing = sim::ExistingFile::go_on;
        EXPECT_FALSE(sim::run_campaign(suite, plan,
                                       [jobs](auto done, auto, auto) { return done < 30 * jobs; }));
        run_small(suite, plan);
        EXPECT_TRUE(folder.get(std::to_string(jobs)) == folder.get("1")) << jobs;
        // It is enough, also when asked again.
        run_small(suite, plan);
        EXPECT_TRUE(folder.get(std::to_string(jobs)) == folder.get("1")) << jobs;
    }
}

TEST(Until, RunsEverythingIfThatIsNotEnough) {
    const TemporaryFolder folder;
    const SmallSuite suite(130);
    RegressPlan plan = plan_for(folder / "until");
    plan.until_width = 0.001;
    run_small(suite, plan);
    run_small(suite, plan_for(folder / "whole"));
    EXPECT_TRUE(folder.get("until") == folder.get("whole"));
}

TEST(Until, WithoutItTheRestIsRunLater) {
    const TemporaryFolder folder;
    const SmallSuite suite(450);
    RegressPlan plan = plan_for(folder / "until");
    plan.until_width = 0.12;
    run_small(suite, plan);
    EXPECT_LT(sim::ResultsReader(folder / "until").case_count(), 450);
    plan.until_width.reset();
    plan.existing = sim::ExistingFile::go_on;
    run_small(suite, plan);
    run_small(suite, plan_for(folder / "whole"));
    EXPECT_TRUE(folder.get("until") == folder.get("whole"));
}

}  // namespace
