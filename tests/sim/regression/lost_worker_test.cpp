// Cases that take their process down, or never end.
#include <gtest/gtest.h>

#include <csignal>
#include <cstdlib>
#include <new>
#include <stdexcept>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/timeline/plant_run.hpp"
#include "small_suite.hpp"

namespace {

using sim::CaseRecord;
using sim::RegressPlan;
using sim_test::plan_for;
using sim_test::run_small;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

void loop_forever() {
    for (volatile int k = 0;; k = 1 - k) {
    }
}

const sim::StartRow& only_start(const CaseRecord& record) {
    EXPECT_EQ(record.starts.size(), 1U);
    return record.starts.front();
}

std::string ending(const sim::ResultsReader& results, std::int64_t id) {
    const std::optional<CaseRecord> record = results.case_of(id);
    if (!record) {
        return "is missing";
    }
    const sim::StartRow& start = only_start(*record);
    EXPECT_EQ(start.passed, start.broken.empty());
    return start.cause.empty() ? start.outcome : start.outcome + " " + start.cause;
}

SmallSuite misbehaving_suite() {
    SmallSuite suite(30);
    suite.instead[2] = [] { std::raise(SIGSEGV); };
    suite.instead[3] = [] { std::abort(); };
    suite.instead[5] = [] { std::exit(3); };
    suite.instead[6] = [] { std::raise(SIGKILL); };
    suite.instead[11] = [] { throw sim::InputError("small", 0, "case", "out of bounds"); };
    suite.instead[12] = [] { throw sim::NumericFailure("no numbers any more"); };
    suite.instead[13] = [] { throw std::bad_alloc(); };
    suite.instead[14] = [] { std::raise(SIGINT); };  // what ctrl-C does to all of the group
    return suite;
}

TEST(LostWorker, IsItsCasesResultAndTheOthersGoOn) {
    const TemporaryFolder folder;
    const SmallSuite suite = misbehaving_suite();
    for (const int jobs : {1, 2, 7}) {
        run_small(suite, plan_for(folder / std::to_string(jobs), jobs));
        EXPECT_TRUE(folder.get(std::to_string(jobs)) == folder.get("1")) << jobs;
    }
    const sim::ResultsReader results(folder / "2");
    EXPECT_EQ(results.case_count(), 30);
    EXPECT_EQ(ending(results, 2), "crashed SIGSEGV");
    EXPECT_EQ(ending(results, 3), "crashed SIGABRT");
    EXPECT_EQ(ending(results, 5), "crashed exit_3");
    EXPECT_EQ(ending(results, 6), "crashed SIGKILL");
    EXPECT_EQ(ending(results, 11), "bad_input input");
    EXPECT_EQ(ending(results, 12), "run_failed numbers");
    EXPECT_EQ(ending(results, 13), "run_failed exception");
    EXPECT_EQ(results.case_of(12)->starts[0].broken[0].words, "no numbers any more");
    for (const std::int64_t id : {0, 1, 4, 7, 14, 28}) {
        EXPECT_EQ(ending(results, id).substr(0, 7), "stalled") << id;
    }
}

TEST(LostWorker, LeavesThePlaceOfItsCaseKnownIfItDiedLater) {
    const TemporaryFolder folder;
    SmallSuite suite(4);
    // Read when the plant is made: after the case was announced.
    suite.also = [](sim::SuiteCase& one) {
        if (one.id == 2) {
            one.series.starts = -1'000'000;
            one.scenario.motor.rated_frequency_Hz = 0.0;
        }
    };
    run_small(suite, plan_for(folder / "results"));
    const auto record = sim::ResultsReader(folder / "results").case_of(2);
    EXPECT_EQ(record->place.compressor, "unit_2");
    EXPECT_FALSE(record->scenario_hash.empty());
    EXPECT_EQ(record->inputs.size(), 2U);
    EXPECT_EQ(only_start(*record).expected, "stalled");
}

// The second result of a case that crashed counts, so that it does not matter who ran before it.
TEST(LostWorker, NobodyIsBlamedForWhatAnEarlierCaseLeftBehind) {
    static int left_behind = 0;
    const TemporaryFolder folder;
    SmallSuite suite(40);
    for (std::int64_t id = 0; id < 40; ++id) {
        suite.instead[id] = [] {
            if (++left_behind > 6) {
                std::raise(SIGSEGV);
            }
        };
    }
    for (const int jobs : {1, 3}) {
        run_small(suite, plan_for(folder / std::to_string(jobs), jobs));
    }
    run_small(SmallSuite(40), plan_for(folder / "well behaved"));
    EXPECT_TRUE(folder.get("1") == folder.get("well behaved"));
    EXPECT_TRUE(folder.get("3") == folder.get("well behaved"));
}

TEST(LostWorker, OneThatComputesForeverIsEndedAndRecorded) {
    const TemporaryFolder folder;
    SmallSuite suite(10);
    suite.instead[4] = loop_forever;
    for (const int jobs : {1, 2}) {
        RegressPlan plan = plan_for(folder / std::to_string(jobs), jobs);
        plan.budget.processor_s = 0.5;
        run_small(suite, plan);
    }
    EXPECT_TRUE(folder.get("1") == folder.get("2"));
    const sim::ResultsReader results(folder / "1");
    EXPECT_EQ(ending(results, 4), "hung no_answer");
    EXPECT_EQ(results.case_count(), 10);
}

TEST(LostWorker, OneThatWaitsForeverIsEndedAndRecorded) {
    const TemporaryFolder folder;
    SmallSuite suite(3);
    suite.instead[1] = [] { ::pause(); };
    RegressPlan plan = plan_for(folder / "results");
    plan.budget.silence_s = 0.5;
    run_small(suite, plan);
    EXPECT_EQ(ending(sim::ResultsReader(folder / "results"), 1), "hung no_answer");
}

TEST(LostWorker, CasesOfForeignCodeDoNotShareAProcessWithLaterOnes) {
    static int left_behind = 0;
    const TemporaryFolder folder;
    SmallSuite suite(12);
    suite.also = [](sim::SuiteCase& one) {
        // A library that is not there: the case fails, but it is one with foreign code.
        if (one.id % 2 == 0) {
            sim::LibraryLimiter limiter;
            limiter.path = "/nowhere/controller.so";
            one.scenario.limiter = limiter;
            one.drawn = {{"left_behind_count", static_cast<double>(left_behind)}};
            ++left_behind;
        }
    };
    run_small(suite, plan_for(folder / "results", 1));
    const sim::ResultsReader results(folder / "results");
    EXPECT_EQ(results.case_count(), 12);
    for (std::int64_t id = 0; id < 12; id += 2) {
        EXPECT_EQ(results.case_of(id)->inputs[0].value, 0.0) << id;
    }
}

}  // namespace
