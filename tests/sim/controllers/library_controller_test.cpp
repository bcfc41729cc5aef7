// A controller library in the place of ours: the bench sees the same, whatever process it runs in.
#include "sim/controllers/library/library_controller.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "controllers/test_libraries.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/campaigns/fault_campaign.hpp"
#include "sim/results/fault_campaign_json.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/start_json.hpp"

namespace {

using sim_test::test_controller;
using sim_test::with_library;

/// Everything that a trace would hold of the frames.
class Frames final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& view) override {
        rows.push_back({view.commands.gate_on.count(), view.commands.gate_off.count(),
                        view.commands.line_coil ? 1 : 0, view.commands.start_capacitor_coil ? 1 : 0,
                        view.commands.bypass_coil ? 1 : 0, view.samples->line_voltage_counts,
                        view.samples->output_current_counts,
                        static_cast<int>(view.controller->state),
                        static_cast<int>(view.controller->reason)});
    }
    std::vector<std::vector<std::int64_t>> rows;
};

TEST(OwnFirmwareAsALibrary, GivesTheFramesOfTheBuiltinControllerInEveryTick) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    Frames builtin;
    Frames library;
    const sim::StartResult one = sim::run_start(scenario, &builtin);
    const sim::StartResult other =
        sim::run_start(with_library(scenario, test_controller("own_firmware")), &library);
    ASSERT_EQ(builtin.rows.size(), library.rows.size());
    for (std::size_t k = 0; k < builtin.rows.size(); ++k) {
        ASSERT_EQ(builtin.rows[k], library.rows[k]) << "tick " << k;
    }
    EXPECT_EQ(one.outcome, sim::Outcome::running);
    EXPECT_EQ(other.outcome, sim::Outcome::running);
    EXPECT_TRUE(other.warnings.empty()) << other.warnings.front();
    for (const sim::ControllerStep& step : other.controller_steps) {
        EXPECT_FALSE(step.seen) << "it tells its states";
        EXPECT_FALSE(step.has_stage) << "there is no place for it in the frame";
    }
}

/// The store, the rests and the power cuts reach it as they reach ours: what it learns is the same.
TEST(OwnFirmwareAsALibrary, LearnsOverRestsAndPowerCutsAsTheBuiltinControllerDoes) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.call_on_s = 0.1;
    scenario.run.duration_s = 1.6;
    scenario.run.power_off_after_s = 400.0;
    for (const bool cuts : {false, true}) {
        const sim::RepeatPlan plan = {4, 600.0, cuts};
        const sim::RepeatResult one = sim::run_repeat(scenario, plan);
        const sim::RepeatResult other =
            sim::run_repeat(with_library(scenario, test_controller("own_firmware")), plan);
        ASSERT_EQ(one.starts.size(), other.starts.size());
        for (std::size_t k = 0; k < one.starts.size(); ++k) {
            EXPECT_EQ(one.starts[k].start.figures.line_current_peak_A,
                      other.starts[k].start.figures.line_current_peak_A)
                << k;
            EXPECT_EQ(one.starts[k].start.figures.time_to_speed_s,
                      other.starts[k].start.figures.time_to_speed_s)
                << k;
            EXPECT_EQ(one.starts[k].start.outcome, other.starts[k].start.outcome) << k;
            EXPECT_TRUE(one.starts[k].memory);
            EXPECT_FALSE(other.starts[k].memory) << "nobody can ask it";
            EXPECT_FALSE(other.starts[k].stage);
        }
        EXPECT_EQ(one.store_wear.word_writes, other.store_wear.word_writes);
        EXPECT_GT(other.store_wear.word_writes, 0);
        EXPECT_NE(one.starts.front().start.figures.line_current_peak_A,
                  one.starts.back().start.figures.line_current_peak_A)
            << "it does learn";
    }
}

