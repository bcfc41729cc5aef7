#include "sim/regression/start_failures.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {

sim::StartRow failed(const char* outcome, const std::vector<std::string>& requirements) {
    sim::StartRow start;
    start.outcome = outcome;
    for (const std::string& requirement : requirements) {
        start.broken.push_back({requirement, "words"});
    }
    return start;
}

TEST(StartFailures, ARateAnswersForAnotherOutcomeAndForNothingElse) {
    EXPECT_TRUE(sim::only_counts_against_rate(failed("stalled", {"outcome"})));
    EXPECT_FALSE(sim::only_counts_against_rate(failed("running", {"limit:time_to_speed_s"})));
    EXPECT_FALSE(
        sim::only_counts_against_rate(failed("stalled", {"monitor:standing_rotor", "outcome"})));
    sim::StartRow passed = failed("running", {});
    passed.passed = true;
    EXPECT_FALSE(sim::only_counts_against_rate(passed));
}

TEST(StartFailures, NoRateAnswersForAStartWithoutAResult) {
    for (const char* outcome : {"crashed", "hung", "run_failed", "bad_input"}) {
        const sim::StartRow start = failed(outcome, {"outcome"});
        EXPECT_TRUE(sim::has_no_result(start)) << outcome;
        EXPECT_TRUE(sim::ended_otherwise(start)) << outcome;
        EXPECT_FALSE(sim::only_counts_against_rate(start)) << outcome;
    }
    EXPECT_FALSE(sim::has_no_result(failed("stalled", {"outcome"})));
    EXPECT_FALSE(sim::ended_otherwise(failed("running", {"limit:time_to_speed_s"})));
}

}  // namespace
