// From findings to answers, on findings that are written by hand.
#include "sim/sizing/decision.hpp"

#include <gtest/gtest.h>

#include "sizing/sizing_cases.hpp"

namespace {

using sim::Answer;
using sim::Way;

constexpr int draws = 200;

struct Rates {
    int directly;  ///< bad days that came up; -1: fails on the normal day
    int thermistor;
    int relay;
    int limiter;
};

sim::SupplyFindings findings_on(const std::string& supply, const Rates& rates) {
    sim::SupplyFindings on{sim_test::supply(supply), {}};
    const std::array<int, 4> numbers = {rates.directly, rates.thermistor, rates.relay,
                                        rates.limiter};
    for (const Way way : sim::every_way) {
        sim::WayOnSupply& one = on.ways.emplace_back();
        one.way = way;
        one.fits = true;
        const int came_up = numbers.at(static_cast<std::size_t>(way));
        one.normal_day.emplace().came_up = came_up >= 0;
        if (came_up >= 0) {
            one.bad_days = {came_up, draws};
        }
    }
    return on;
}

sim::Decision decided(std::vector<sim::SupplyFindings> supplies,
                      std::optional<double> running_current_A = 10.0) {
    sim::SizingFindings findings;
    findings.supplies = std::move(supplies);
    findings.running_current_A = running_current_A;
    return sim::decide(findings, draws, {}, sim::example_costs());
}

Answer answer_on(const std::string& supply, const Rates& rates, double running_current_A = 10.0) {
    return decided({findings_on(supply, rates)}, running_current_A).supplies.front().answer;
}

TEST(Decision, NeedsNoLimiterWhereADirectStartIsSureEnough) {
    EXPECT_EQ(answer_on("house_service_240v_60hz", {200, 200, 200, 200}),
              Answer::utility_carries_it);
    EXPECT_EQ(answer_on("transformer_inverter_12kw_240v_60hz", {200, 200, 200, 200}),
              Answer::surge_to_spare);
}

TEST(Decision, TakesTheCheapestWayThatIsSureEnough) {
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {-1, 200, 200, 200}),
              Answer::start_aid_will_do);
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {-1, 100, 200, 200}),
              Answer::start_aid_will_do);
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {-1, -1, 60, 200}),
              Answer::limiter_needed);
}

TEST(Decision, AsksForTheLowerEndOfTheIntervalNotForTheRate) {
    // 180 of 200 are 90 %, but may be 85 %; 189 are at least 90.5 %.
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {-1, -1, -1, 180}),
              Answer::not_sure_enough);
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {-1, -1, -1, 189}),
              Answer::limiter_needed);
}

TEST(Decision, TellsTheNearestWayWhereNoneIsSureEnough) {
    const sim::Decision decision =
        decided({findings_on("house_inverter_6kva_240v_60hz", {20, -1, 150, 120})});
    EXPECT_EQ(decision.supplies.front().answer, Answer::not_sure_enough);
    EXPECT_EQ(decision.supplies.front().nearest, Way::capacitor_relay);
    EXPECT_FALSE(decision.anything_starts_it());
}

TEST(Decision, SaysSoWhereNothingStartsIt) {
    const sim::Decision decision =
        decided({findings_on("house_inverter_6kva_240v_60hz", {-1, -1, -1, -1})});
    EXPECT_EQ(decision.supplies.front().answer, Answer::nothing_starts_it);
    EXPECT_FALSE(decision.supplies.front().nearest);
    EXPECT_FALSE(decision.anything_starts_it());
}

TEST(Decision, RefusesASupplyThatStartsItButCannotCarryIt) {
    // 6 kVA at 240 V are 25 A.
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {200, 200, 200, 200}, 24.9),
              Answer::surge_to_spare);
    EXPECT_EQ(answer_on("house_inverter_6kva_240v_60hz", {200, 200, 200, 200}, 25.1),
              Answer::too_small_to_run_it);
    EXPECT_EQ(answer_on("house_service_240v_60hz", {200, 200, 200, 200}, 25.1),
              Answer::utility_carries_it);
}

