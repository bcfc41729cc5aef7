// The page of a start: true to the run, small, and the same every time.
#include "sim/pages/start_page.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "bench/cases.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "sim/results/start_words.hpp"

namespace {

using sim_test::bundled;

constexpr std::size_t most_bytes = 5'000'000;

double largest(const sim::Trace& trace) {
    return *std::max_element(trace.value.begin(), trace.value.end());
}

double smallest(const sim::Trace& trace) {
    return *std::min_element(trace.value.begin(), trace.value.end());
}

const sim::Panel* panel_of(const sim::Plot& plot, const std::string& title) {
    for (const sim::Panel& panel : plot.panels) {
        if (panel.title.rfind(title, 0) == 0) {
            return &panel;
        }
    }
    return nullptr;
}

TEST(WaveformRecorder, KeepsTheExtremesThatTheFiguresTell) {
    for (const std::string name : {"hut_inverter", "clinic_power_cut", "reference_direct"}) {
        const sim::RecordedStart start = sim::run_recorded_start(bundled(name));
        const sim::StartFigures& figures = start.result.figures;
        const double peak =
            std::max(largest(start.waves.line_current_A), -smallest(start.waves.line_current_A));
        // The figure is interpolated between ticks; a page shows ticks.
        EXPECT_NEAR(peak, figures.line_current_peak_A, 0.01 * peak) << name;
        EXPECT_LE(peak, figures.line_current_peak_A * (1.0 + 1e-9)) << name;
        EXPECT_DOUBLE_EQ(largest(start.waves.line_current_rms_A),
                         *figures.line_current_half_cycle_rms_max_A)
            << name;
        EXPECT_DOUBLE_EQ(smallest(start.waves.line_voltage_rms_V),
                         *figures.line_voltage_half_cycle_rms_min_V)
            << name;
        EXPECT_DOUBLE_EQ(start.waves.speed_rpm.value.back(), figures.final_speed_rpm) << name;
    }
}

TEST(WaveformRecorder, ChangesNothingOfTheRun) {
    const sim::StartResult seen = sim::run_recorded_start(bundled("hut_inverter")).result;
    const sim::StartResult unseen = sim::run_start(bundled("hut_inverter"));
    EXPECT_EQ(seen.figures.time_to_speed_s, unseen.figures.time_to_speed_s);
    EXPECT_EQ(seen.energy.source_J, unseen.energy.source_J);
    EXPECT_EQ(seen.figures.line_current_peak_A, unseen.figures.line_current_peak_A);
}

TEST(WaveformRecorder, FindsTheDirectCurrentSideOfASupplyThatHasOne) {
    EXPECT_EQ(sim::run_recorded_start(bundled("hut_inverter")).waves.dc_name, "DC bus");
    EXPECT_NE(sim::run_recorded_start(bundled("cabin_battery_trip")).waves.dc_name, "");
    EXPECT_EQ(sim::run_recorded_start(bundled("reference_direct")).waves.dc_name, "");
}

TEST(StartPage, HasTheSameBytesEveryTime) {
    const auto page = [] {
        return sim::render(
            sim::start_page(sim::run_recorded_start(bundled("hut_inverter")), std::nullopt));
    };
    EXPECT_EQ(page(), page());
}

TEST(StartPage, TellsTheFiguresThatTheTextTells) {
    const sim::RecordedStart start = sim::run_recorded_start(bundled("hut_inverter"));
    const std::string page = sim::render(sim::start_page(start, std::nullopt));
    EXPECT_NE(page.find(sim::start_sentence(start.result)), std::string::npos);
    for (const sim::StartFigureRow& row : sim::start_figure_rows()) {
        EXPECT_NE(page.find("<th scope=\"row\">" + std::string(row.label) + "</th><td>" +
                            row.cell(start.result) + "</td>"),
                  std::string::npos)
            << row.label;
    }
    for (const sim::ControllerStep& step : start.result.controller_steps) {
        EXPECT_NE(page.find("<td>" + sim::step_words(step) + "</td>"), std::string::npos);
    }
}

TEST(StartPage, OfTwentySecondsWithTheDirectStartStaysUnderFiveMegabytes) {
    sim::Scenario scenario = bundled("hut_inverter");
    scenario.run.duration_s = 20.0;
    const sim::RecordedStart start = sim::run_recorded_start(scenario);
    const sim::RecordedStart direct = sim::run_recorded_start(sim::without_limiter(scenario));
    const std::string page = sim::render(sim::start_page(start, direct));
    EXPECT_LT(page.size(), most_bytes);
    EXPECT_EQ(start.waves.line_current_A.time_s.back(), 20.0);
}

TEST(StartPage, WarnsOfBrokenMonitors) {
    const sim::RecordedStart start = sim::run_recorded_start(bundled("hut_inverter_direct"));
    ASSERT_FALSE(start.result.monitors.empty());
    const std::string page = sim::render(sim::start_page(start, std::nullopt));
    EXPECT_NE(
        page.find("role=\"note\">BROKEN " + std::string(start.result.monitors.front().monitor)),
        std::string::npos);
}

TEST(StartPage, ShowsEachStateThatOccurredInTheOrderOfAStart) {
    const sim::RecordedStart start = sim::run_recorded_start(bundled("hut_inverter"));
    const sim::Plot plot = sim::waveform_plot(start);
    const sim::Panel* panel = panel_of(plot, "Controller");
    ASSERT_NE(panel, nullptr);
    std::vector<std::string> words;
    for (const sim::AxisWord& word : panel->words) {
        words.push_back(word.word);
    }
    EXPECT_EQ(words,
              (std::vector<std::string>{"resting", "listening", "probing", "climbing 1",
                                        "climbing 2", "climbing 3", "handing over", "running"}));
    const sim::Series& series = panel->series.front();
    ASSERT_EQ(series.x.size(), start.result.controller_steps.size() + 1);
    EXPECT_EQ(series.x.back(), start.scenario.run.duration_s);
}

TEST(StartPage, DrawsTorqueOverSpeedFromThePhasorsAndFromTheRun) {
    const sim::RecordedStart start = sim::run_recorded_start(bundled("hut_inverter"));
    const sim::Panel panel = sim::torque_speed_plot(start).panels.front();
    ASSERT_EQ(panel.series.size(), 4U);
    const sim::MotorCurves curves = sim::motor_curves(start.scenario, {});
    EXPECT_EQ(panel.series[0].y.front(), curves.locked_rotor.torque_Nm);
    // The start capacitor makes much more torque at standstill: 2.7 against 1.1 N m at 40 % of the
    // main winding's voltage already, in an independent phasor solution.
    EXPECT_GT(panel.series[1].y.front(), 2.0 * panel.series[0].y.front());
    EXPECT_EQ(panel.series[2].drawn, sim::Drawn::path);
    EXPECT_NEAR(panel.series[3].x.back(), start.result.figures.final_speed_rpm, 5.0);
    const sim::RecordedStart direct = sim::run_recorded_start(bundled("reference_direct"));
    EXPECT_EQ(sim::torque_speed_plot(direct).panels.front().series.size(), 3U);
}

TEST(StartPage, TellsSeriesOfAPanelApartWithoutColour) {
    const sim::RecordedStart start = sim::run_recorded_start(bundled("hut_inverter"));
    const sim::RecordedStart direct = sim::run_recorded_start(sim::without_limiter(start.scenario));
    for (const sim::Plot& plot : {sim::waveform_plot(start), sim::torque_speed_plot(start),
                                  sim::comparison_plot({"limited", &start}, {"direct", &direct})}) {
        for (const sim::Panel& panel : plot.panels) {
            for (std::size_t one = 0; one < panel.series.size(); ++one) {
                for (std::size_t other = 0; other < one; ++other) {
                    const sim::Series& a = panel.series[one];
                    const sim::Series& b = panel.series[other];
                    EXPECT_TRUE(a.dash != b.dash || a.symbol != b.symbol)
                        << panel.title << ": " << a.name << ", " << b.name;
                }
            }
        }
    }
}

}  // namespace
