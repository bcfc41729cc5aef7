// The set of monitors as every run uses it.
#include "sim/monitors/monitor_list.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <string>
#include <vector>

#include "monitors/monitor_bench.hpp"

namespace {

template <class... Each>
std::vector<std::string> names_of(const sim::MonitorSet<Each...>* /*type*/) {
    return {std::string(Each::name)...};
}

std::vector<std::string> listed_names() {
    return names_of(static_cast<const sim::Monitors*>(nullptr));
}

TEST(MonitorList, HoldsTheSevenSafetyPropertiesAndTheTwoOfTheStore) {
    EXPECT_EQ(listed_names(), (std::vector<std::string>{
                                  "bypass_closed_below_speed", "start_capacitor_in_too_long",
                                  "standing_rotor_fed_too_long", "retry_before_rest",
                                  "gate_pulse_outside_supply_limits", "outputs_on_after_call_ended",
                                  "store_written_against_its_rules",
                                  "store_changed_while_outputs_on", "winding_too_hot"}));
}

TEST(MonitorList, GivesEachMonitorAUniqueNameOfPlainWords) {
    const std::vector<std::string> names = listed_names();
    EXPECT_EQ(std::set<std::string>(names.begin(), names.end()).size(), names.size());
    for (const std::string& name : names) {
        EXPECT_TRUE(std::all_of(name.begin(), name.end(), [](char letter) {
            return letter == '_' || std::islower(letter);
        })) << name;
    }
}

TEST(MonitorSet, NamesEveryBrokenMonitorAndNoOther) {
    sim::Monitors monitors(sim_test::strict_context());
    sim_test::TickSequence at = sim_test::healthy_sequence();
    monitors.observe(at.view(), 200.0);
    EXPECT_TRUE(monitors.broken().empty());
    // A standing rotor with the bypass in and the start capacitor for 0.6 s breaks three.
    at.plant.speed_rad_per_s = 0.0;
    at.plant.bypass_closed = true;
    at.commands.bypass_coil = true;
    at.plant.start_capacitor_in = true;
    for (int k = 0; k < 6000; ++k) {
        at.next();
        monitors.observe(at.view(), 200.0);
    }
    std::vector<std::string> found;
    for (const sim::NamedViolation& row : monitors.broken()) {
        found.emplace_back(row.monitor);
    }
    EXPECT_EQ(found,
              (std::vector<std::string>{"bypass_closed_below_speed", "start_capacitor_in_too_long",
                                        "standing_rotor_fed_too_long"}));
}

TEST(MonitorSet, TellsEveryMonitorTheVoltage) {
    sim::Monitors monitors(sim_test::strict_context());
    sim_test::TickSequence at = sim_test::healthy_sequence();
    at.commands.gate_off = sim::Instant{100'000};
    for (int k = 0; k < 1000; ++k) {
        monitors.observe(at.view(), 100.0);
        at.next();
    }
    ASSERT_EQ(monitors.broken().size(), 1U);
    EXPECT_EQ(monitors.broken().front().monitor, "gate_pulse_outside_supply_limits");
}

}  // namespace
