// What firmware/examples/README.md says of the two examples and of our own controller is what the
// program finds: every row of its table is made here and looked for there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "controllers/test_libraries.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/campaigns/fault_campaign.hpp"
#include "sim/controllers/library/library_loading.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

struct Contenders {
    sim::Scenario fixed_angle =
        sim::read_scenario(sim_test::example_path("cold_room_fixed_angle.toml"));
    sim::Scenario current =
        sim::read_scenario(sim_test::example_path("cold_room_current_ramp.toml"));
    sim::Scenario ours = with_our_controller(current);

    static sim::Scenario with_our_controller(sim::Scenario scenario) {
        sim::BuiltinLimiter limiter;
        sim::form_of(limiter);  // fills in the defaults
        limiter.parts = *sim::parts_of(scenario.limiter);
        scenario.limiter = limiter;
        return scenario;
    }
};

void expect_in_readme(const std::string& row) {
    std::ifstream file(std::string(RUNUP_SOURCE_FOLDER) + "/firmware/examples/README.md");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    EXPECT_NE(text.find(row + "\n"), std::string::npos) << "firmware/examples/README.md lacks\n"
                                                        << row;
}

/// A row of the table, with a cell for each.
template <class Cell>
void expect_row(const std::string& what, Cell cell) {
    static const Contenders all;
    expect_in_readme(fmt::format("| {} | {} | {} | {} |", what, cell(all.fixed_angle),
                                 cell(all.current), cell(all.ours)));
}

std::string monitors_of(const std::vector<sim::NamedViolation>& broken) {
    return broken.empty() ? "" : fmt::format(", **{}**", broken.front().monitor);
}

TEST(Examples, StartTheColdRoomAsTheirPageSays) {
    expect_row("start: up after, on the clamp, lowest line voltage", [](const sim::Scenario& one) {
        const sim::StartResult result = sim::run_start(one);
        EXPECT_EQ(result.outcome, sim::Outcome::running);
        EXPECT_TRUE(result.monitors.empty());
        return fmt::format("{:.2f} s, {:.1f} A, {:.0f} V", result.figures.time_to_speed_s.value(),
                           result.figures.line_current_inrush_100ms_rms_A.value(),
                           result.figures.line_voltage_half_cycle_rms_min_V.value());
    });
}

TEST(Examples, StartAgainAsTheirPageSays) {
    const auto second_start = [](double rest_s, bool cuts) {
        return [rest_s, cuts](const sim::Scenario& one) {
            const sim::RepeatResult result = sim::run_repeat(one, {2, rest_s, cuts});
            const sim::StartResult& second = result.starts.back().start;
            return std::string(sim::word_of(second.outcome)) + monitors_of(second.monitors);
        };
    };
    expect_row("called again after an hour", second_start(3600.0, false));
    expect_row("called again after a minute", second_start(60.0, false));
    expect_row("called again after a minute, power away meanwhile", second_start(60.0, true));
}

/// Runs in which a monitor broke, of four instants of a start.
std::string broken_runs(const sim::Scenario& one, const std::string& fault) {
    sim::CampaignPlan plan;
    plan.every_s = 0.3;
    plan.until_s = 0.9;
    plan.only = fault;
    plan.threads = 2;
    const sim::CampaignResult result = sim::run_fault_campaign({one}, plan);
    std::string monitor;
    for (const sim::CampaignRow& row : result.rows) {
        for (const auto& [name, count] : row.monitors) {
            monitor = name;
        }
    }
    return fmt::format("{} of {}{}", result.runs_with_broken_monitors, result.runs,
                       monitor.empty() ? "" : fmt::format(", **{}**", monitor));
}

TEST(Examples, BreakTheMonitorsThatTheirPageSaysUnderFaults) {
    for (const char* fault : {"rotor_seized", "supply_voltage 130 %", "controller_unpowered 0.1 s",
                              "run_capacitor_shorted", "start_contact_stuck_in"}) {
        expect_row(fault, [fault](const sim::Scenario& one) { return broken_runs(one, fault); });
    }
}

TEST(Examples, BearAsMuchAsTheirCommentsSay) {
    Contenders all;
    // "After 30 s ... at the same current it takes 1.8 s instead of 0.3 s."
    all.current.conditions.rest_s = 30.0;
    const sim::StartResult slow = sim::run_start(all.current);
    EXPECT_EQ(slow.outcome, sim::Outcome::running);
    EXPECT_NEAR(slow.figures.time_to_speed_s.value(), 1.8, 0.05);
    // "After 30 s ... the ramp closes the bypass on a rotor that is not up."
    all.fixed_angle.conditions.rest_s = 30.0;
    const sim::StartResult stalled = sim::run_start(all.fixed_angle);
    EXPECT_EQ(stalled.outcome, sim::Outcome::stalled);
    ASSERT_EQ(stalled.monitors.size(), 1U);
    EXPECT_EQ(stalled.monitors.front().monitor, "bypass_closed_below_speed");
}

TEST(Examples, RefuseOptionsThatTheyCannotRead) {
    sim::Scenario scenario = Contenders().current;
    auto& limiter = std::get<sim::LibraryLimiter>(scenario.limiter);
    for (const char* good : {"", "target_A=18", "longest_ms=900", "target_A=18,longest_ms=900"}) {
        limiter.options = good;
        EXPECT_FALSE(sim::try_library(limiter, scenario.motor).problem) << good;
    }
    for (const char* bad : {"target_A", "target_A=", "target_A=0", "target_A=900", "x",
                            "target_A=18 ", "longest_ms=20000"}) {
        limiter.options = bad;
        EXPECT_TRUE(sim::try_library(limiter, scenario.motor).problem) << bad;
    }
}

}  // namespace
