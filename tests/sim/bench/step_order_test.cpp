// The order of a step as written in sim/timeline/plant_run.hpp, seen from outside.
#include <gtest/gtest.h>

#include <memory>
#include <vector>

#include "bench/cases.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/controller_port.hpp"

namespace {

/// Gives a second controller, with a store of its own, the samples of every tick and keeps its
/// answers.
class ShadowController final : public sim::TickObserver {
  public:
    explicit ShadowController(const sim::Scenario& scenario)
        : controller_(sim::make_controller(scenario.limiter, scenario.motor)) {}

    void observe(const sim::TickView& view) override {
        EXPECT_EQ(view.time, static_cast<long>(answers_.size()) * sim::tick_length);
        EXPECT_EQ(view.plant.time_s, plant_models::to_seconds(view.time));
        // In force during the tick that ends now: the answer to the samples of two ticks ago.
        if (answers_.size() >= 2) {
            const sim::PowerCommands expected =
                sim::drive(answers_[answers_.size() - 2], last_call_);
            agreed_ = agreed_ && view.commands.line_coil == expected.line_coil &&
                      view.commands.start_capacitor_coil == expected.start_capacitor_coil &&
                      view.commands.bypass_coil == expected.bypass_coil &&
                      view.commands.gate_on == expected.gate_on &&
                      view.commands.gate_off == expected.gate_off;
            pulses_ += expected.gate_off > expected.gate_on ? 1 : 0;
        }
        // What the controller thinks is as of the tick before, too.
        thinks_alike_ = thinks_alike_ && view.controller->state == controller_->telemetry().state &&
                        view.controller->line_phase == controller_->telemetry().line_phase;
        answers_.push_back(controller_->step(*view.samples));
        last_call_ = view.call_for_cooling;
    }
    bool agreed() const { return agreed_; }
    bool thinks_alike() const { return thinks_alike_; }
    int pulses() const { return pulses_; }

  private:
    std::unique_ptr<sim::ControllerPort> controller_;
    std::vector<firmware::ActuatorFrame> answers_;
    bool last_call_ = false;
    bool agreed_ = true;
    bool thinks_alike_ = true;
    int pulses_ = 0;
};

TEST(StepOrder, AnAnswerIsInForceOneTickAfterItsSamplesAndForOneTick) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.call_off_s = 1.2;
    scenario.run.duration_s = 1.3;
    ShadowController shadow(scenario);
    sim::run_start(scenario, &shadow);
    EXPECT_TRUE(shadow.agreed());
    EXPECT_TRUE(shadow.thinks_alike());
    EXPECT_GT(shadow.pulses(), 100);
}

TEST(StepOrder, TheFirstTickHasEveryOutputOff) {
    class FirstTicks final : public sim::TickObserver {
      public:
        void observe(const sim::TickView& view) override {
            if (view.time <= sim::tick_length) {
                EXPECT_FALSE(view.commands.line_coil);
                EXPECT_FALSE(view.commands.start_capacitor_coil);
                EXPECT_FALSE(view.commands.bypass_coil);
                EXPECT_EQ(view.commands.gate_on, view.commands.gate_off);
                ++ticks;
            }
        }
        int ticks = 0;
    };
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    scenario.run.duration_s = 0.05;
    FirstTicks first;
    sim::run_start(scenario, &first);
    EXPECT_EQ(first.ticks, 2);
}

TEST(StepOrder, ADirectStartFollowsTheCallInTheTickThatBegins) {
    class Connection final : public sim::TickObserver {
      public:
        void observe(const sim::TickView& view) override {
            if (view.plant.line_connected && connected_s < 0.0) {
                connected_s = view.plant.time_s;
            }
        }
        double connected_s = -1.0;
    };
    sim::Scenario scenario = sim_test::bundled("reference_direct");
    scenario.run.call_on_s = 0.0123;
    scenario.run.duration_s = 0.05;
    Connection connection;
    sim::run_start(scenario, &connection);
    EXPECT_NEAR(connection.connected_s, 0.0124, 1e-9);
}

}  // namespace