TEST(ControllerLibrary, CanBeWatchedByTheNamesThatItGives) {
    const sim::Scenario scenario = sim_test::bundled("reference_limited");
    const auto controller = sim::make_controller(
        with_library(scenario, test_controller("own_firmware")).limiter, scenario.motor);
    const std::vector<std::string> expected = {"line_frequency_mHz", "stage"};
    EXPECT_EQ(controller->watchable(), expected);
    firmware::SensorFrame frame;
    for (int k = 0; k < 10000; ++k) {
        frame.line_voltage_counts = (k / 100) % 2 == 0 ? 3000 : 1100;
        controller->step(frame);
    }
    EXPECT_NEAR(static_cast<double>(controller->watched(0)), 50000.0, 2000.0)
        << "a square wave of 50 Hz";
    controller->lose_power();
    EXPECT_EQ(controller->watched(0), 0);
    EXPECT_EQ(controller->watchable(), expected);
}

TEST(ControllerLibrary, GivesTheSameBytesAtAnyNumberOfThreads) {
    sim::Scenario scenario =
        with_library(sim_test::bundled("reference_limited"), test_controller("own_firmware"));
    scenario.run.duration_s = 0.4;
    sim::CampaignPlan plan;
    plan.every_s = 0.1;
    plan.until_s = 0.2;
    plan.only = "thyristor";
    const std::string one =
        sim::fault_campaign_json(sim::run_fault_campaign({scenario}, plan)).dump();
    plan.threads = 5;
    EXPECT_EQ(one, sim::fault_campaign_json(sim::run_fault_campaign({scenario}, plan)).dump());
    sim::Scenario own = sim_test::bundled("reference_limited");
    own.run.duration_s = 0.4;
    EXPECT_EQ(one, sim::fault_campaign_json(sim::run_fault_campaign({own}, plan)).dump())
        << "and those of the builtin controller, fault by fault";
}

TEST(SeenDoing, IsReadOffTheFrames) {
    using sim::seen_doing;
    using sim::SeenDoing;
    firmware::ActuatorFrame off;
    firmware::ActuatorFrame fed;
    fed.contactor_permit = 1;
    firmware::ActuatorFrame with_capacitor = fed;
    with_capacitor.start_capacitor_contact = 1;
    firmware::ActuatorFrame bypassed = fed;
    bypassed.bypass_contact = 1;
    EXPECT_EQ(seen_doing(SeenDoing::off, off, true), SeenDoing::off) << "it has not fed yet";
    EXPECT_EQ(seen_doing(SeenDoing::off, fed, true), SeenDoing::feeding);
    EXPECT_EQ(seen_doing(SeenDoing::feeding, with_capacitor, true),
              SeenDoing::feeding_with_start_capacitor);
    EXPECT_EQ(seen_doing(SeenDoing::feeding, bypassed, true), SeenDoing::bypassed);
    EXPECT_EQ(seen_doing(SeenDoing::bypassed, off, true), SeenDoing::let_go);
    EXPECT_EQ(seen_doing(SeenDoing::let_go, off, true), SeenDoing::let_go);
    EXPECT_EQ(seen_doing(SeenDoing::let_go, off, false), SeenDoing::off) << "the call is over";
    EXPECT_EQ(seen_doing(SeenDoing::bypassed, off, false), SeenDoing::off);
    EXPECT_EQ(seen_doing(SeenDoing::off, fed, false), SeenDoing::off)
        << "without a call the contactor stays open";
}

TEST(SeenDoing, TellsOfTheMotorWhatTheNearestStateTells) {
    for (int k = 0; k <= static_cast<int>(sim::SeenDoing::failed); ++k) {
        const auto doing = static_cast<sim::SeenDoing>(k);
        const bool feeds = doing == sim::SeenDoing::feeding ||
                           doing == sim::SeenDoing::feeding_with_start_capacitor ||
                           doing == sim::SeenDoing::bypassed;
        EXPECT_EQ(firmware::feeds_motor(sim::nearest_state(doing)), feeds) << sim::name_of(doing);
        EXPECT_NE(std::string(sim::name_of(doing)), "");
    }
}

}  // namespace
