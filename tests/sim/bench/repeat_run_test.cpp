// Starts in a row on one bench.
#include "sim/bench/repeat_run.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "bench/cases.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/start_json.hpp"

namespace {

using sim_test::bundled;

sim::RepeatResult repeat(const sim::Scenario& scenario, int starts, double rest_s) {
    return sim::run_repeat(scenario, {starts, rest_s});
}

TEST(RepeatRun, BeginsWithTheStartThatASingleRunIs) {
    for (const std::string name : {"reference_limited", "bakery_short_rest"}) {
        const sim::Scenario scenario = bundled(name);
        sim::StartResult first = repeat(scenario, 1, 300.0).starts.front().start;
        EXPECT_EQ(sim::start_json(first).dump(), sim::start_json(sim::run_start(scenario)).dump());
    }
}

TEST(RepeatRun, GivesTheSameBytesEachTime) {
    for (const std::string name : {"bakery_short_rest", "hut_inverter"}) {
        const sim::Scenario scenario = bundled(name);
        EXPECT_EQ(sim::repeat_json(repeat(scenario, 3, 400.0)).dump(),
                  sim::repeat_json(repeat(scenario, 3, 400.0)).dump());
    }
}

TEST(RepeatRun, EveryStartClosesItsOwnEnergyAudit) {
    for (const std::string name : {"reference_limited", "bakery_short_rest", "camp_generator",
                                   "hut_inverter", "vaccine_fridge"}) {
        sim::Scenario scenario = bundled(name);
        scenario.run.duration_s = 2.0;
        scenario.conditions.rest_s = 3600.0;
        if (auto* limiter = std::get_if<sim::BuiltinLimiter>(&scenario.limiter)) {
            // Each start is made as the first one, so that their energies can be compared.
            limiter->settings.learning_law = firmware::LearningLawKind::none;
        }
        const sim::RepeatResult result = repeat(scenario, 3, 350.0);
        ASSERT_EQ(result.starts.size(), 3U);
        for (const sim::RepeatedStart& row : result.starts) {
            const plant_models::EnergyAudit& energy = row.start.energy;
            EXPECT_LT(energy.closure(), 1e-5) << name;
            // Of this start alone: about as much as the first one took.
            EXPECT_NEAR(energy.source_J, result.starts.front().start.energy.source_J,
                        0.6 * energy.source_J)
                << name;
        }
    }
}

// A start capacitor drives a small generator's voltage up; an eased first stage would leave it
// there.
TEST(RepeatRun, ASmallGeneratorStartsItsCompressorEveryTimeWhileTheControllerLearns) {
    const sim::RepeatResult result = repeat(bundled("camp_generator"), 12, 600.0);
    for (const sim::RepeatedStart& row : result.starts) {
        EXPECT_EQ(row.start.outcome, sim::Outcome::running);
        EXPECT_TRUE(row.start.monitors.empty());
    }
    ASSERT_TRUE(sim::ladder_settled_after(result).has_value());
    EXPECT_LE(sim::ladder_settled_after(result).value(), 6);
}

TEST(RepeatRun, AStartAfterARestIsTheOneAfterTheSameRestTickByTick) {
    // The plant alone: a direct start has no controller that sleeps.
    sim::Scenario scenario = bundled("bakery_short_rest");
    scenario.run.duration_s = 1.0;
    const sim::RepeatResult at_once = repeat(scenario, 2, 40.0);

    const auto plant = sim::make_plant_run(sim::describe_plant(scenario));
    const auto run_for = [&plant](double duration_s, bool line_coil, double* highest_A) {
        sim::PowerCommands commands;
        commands.line_coil = line_coil;
        const sim::Instant end = plant->now() + sim::Instant(std::llround(1e9 * duration_s));
        while (plant->now() < end) {
            plant->apply(commands);
            plant->advance_to(plant->now() + sim::tick_length);
            if (highest_A != nullptr) {
                *highest_A = std::max(*highest_A, std::abs(plant->outputs().line_current_A));
            }
        }
    };
    run_for(1.0, true, nullptr);
    run_for(40.0, false, nullptr);
    double highest_A = 0.0;
    run_for(1.0, true, &highest_A);
    const sim::StartFigures& figures = at_once.starts.back().start.figures;
    EXPECT_NEAR(figures.line_current_peak_A, highest_A, 2e-3 * highest_A);
    EXPECT_NEAR(figures.final_speed_rpm,
                plant_models::rad_per_s_to_rpm(plant->outputs().speed_rad_per_s), 2.0);
}

TEST(RepeatRun, CarriesPressuresFromStartToStart) {
    // Stopped with its pressures apart it does not come up again; rested, it does.
    sim::Scenario scenario = bundled("bakery_short_rest");
    scenario.conditions.rest_s = 3600.0;
    scenario.run.duration_s = 60.0;
    const sim::RepeatResult hurried = repeat(scenario, 2, 10.0);
    EXPECT_EQ(hurried.starts[0].start.outcome, sim::Outcome::running);
    EXPECT_NE(hurried.starts[1].start.outcome, sim::Outcome::running);
    const sim::RepeatResult patient = repeat(scenario, 2, 600.0);
    EXPECT_EQ(patient.starts[1].start.outcome, sim::Outcome::running);
}

TEST(RepeatRun, CarriesTheControllersRestAndGoesOnAfterAStartThatFails) {
    // Called a minute after the last feeding, the controller still waits; five minutes later not.
    const sim::RepeatResult hurried = repeat(bundled("reference_limited"), 6, 60.0);
    ASSERT_EQ(hurried.starts.size(), 6U);
    int refused = 0;
    for (const sim::RepeatedStart& row : hurried.starts) {
        const bool runs = row.start.outcome == sim::Outcome::running;
        EXPECT_TRUE(runs || row.start.cause == "rest_not_over") << row.start.cause;
        EXPECT_EQ(row.stage.has_value(), runs);
        refused += runs ? 0 : 1;
        for (const sim::NamedViolation& broken : row.start.monitors) {
            ADD_FAILURE() << broken.monitor;
        }
    }
    EXPECT_EQ(refused, 4);  // 63 s, 126 s, 189 s after the feeding, then after 252 s it may again
    EXPECT_EQ(repeat(bundled("reference_limited"), 2, 300.0).starts[1].start.outcome,
              sim::Outcome::running);
}

TEST(RepeatRun, FiguresOfAStartCountFromItsOwnBeginning) {
    // Without a law that learns, each start is made as the first one.
    sim::Scenario scenario = bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.learning_law = firmware::LearningLawKind::none;
    const sim::RepeatResult result = repeat(scenario, 3, 300.0);
    for (std::size_t k = 0; k < result.starts.size(); ++k) {
        const sim::RepeatedStart& row = result.starts[k];
        EXPECT_NEAR(row.call_at_s, 303.0 * static_cast<double>(k), 1e-9);
        ASSERT_TRUE(row.start.figures.time_to_speed_s);
        EXPECT_NEAR(*row.start.figures.time_to_speed_s,
                    *result.starts[0].start.figures.time_to_speed_s, 0.03);
        EXPECT_EQ(row.stage, result.starts[0].stage);
        // Through the output flows the main winding's current with the start capacitor's.
        ASSERT_TRUE(row.sensor_inrush_100ms_rms_A);
        EXPECT_GT(*row.sensor_inrush_100ms_rms_A, 10.0);
    }
}

TEST(RepeatRun, AMonitorOverTheSeriesSeesARetryThatNoSingleStartShows) {
    sim::Scenario scenario = bundled("reference_limited");
    scenario.limits.minimum_rest_s = 290.0;  // more than the controller's own 240 s
    sim_test::limiter_of(scenario).settings.rest_before_retry_s = 240;
    const sim::RepeatResult result = repeat(scenario, 3, 250.0);
    EXPECT_TRUE(result.starts[0].start.monitors.empty());
    for (const std::size_t k : {1U, 2U}) {
        ASSERT_EQ(result.starts[k].start.monitors.size(), 1U);
        EXPECT_EQ(result.starts[k].start.monitors[0].monitor, "retry_before_rest");
        EXPECT_FALSE(result.starts[k].start.as_expected);
    }
}

TEST(RepeatRun, StopsWhenAskedToAndKeepsWhatIsFinished) {
    const sim::RepeatResult result = sim::run_repeat(bundled("reference_limited"), {12, 300.0},
                                                     [](int done) { return done < 4; });
    EXPECT_EQ(result.starts.size(), 4U);
    EXPECT_TRUE(result.interrupted);
    EXPECT_FALSE(result.as_expected());
}

sim::RepeatResult with_currents(const std::vector<double>& currents_A) {
    sim::RepeatResult result;
    for (const double current_A : currents_A) {
        result.starts.emplace_back();
        if (current_A > 0.0) {
            result.starts.back().start.figures.line_current_inrush_100ms_rms_A = current_A;
        }
    }
    return result;
}

TEST(SettledAfter, IsTheFirstStartOfTheLongestTailWithinFivePerCent) {
    EXPECT_EQ(sim::settled_after(with_currents({30, 27, 25, 24.5, 24.4, 24.6})), 3);
    EXPECT_EQ(sim::settled_after(with_currents({24, 24, 24})), 1);
    EXPECT_EQ(sim::settled_after(with_currents({30, 30, 30, 20, 20, 20})), 4);
    // A slow creep is no settling, however small each step is.
    EXPECT_EQ(sim::settled_after(with_currents({30, 29.4, 28.8, 28.2, 27.6, 27.0})), 4);
}

TEST(SettledAfter, IsNoneWhenTooFewStartsBearItOut) {
    EXPECT_EQ(sim::settled_after(with_currents({})), std::nullopt);
    EXPECT_EQ(sim::settled_after(with_currents({24, 24})), std::nullopt);
    EXPECT_EQ(sim::settled_after(with_currents({24, 24, 24, 30, 30})), std::nullopt);
    EXPECT_EQ(sim::settled_after(with_currents({24, 24, 24, 0})), std::nullopt);
    EXPECT_EQ(sim::settled_after(with_currents({0, 24, 24, 24})), 2);
}

}  // namespace
