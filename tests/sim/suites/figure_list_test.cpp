// The list of figures: what limits, columns, comparison and pages rest on.
#include "sim/suites/figure_list.hpp"

#include <gtest/gtest.h>

#include <regex>
#include <set>
#include <string>

namespace {

double value_of(const char* name, const sim::StartResult& result) {
    return sim::figure_named(name)->value(result).value();
}

TEST(FigureList, NamesEachFigureOnceAndWithItsUnit) {
    const std::regex with_unit("[a-z][a-z0-9_]*_(s|rpm|A|V|C|J|percent|count)");
    std::set<std::string_view> seen;
    for (const sim::Figure& figure : sim::figure_list()) {
        EXPECT_TRUE(std::regex_match(std::string(figure.name), with_unit)) << figure.name;
        EXPECT_TRUE(seen.insert(figure.name).second) << figure.name;
        EXPECT_FALSE(figure.meaning.empty()) << figure.name;
        EXPECT_EQ(sim::figure_named(figure.name), &figure);
    }
    EXPECT_EQ(sim::figure_named("time_to_speed"), nullptr);
}

TEST(FigureList, LeavesEmptyWhatAStartDoesNotHave) {
    const sim::StartResult nothing;
    for (const char* name : {"time_to_speed_s", "handover_s", "line_current_inrush_100ms_rms_A",
                             "line_voltage_one_cycle_rms_V", "line_voltage_one_cycle_percent",
                             "tries_count", "highest_stage_count", "final_speed_percent"}) {
        EXPECT_FALSE(sim::figure_named(name)->value(nothing)) << name;
    }
}

TEST(FigureList, ReadsEveryFigureFromItsOwnPlace) {
    sim::StartResult start;
    start.synchronous_speed_rpm = 3000.0;
    start.supply_voltage_V = 230.0;
    start.figures.final_speed_rpm = 2850.0;
    start.figures.line_voltage_one_cycle_rms_min_V = 207.0;
    start.figures.line_voltage_half_cycle_rms_min_V = 199.0;
    start.figures.line_current_inrush_100ms_rms_A = 12.5;
    start.figures.line_current_one_cycle_rms_max_A = 13.5;
    start.figures.line_current_half_cycle_rms_max_A = 14.5;
    start.figures.line_current_peak_A = 22.0;
    start.figures.time_to_speed_s = 0.7;
    start.figures.handover_s = 0.9;
    start.hottest_winding_C = 61.0;
    start.energy.source_J = 1000.0;
    start.energy.copper_J = 600.0;
    start.energy.switch_J = 50.0;
    start.energy.load_J = 340.0;
    EXPECT_DOUBLE_EQ(value_of("final_speed_percent", start), 95.0);
    EXPECT_DOUBLE_EQ(value_of("line_voltage_one_cycle_percent", start), 90.0);
    EXPECT_DOUBLE_EQ(value_of("line_voltage_half_cycle_rms_V", start), 199.0);
    EXPECT_DOUBLE_EQ(value_of("line_current_inrush_100ms_rms_A", start), 12.5);
    EXPECT_DOUBLE_EQ(value_of("line_current_one_cycle_rms_A", start), 13.5);
    EXPECT_DOUBLE_EQ(value_of("line_current_half_cycle_rms_A", start), 14.5);
    EXPECT_DOUBLE_EQ(value_of("line_current_peak_A", start), 22.0);
    EXPECT_DOUBLE_EQ(value_of("time_to_speed_s", start), 0.7);
    EXPECT_DOUBLE_EQ(value_of("handover_s", start), 0.9);
    EXPECT_DOUBLE_EQ(value_of("hottest_winding_C", start), 61.0);
    EXPECT_DOUBLE_EQ(value_of("losses_J", start), 650.0);
    EXPECT_DOUBLE_EQ(value_of("switch_loss_J", start), 50.0);
    EXPECT_NEAR(value_of("energy_closure_percent", start), 1.0, 1e-9);
}

TEST(FigureList, CountsTriesAndStagesFromWhatTheControllerDid) {
    using firmware::State;
    sim::StartResult start;
    start.has_limiter = true;
    start.controller_steps = {{0.0, State::listening, {}, 0},     {0.1, State::probing, {}, 0},
                              {0.2, State::climbing, {}, 0},      {0.3, State::climbing, {}, 1},
                              {0.4, State::climbing, {}, 2},      {0.5, State::backing_off, {}, 0},
                              {240.0, State::probing, {}, 0},     {240.1, State::climbing, {}, 0},
                              {240.5, State::handing_over, {}, 0}};
    EXPECT_EQ(value_of("tries_count", start), 2.0);
    EXPECT_EQ(value_of("highest_stage_count", start), 3.0);
}

}  // namespace