TEST(Decision, RefusesAWayThatDragsAnInvertersVoltageDown) {
    sim::SupplyFindings on = findings_on("house_inverter_6kva_240v_60hz", {-1, -1, 200, 195});
    on.ways[2].normal_day->lowest_voltage_V = 0.79 * 240.0;
    on.ways[3].normal_day->lowest_voltage_V = 0.95 * 240.0;
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::limiter_needed);
    on.ways[2].normal_day->lowest_voltage_V = 0.81 * 240.0;
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::start_aid_will_do);
    // The limiter holds the voltage, though it comes up a little less often.
    on.ways[2].normal_day->lowest_voltage_V = 0.60 * 240.0;
    on.ways[3].bad_days = {120, draws};
    EXPECT_EQ(decided({on}).supplies.front().nearest, Way::limiter);
}

TEST(Decision, LeavesAUtilitysVoltageToItsOwnFigure) {
    sim::SupplyFindings on = findings_on("rural_service_240v_60hz", {200, 200, 200, 200});
    on.ways[0].normal_day->lowest_voltage_V = 0.7 * 240.0;
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::utility_carries_it);
}

TEST(Decision, FindsTheSmallestGoodSupplyForEachWay) {
    const sim::Decision decision = decided({
        findings_on("transformer_inverter_12kw_240v_60hz", {200, 200, 200, 200}),
        findings_on("house_inverter_6kva_240v_60hz", {-1, -1, 60, 200}),
        findings_on("house_service_240v_60hz", {200, 200, 200, 200}),
        findings_on("generator_7kva_240v_60hz", {-1, -1, 200, 200}),
    });
    using sim::SupplyRole;
    EXPECT_EQ(decision.smallest_for(SupplyRole::storage, Way::directly)->index, 0U);
    EXPECT_EQ(decision.smallest_for(SupplyRole::storage, Way::capacitor_relay)->index, 0U);
    EXPECT_EQ(decision.smallest_for(SupplyRole::storage, Way::limiter)->index, 1U);
    EXPECT_FALSE(decision.smallest_for(SupplyRole::engine, Way::directly)->index);
    EXPECT_EQ(decision.smallest_for(SupplyRole::engine, Way::limiter)->index, 3U);
    EXPECT_EQ(decision.smallest_for(SupplyRole::utility, Way::limiter), nullptr);
}

TEST(Decision, TakesTheCheaperOfTwoSuppliesOfOneRating) {
    // Both 3 kVA: 350 per kVA against 500.
    const sim::Decision decision = decided({
        findings_on("transformer_inverter_3kw_230v_50hz", {200, 200, 200, 200}),
        findings_on("hut_inverter_3kva_230v_50hz", {-1, 200, 200, 200}),
    });
    EXPECT_EQ(decision.smallest_for(sim::SupplyRole::storage, Way::limiter)->index, 1U);
    EXPECT_EQ(decision.smallest_for(sim::SupplyRole::storage, Way::directly)->index, 0U);
}

TEST(Decision, LeavesOpenWhatWasEndedEarly) {
    sim::SupplyFindings on = findings_on("house_inverter_6kva_240v_60hz", {-1, -1, -1, 200});
    on.ways.back().bad_days = {12, 12};
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::not_finished);
    on.ways.back().bad_days = {2, 12};
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::not_sure_enough);
    on.ways.back().normal_day.reset();
    on.ways.back().bad_days = {};
    EXPECT_EQ(decided({on}).supplies.front().answer, Answer::not_finished);
}

TEST(Decision, KnowsHowManyDaysItTakesToBeSure) {
    const int fewest = sim::fewest_draws(0.9);
    EXPECT_GE((sim::SuccessRate{fewest, fewest}.lowest()), 0.9);
    EXPECT_LT((sim::SuccessRate{fewest - 1, fewest - 1}.lowest()), 0.9);
}

}  // namespace
