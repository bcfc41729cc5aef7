// Where a controller plugs into the bench.
#include "sim/controllers/controller_port.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "bench/cases.hpp"
#include "firmware/controller.hpp"

namespace {

TEST(ControllerPort, IsEmptyWithoutALimiter) {
    EXPECT_EQ(sim::make_controller(sim::NoLimiter{}), nullptr);
}

TEST(ControllerPort, OfTheBuiltinKindIsTheFirmwareItself) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.probe_half_cycles = 6;
    const auto port = sim::make_controller(scenario.limiter);
    firmware::Controller controller(sim_test::limiter_of(scenario).settings);
    std::mt19937 random(11);
    std::uniform_int_distribution<int> noise(-3, 3);
    for (int k = 0; k < 20000; ++k) {
        firmware::SensorFrame frame;
        const double phase = 2.0 * 3.14159265358979323846 * 60.0 * k * 1e-4;
        frame.line_voltage_counts = static_cast<std::uint16_t>(
            2048 + std::lround(1083.0 * std::sin(phase)) + noise(random));
        frame.output_current_counts = static_cast<std::uint16_t>(2048 + noise(random));
        frame.start_terminal_voltage_counts = frame.line_voltage_counts;
        frame.call_for_cooling = k > 1000 ? 1 : 0;
        const firmware::ActuatorFrame one = port->step(frame);
        const firmware::ActuatorFrame other = controller.step(frame);
        ASSERT_EQ(one.gate_on_us, other.gate_on_us) << k;
        ASSERT_EQ(one.gate_off_us, other.gate_off_us) << k;
        ASSERT_EQ(one.contactor_permit, other.contactor_permit) << k;
        ASSERT_EQ(one.status, other.status) << k;
        ASSERT_EQ(port->telemetry().state, controller.telemetry().state) << k;
    }
    EXPECT_NE(port->telemetry().state, firmware::State::resting);
}

TEST(ControllerPort, TakesTheSettingsOfTheScenario) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).settings.stage_count = 0;  // refused by the firmware's check
    const auto port = sim::make_controller(scenario.limiter);
    port->step({});
    EXPECT_EQ(port->telemetry().state, firmware::State::locked_out);
    EXPECT_EQ(port->telemetry().reason, firmware::Reason::settings_refused);
}

}  // namespace
