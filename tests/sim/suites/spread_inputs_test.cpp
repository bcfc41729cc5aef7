// What chance may decide, on every compressor and supply of the library.
#include "sim/suites/spread_inputs.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>

#include "library/combined.hpp"
#include "sim/library/library.hpp"
#include "sim/regression/scenario_fingerprint.hpp"
#include "sim/scenario/part_scaling.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/sizing/supply_at_hand.hpp"
#include "sim/sizing/way.hpp"

namespace {

/// Every compressor on one supply of each kind that suits it, with a limiter and directly.
std::vector<sim::Scenario> scenarios() {
    std::vector<sim::Scenario> all;
    for (const sim::LibraryEntry& compressor : sim::library_compressors()) {
        const auto motor = sim::parse_library_entry(compressor).motor;
        std::set<std::string_view> kinds;
        for (const sim::SupplyAtHand& supply : sim::library_supplies_for(motor)) {
            if (kinds.insert(supply.kind()).second) {
                const auto direct = sim_test::combined_scenario(compressor.name, supply.name);
                all.push_back(direct);
                all.push_back(sim::brought_up(direct, sim::Way::limiter).value());
            }
        }
    }
    return all;
}

TEST(SpreadInputs, ChangeWhatTheySayTheyActOnAndElseNothing) {
    std::map<std::string_view, int> acted;
    std::map<std::string_view, int> idle;
    for (const sim::Scenario& given : scenarios()) {
        const std::string before = sim::scenario_fingerprint(given);
        for (const sim::SpreadInput& input : sim::spread_inputs()) {
            sim::Scenario changed = given;
            const double value = input.is_factor ? 1.07 : 37.5;
            const bool acts = input.apply(changed, given.motor, value);
            ++(acts ? acted : idle)[input.name];
            EXPECT_EQ(sim::scenario_fingerprint(changed) != before, acts)
                << input.name << " on " << given.title;
            EXPECT_EQ(sim::out_of_bounds_after_scaling(changed), "") << input.name;
        }
    }
    for (const sim::SpreadInput& input : sim::spread_inputs()) {
        EXPECT_GT(acted[input.name], 0) << input.name;
    }
    for (const char* one : {"line_voltage_factor", "supply_power_factor", "battery_voltage_factor",
                            "start_capacitor_factor", "run_capacitor_factor"}) {
        EXPECT_GT(idle[one], 0) << one;
    }
}

TEST(SpreadInputs, StayInTheBoundsOfTheTablesAtUsualEnds) {
    for (const sim::Scenario& given : scenarios()) {
        for (const double factor : {0.8, 1.25}) {
            sim::Scenario changed = given;
            for (const sim::SpreadInput& input : sim::spread_inputs()) {
                input.apply(changed, given.motor, input.is_factor ? factor : 20.0);
            }
            EXPECT_EQ(sim::out_of_bounds_after_scaling(changed), "") << given.title;
        }
    }
}

TEST(PartScaling, OfTwoFiguresOfABatteryDoesNotDependOnTheirOrder) {
    using plant_models::InverterParameters;
    const auto given =
        sim_test::combined_scenario("cold_room_230v_50hz", "battery_inverter_5kva_230v_50hz");
    auto one = given.source;
    auto other = given.source;
    sim::scale_supply_power(one, 0.8);
    sim::scale_battery_voltage(one, 0.95);
    sim::scale_battery_resistance(one, 1.5);
    sim::scale_battery_resistance(other, 1.5);
    sim::scale_battery_voltage(other, 0.95);
    sim::scale_supply_power(other, 0.8);
    const auto sold = std::get<InverterParameters>(given.source).completed();
    for (const auto& row : InverterParameters::table()) {
        if (const auto* member = std::get_if<double InverterParameters::*>(&row.member)) {
            EXPECT_EQ(std::get<InverterParameters>(one).*(*member),
                      std::get<InverterParameters>(other).*(*member))
                << row.key;
        }
    }
    const auto& scaled = std::get<InverterParameters>(one);
    EXPECT_DOUBLE_EQ(scaled.battery_voltage_V, 0.95 * sold.battery_voltage_V);
    EXPECT_DOUBLE_EQ(scaled.battery_resistance_mohm, 1.5 * sold.battery_resistance_mohm);
    EXPECT_DOUBLE_EQ(scaled.peak_current_limit_A, 0.8 * sold.peak_current_limit_A);
    // What protects the battery is as it was sold, not as the drawn battery would have it.
    EXPECT_EQ(scaled.battery_minimum_V, sold.battery_minimum_V);
    EXPECT_EQ(scaled.bus_voltage_V, sold.bus_voltage_V);
}

TEST(PartScaling, TellsWhatHasLeftItsBounds) {
    auto scenario = sim_test::combined_scenario("cold_room_230v_50hz", "house_grid_230v_50hz");
    scenario.motor.run_capacitor_uF *= 100.0;
    EXPECT_NE(sim::out_of_bounds_after_scaling(scenario).find("run_capacitor_uF would become 2500"),
              std::string::npos)
        << sim::out_of_bounds_after_scaling(scenario);
}

}  // namespace
