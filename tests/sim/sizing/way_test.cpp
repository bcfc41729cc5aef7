// What is fitted for each way of starting.
#include "sim/sizing/way.hpp"

#include <gtest/gtest.h>

#include "sim/scenario/scenario_reader.hpp"
#include "sizing/sizing_cases.hpp"

namespace {

using sim::Way;

TEST(Way, FitsAStartCapacitorOfThreeTimesTheRunCapacitor) {
    const sim::Scenario unit = sim_test::library_unit("cold_room_230v_50hz");
    EXPECT_EQ(sim::usual_start_capacitor_uF(unit), 75.0);
    const auto limited = sim::brought_up(unit, Way::limiter).value();
    EXPECT_EQ(std::get<sim::BuiltinLimiter>(limited.limiter).parts.start_capacitor_uF, 75.0);
    const auto relay = sim::brought_up(unit, Way::capacitor_relay).value();
    EXPECT_EQ(
        std::get<plant_models::PotentialRelayParameters>(relay.unit.start_aid).start_capacitor_uF,
        75.0);
}

// Common practice: a capacitor-start motor of 1/6 hp at 115 V has 75 to 85 uF.
TEST(Way, FitsTheTradesStartCapacitorToARefrigeratorWithoutARunCapacitor) {
    const double capacitor_uF =
        sim::usual_start_capacitor_uF(sim_test::library_unit("small_refrigerator_115v_60hz"));
    EXPECT_GE(capacitor_uF, 75.0);
    EXPECT_LE(capacitor_uF, 85.0);
}

TEST(Way, LeavesARefrigeratorItsOwnThermistorAndFitsNoSecondAid) {
    const sim::Scenario unit = sim_test::library_unit("small_refrigerator_115v_60hz");
    const auto direct = sim::brought_up(unit, Way::directly).value();
    EXPECT_TRUE(std::holds_alternative<plant_models::ThermistorParameters>(direct.unit.start_aid));
    EXPECT_FALSE(sim::brought_up(unit, Way::thermistor));
    EXPECT_FALSE(sim::brought_up(unit, Way::capacitor_relay));
}

TEST(Way, NeverLeavesTheAuxiliaryWindingWithoutAPath) {
    sim::Scenario unit = sim_test::library_unit("small_refrigerator_115v_60hz");
    unit.unit.start_aid = plant_models::NoStartAid{};
    EXPECT_FALSE(sim::brought_up(unit, Way::directly));
    EXPECT_TRUE(sim::brought_up(unit, Way::limiter));
}

TEST(Way, KeepsTheLimiterThatAScenarioDescribes) {
    const sim::Scenario unit = sim::parse_scenario(R"(
[library]
compressor = "cold_room_230v_50hz"
supply = "hut_inverter_3kva_230v_50hz"
[limiter]
kind = "builtin"
start_capacitor_uF = 88
)",
                                                   "mine.toml");
    const auto limited = sim::brought_up(unit, Way::limiter).value();
    EXPECT_EQ(std::get<sim::BuiltinLimiter>(limited.limiter).parts.start_capacitor_uF, 88.0);
    EXPECT_TRUE(
        std::holds_alternative<sim::NoLimiter>(sim::brought_up(unit, Way::directly)->limiter));
}

}  // namespace
