// What a start of a case is held to.
#include "sim/suites/case_judgement.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <vector>

namespace {

using sim::Outcome;

sim::SuiteCase held_to(std::vector<Outcome> accepted, std::vector<sim::FigureLimit> limits = {}) {
    sim::SuiteCase one;
    one.accepted = std::move(accepted);
    one.limits = std::move(limits);
    return one;
}

sim::StartResult ended_in(Outcome outcome) {
    sim::StartResult start;
    start.outcome = outcome;
    start.has_limiter = true;
    start.hottest_winding_C = 70.0;
    return start;
}

std::vector<std::string> requirements(const sim::SuiteCase& one, const sim::StartResult& start) {
    std::vector<std::string> names;
    for (const sim::BrokenRequirement& broken : sim::broken_requirements(one, start)) {
        names.push_back(broken.requirement);
        EXPECT_FALSE(broken.words.empty());
    }
    return names;
}

using Names = std::vector<std::string>;

TEST(CaseJudgement, TakesEveryOutcomeThatIsAcceptedAndNoOther) {
    const sim::SuiteCase one = held_to({Outcome::resting, Outcome::locked_out});
    EXPECT_EQ(requirements(one, ended_in(Outcome::resting)), Names{});
    EXPECT_EQ(requirements(one, ended_in(Outcome::locked_out)), Names{});
    EXPECT_EQ(requirements(one, ended_in(Outcome::running)), Names{"outcome"});
    EXPECT_EQ(sim::expected_words(one), "resting or locked_out");
    EXPECT_EQ(sim::expected_words(held_to({Outcome::running})), "running");
}

TEST(CaseJudgement, HoldsALimitAtItsVeryBoundAndNotBeyond) {
    sim::StartResult start = ended_in(Outcome::running);
    const auto limited = [](double lowest, double highest) {
        return held_to({Outcome::running}, {{"hottest_winding_C", lowest, highest}});
    };
    EXPECT_EQ(requirements(limited(70.0, 70.0), start), Names{});
    EXPECT_EQ(requirements(limited(60.0, 69.999), start), Names{"limit:hottest_winding_C"});
    EXPECT_EQ(requirements(limited(70.001, 80.0), start), Names{"limit:hottest_winding_C"});
}

TEST(CaseJudgement, DoesNotTakeAFigureThatIsNoNumberForOneInBounds) {
    sim::StartResult start = ended_in(Outcome::running);
    start.hottest_winding_C = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(requirements(held_to({Outcome::running}, {{"hottest_winding_C", {}, 80.0}}), start),
              Names{"limit:hottest_winding_C"});
}

TEST(CaseJudgement, SaysNothingOfAFigureThatTheStartDoesNotHave) {
    EXPECT_EQ(requirements(held_to({Outcome::running}, {{"time_to_speed_s", {}, 0.1}}),
                           ended_in(Outcome::running)),
              Names{});
}

TEST(CaseJudgement, NamesEachBrokenMonitorOnceWhereThereIsAControllerToBlame) {
    sim::StartResult start = ended_in(Outcome::running);
    start.monitors = {{"a_rule", {}}, {"another_rule", {}}, {"a_rule", {}}};
    EXPECT_EQ(requirements(held_to({Outcome::running}), start),
              (Names{"monitor:a_rule", "monitor:another_rule"}));
    start.has_limiter = false;
    EXPECT_EQ(requirements(held_to({Outcome::running}), start), Names{});
}

}  // namespace
