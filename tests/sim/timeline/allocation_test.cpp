// Stepping allocates nothing.
#include <gtest/gtest.h>

#include <algorithm>
#include <new>
#include <string>

#include "bench/cases.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/sensors/sensor_suite.hpp"
#include "timeline/allocation_counter.hpp"

namespace {

TEST(AllocationCounter, SeesAnAllocation) {
    const long before = sim_test::allocations();
    // Called as a function, because a compiler may leave out a new-expression.
    void* const memory = ::operator new(100);
    EXPECT_EQ(sim_test::allocations() - before, 1);
    ::operator delete(memory);
}

/// Allocations since the tick before, at every tick of the bench's own loop.
class AllocationsBetweenTicks final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& /*view*/) override {
        const long now = sim_test::allocations();
        if (last_ >= 0) {
            most_ = std::max(most_, now - last_);
        }
        last_ = now;
        ++ticks_;
    }
    long most() const { return most_; }
    long ticks() const { return ticks_; }

  private:
    long last_ = -1;
    long most_ = 0;
    long ticks_ = 0;
};

TEST(Stepping, AllocatesNothingBetweenTheTicksOfAWholeStart) {
    for (const std::string& name : sim_test::bundled_names()) {
        const sim::Scenario scenario = sim_test::bundled(name);
        AllocationsBetweenTicks counter;
        sim::run_start(scenario, &counter);
        EXPECT_EQ(counter.most(), 0) << name;
        EXPECT_GT(counter.ticks(), 10000) << name;
    }
}

TEST(Stepping, AllocatesNothingInPlantSensorsControllerAndPowerStage) {
    const sim::Scenario scenario = sim_test::bundled("hut_inverter");
    const auto plant = sim::make_plant_run(sim::describe_plant(scenario));
    const auto controller = sim::make_controller(scenario.limiter, scenario.motor);
    firmware::ActuatorFrame answer;
    const long before = sim_test::allocations();
    for (int tick = 0; tick < 20000; ++tick) {
        const firmware::SensorFrame samples = sim::sample_sensors(plant->outputs(), true);
        plant->apply(sim::drive(answer, true));
        answer = controller->step(samples);
        plant->advance_to((tick + 1) * sim::tick_length);
    }
    EXPECT_EQ(sim_test::allocations() - before, 0);
    EXPECT_GT(plant->outputs().speed_rad_per_s, 300.0);  // it did make a start
    EXPECT_GT(plant->events(), 100);
}

}  // namespace
