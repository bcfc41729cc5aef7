// When faults begin and end, and what several of them come to together.
#include "sim/faults/fault_schedule.hpp"

#include <gtest/gtest.h>

#include "faults/make_fault.hpp"

namespace {

using sim::Fault;
using sim::Faults;
using sim::FaultSchedule;
using sim_test::fault;

constexpr double supply_Hz = 50.0;

TEST(FaultSchedule, BeginsAndEndsAtTheTicksOfItsTimes) {
    FaultSchedule schedule({fault(sim::CallRemoved{}, 0.0123, 0.0007)}, supply_Hz);
    for (std::int64_t tick = 0; tick < 200; ++tick) {
        const bool changed = schedule.move_to(tick, nullptr);
        EXPECT_EQ(changed, tick == 123 || tick == 130) << tick;
        EXPECT_EQ(schedule.effects().call_removed, tick >= 123 && tick < 130) << tick;
    }
}

TEST(FaultSchedule, WithoutADurationLastsToTheEnd) {
    FaultSchedule schedule({fault(sim::RotorSeized{}, 0.5)}, supply_Hz);
    schedule.move_to(4999, nullptr);
    EXPECT_FALSE(schedule.effects().damage.rotor_seized);
    schedule.move_to(5000, nullptr);
    schedule.move_to(1'000'000'000, nullptr);
    EXPECT_TRUE(schedule.effects().damage.rotor_seized);
}

TEST(FaultSchedule, CountsFromTheFirstTimeThatTheStateIsEntered) {
    Fault waiting = fault(sim::MotorDisconnected{}, 0.0, 0.002);
    waiting.timing.when = "handing_over";
    waiting.timing.after_s = 0.001;
    FaultSchedule schedule({waiting}, supply_Hz);
    firmware::Telemetry controller;
    const auto is_gone_at = [&](std::int64_t tick, firmware::State state) {
        controller.state = state;
        schedule.move_to(tick, &controller);
        return schedule.effects().damage.motor_disconnected;
    };
    EXPECT_FALSE(is_gone_at(0, firmware::State::climbing));
    EXPECT_FALSE(is_gone_at(100, firmware::State::handing_over));
    EXPECT_FALSE(is_gone_at(109, firmware::State::running));
    EXPECT_TRUE(is_gone_at(110, firmware::State::running));
    EXPECT_TRUE(is_gone_at(129, firmware::State::handing_over));
    EXPECT_FALSE(is_gone_at(130, firmware::State::handing_over));
    EXPECT_FALSE(is_gone_at(500, firmware::State::handing_over));
}

TEST(FaultSchedule, ChattersWithItsPeriodAndShare) {
    FaultSchedule schedule({fault(sim::SupplyChatter{20.0, 25.0}, 0.1, 0.1)}, supply_Hz);
    for (std::int64_t tick = 0; tick < 3000; ++tick) {
        const bool before = schedule.effects().damage.supply_interrupted;
        const bool changed = schedule.move_to(tick, nullptr);
        const bool open = schedule.effects().damage.supply_interrupted;
        EXPECT_EQ(open, tick >= 1000 && tick < 2000 && (tick - 1000) % 200 < 50) << tick;
        EXPECT_EQ(changed || tick == 2000, open != before || tick == 2000) << tick;
    }
}

TEST(FaultSchedule, AddsFaultsOfDifferentPartsAndTakesThemAwayOneByOne) {
    FaultSchedule schedule(
        {fault(sim::SupplyVoltage{80.0}, 0.0, 0.02), fault(sim::SupplyVoltage{50.0}, 0.01, 0.02),
         fault(sim::ThyristorDead{}, 0.01, 0.02)},
        supply_Hz);
    schedule.move_to(0, nullptr);
    EXPECT_DOUBLE_EQ(schedule.effects().damage.supply_voltage_share, 0.8);
    schedule.move_to(100, nullptr);
    EXPECT_DOUBLE_EQ(schedule.effects().damage.supply_voltage_share, 0.4);
    EXPECT_TRUE(schedule.effects().damage.thyristor_dead[plant_models::positive_thyristor]);
    EXPECT_FALSE(schedule.effects().damage.thyristor_dead[plant_models::negative_thyristor]);
    schedule.move_to(200, nullptr);
    EXPECT_DOUBLE_EQ(schedule.effects().damage.supply_voltage_share, 0.5);
    schedule.move_to(300, nullptr);
    EXPECT_DOUBLE_EQ(schedule.effects().damage.supply_voltage_share, 1.0);
    EXPECT_FALSE(schedule.effects().damage.thyristor_dead[plant_models::positive_thyristor]);
}

TEST(FaultSchedule, GivesTheFrequencyAsAShareOfTheSupplysOwn) {
    FaultSchedule schedule({fault(sim::SupplyFrequency{42.0})}, supply_Hz);
    schedule.move_to(0, nullptr);
    EXPECT_DOUBLE_EQ(schedule.effects().damage.supply_frequency_share, 0.84);
}

TEST(StuckSensor, StaysAtItsLastReadingOrAtTheGivenCountsAndLeavesTheOthersAlone) {
    firmware::SensorFrame last;
    last.line_voltage_counts = 1111;
    last.output_current_counts = 1222;
    last.start_terminal_voltage_counts = 1333;
    firmware::SensorFrame now;
    now.line_voltage_counts = 2111;
    now.output_current_counts = 2222;
    now.start_terminal_voltage_counts = 2333;
    sim::StartTerminalSensorStuck given;
    given.counts = 77;
    sim::FaultEffects effects;
    sim::add_effect(fault(sim::OutputCurrentSensorStuck{}), {0.0, supply_Hz}, effects);
    sim::add_effect(fault(given), {0.0, supply_Hz}, effects);
    const firmware::SensorFrame seen = effects.through_sensors(now, last);
    EXPECT_EQ(seen.line_voltage_counts, 2111);
    EXPECT_EQ(seen.output_current_counts, 1222);
    EXPECT_EQ(seen.start_terminal_voltage_counts, 77);
}

}  // namespace
