// The controller's default settings belong to no motor: a family of invented ones, from a
// refrigerator to five tons, must come up with them.
#include <gtest/gtest.h>

#include <complex>
#include <string>

#include "bench/cases.hpp"
#include "plant_models/motor/steady_state.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/start_text.hpp"

namespace {

class DefaultSettings : public testing::TestWithParam<sim_test::InventedMotor> {};

TEST_P(DefaultSettings, BringTheMotorUpWithoutABrokenMonitor) {
    const sim::Scenario scenario = sim_test::limited_start(GetParam());
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::running) << sim::start_text({result});
    EXPECT_TRUE(result.monitors.empty()) << sim::verdict_line(result);
    EXPECT_TRUE(result.figures.handover_s.has_value());
}

TEST_P(DefaultSettings, TakeLessCurrentThanTheDirectStart) {
    const sim::Scenario scenario = sim_test::limited_start(GetParam());
    const sim::StartResult limited = sim::run_start(scenario);
    const sim::StartResult direct = sim::run_start(sim::without_limiter(scenario));
    // Limited starts draw 25 to 40 % of the direct start's line current (common practice); a motor
    // that needs the last stage may take more, but never three quarters.
    EXPECT_LT(limited.figures.line_current_inrush_100ms_rms_A.value(),
              0.75 * direct.figures.line_current_inrush_100ms_rms_A.value());
}

TEST_P(DefaultSettings, BreakNoMonitorOnAnyLineLoadOrCapacitorWhetherTheMotorComesUpOrNot) {
    for (const double voltage_share : {0.85, 0.9, 1.1}) {
        for (const double breakaway_share : {0.10, 0.25, 1.2}) {
            for (const double capacitor_share : {0.0, 0.7, 1.3}) {
                sim_test::InventedMotor motor = GetParam();
                motor.breakaway_share = breakaway_share;
                motor.start_capacitor_uF *= capacitor_share;
                sim::Scenario scenario = sim_test::limited_start(motor);
                std::get<plant_models::GridParameters>(scenario.source).voltage_V *= voltage_share;
                const sim::StartResult result = sim::run_start(scenario);
                SCOPED_TRACE(testing::Message()
                             << voltage_share << " of the voltage, " << breakaway_share
                             << " of the rated torque, " << capacitor_share << " of the capacitor");
                EXPECT_TRUE(result.monitors.empty()) << sim::verdict_line(result);
                // Up, or let go: never left on the line without turning.
                EXPECT_TRUE(result.outcome == sim::Outcome::running ||
                            result.outcome == sim::Outcome::resting ||
                            result.outcome == sim::Outcome::not_started)
                    << sim::verdict_line(result);
            }
        }
    }
}

INSTANTIATE_TEST_SUITE_P(InventedMotors, DefaultSettings,
                         testing::ValuesIn(sim_test::invented_motors()),
                         [](const auto& one) { return std::string(one.param.name); });

TEST(InventedMotors, LookLikeTheirClass) {
    // Published: locked rotor draws 4.6 to 5.9 times the rated current (nameplates), power factor
    // 0.71 to 0.74 in grid models, lower on others; here only that the invention is no monster.
    EXPECT_GE(sim_test::invented_motors().size(), 8U);
    for (const sim_test::InventedMotor& motor : sim_test::invented_motors()) {
        const sim::Scenario scenario = sim_test::limited_start(motor);
        const plant_models::SinusoidalSupply supply{motor.voltage_V, motor.frequency_Hz, 0.0, 0.0};
        const plant_models::SteadyState locked = plant_models::locked_rotor(
            scenario.motor, supply, plant_models::run_connection(scenario.motor));
        SCOPED_TRACE(motor.name);
        EXPECT_NEAR(std::abs(locked.line_current_A), motor.locked_rotor_A,
                    0.15 * motor.locked_rotor_A);
        EXPECT_GT(locked.power_factor, 0.5);
        EXPECT_LT(locked.power_factor, 0.8);
        EXPECT_GT(locked.torque_Nm, 0.0);
        // Somewhere on its curve it carries its rated torque below 10 % slip.
        const plant_models::SteadyState loaded = plant_models::steady_state(
            scenario.motor, supply, plant_models::run_connection(scenario.motor), 0.09);
        EXPECT_GT(loaded.torque_Nm, sim_test::rated_torque_Nm(motor));
    }
}

}  // namespace
