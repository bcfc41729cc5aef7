// The starts behind a sizing.
#include "sim/sizing/sizing_run.hpp"

#include <gtest/gtest.h>

#include "sim/results/size_json.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sizing/sizing_cases.hpp"

namespace {

using sim::Way;

sim::SizeReport report_of(const std::string& compressor, const std::vector<std::string>& names,
                          int draws, int threads) {
    sim::SizeReport report;
    report.sized = sim::read_sized_unit(compressor);
    report.costs = sim::example_costs();
    report.plan = {draws, 1, threads};
    report.findings = sim::run_sizing(report.sized.unit,
                                      sim::supplies_to_look_at(report.sized, names), report.plan);
    report.decision = sim::decide(report.findings, draws, {0.5, 0.8}, report.costs);
    return report;
}

TEST(SizingRun, GivesTheSameBytesAtAnyNumberOfThreads) {
    const auto json = [](int threads) {
        return sim::size_json(report_of("outdoor_3_ton_scroll",
                                        {"house_service_240v_60hz", "generator_7kva_240v_60hz"}, 6,
                                        threads))
            .dump();
    };
    const std::string one = json(1);
    EXPECT_EQ(json(3), one);
    EXPECT_EQ(json(2), one);
}

TEST(SizingRun, GivesNoBadDaysToAWayThatFailsOnTheNormalOne) {
    const sim::SizeReport report =
        report_of("outdoor_3_ton_scroll", {"house_inverter_6kva_240v_60hz"}, 4, 2);
    const sim::SupplyFindings& on = report.findings.supplies.front();
    EXPECT_FALSE(on.by(Way::directly).starts_normally());
    EXPECT_EQ(on.by(Way::directly).bad_days.trials, 0);
    EXPECT_TRUE(on.by(Way::limiter).starts_normally());
    EXPECT_EQ(on.by(Way::limiter).bad_days.trials, 4);
    // Four normal days, and four bad ones of each way that came up.
    int up = 0;
    for (const sim::WayOnSupply& way : on.ways) {
        up += way.starts_normally() ? 1 : 0;
    }
    EXPECT_EQ(report.findings.starts, 4 + 4 * up);
}

TEST(SizingRun, CountsTheVeryDaysThatItSays) {
    const sim::SizeReport report =
        report_of("outdoor_3_ton_scroll", {"house_inverter_6kva_240v_60hz"}, 12, 2);
    const sim::Scenario limited = *sim::brought_up(
        sim::on_supply(report.sized.unit, sim_test::supply("house_inverter_6kva_240v_60hz")),
        Way::limiter);
    int came_up = 0;
    for (std::uint32_t number = 0; number < 12; ++number) {
        const sim::OneStart start =
            sim::decided_start_of(sim::on_bad_day(limited, sim::drawn_bad_day(1, number)));
        came_up += start.came_up ? 1 : 0;
    }
    EXPECT_EQ(report.findings.supplies.front().by(Way::limiter).bad_days.successes, came_up);
    EXPECT_GT(came_up, 0);
}

TEST(SizingRun, KeepsWhatIsFinishedWhenItIsEndedEarly) {
    const sim::SizedUnit sized = sim::read_sized_unit("cold_room_230v_50hz");
    const sim::SizingPlan plan{50, 1, 1};
    const int normal_days = 1 + 4;  // the stiff line, and four ways
    int seen = 0;
    const sim::SizingFindings findings =
        sim::run_sizing(sized.unit, {sim_test::supply("house_grid_230v_50hz")}, plan,
                        [&seen](int, int) { return ++seen < normal_days + 8; });
    EXPECT_TRUE(findings.ended_early);
    for (const sim::WayOnSupply& way : findings.supplies.front().ways) {
        EXPECT_EQ(way.bad_days.trials, 2) << sim::word_of(way.way);
    }
}

TEST(SizingRun, KnowsWhatTheUnitDrawsAsItRuns) {
    // Nameplate 17.6 A at the rating; a hot day is 10 K above it, and the motor is warm.
    const sim::SizeReport report =
        report_of("outdoor_3_ton_scroll", {"house_service_240v_60hz"}, 1, 1);
    EXPECT_GT(report.findings.running_current_A.value(), 17.6);
    EXPECT_LT(report.findings.running_current_A.value(), 1.3 * 17.6);
}

}  // namespace
