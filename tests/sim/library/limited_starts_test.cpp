// Limited starts of library pairs that once went wrong. Each says what broke.
#include <gtest/gtest.h>

#include <string>

#include "sim/bench/start_run.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

sim::Scenario pair(const std::string& compressor, const std::string& supply,
                   const std::string& conditions, int start_capacitor_uF) {
    return sim::parse_scenario("[library]\ncompressor = \"" + compressor + "\"\nsupply = \"" +
                                   supply + "\"\n[conditions]\n" + conditions +
                                   "[limiter]\nkind = \"builtin\"\nstart_capacitor_uF = " +
                                   std::to_string(start_capacitor_uF) + "\n",
                               "pair");
}

TEST(LimitedStart, ThatGrazesASwitchClampIsNoEndlessStringOfEvents) {
    // Without the comparator's hysteresis the switches were held and let go a thousand times
    // within a microsecond, and the run failed.
    const sim::StartResult result =
        sim::run_start(pair("heat_pump_scroll_230v_50hz", "battery_inverter_5kva_230v_50hz",
                            "rest_s = 20\nambient_C = 35\n", 135));
    EXPECT_LT(result.energy.closure(), 1e-5);
}

TEST(LimitedStart, LetsGoOfAStallingGeneratorBeforeItsFrequencyIsOutOfBounds) {
    // The controller measures while the set slows down; with its limit at the very bound of the
    // gate pulses it was late in each of these.
    for (const char* conditions :
         {"rest_s = 120\nambient_C = 46\n", "rest_s = 60\nambient_C = 40\n"}) {
        const sim::StartResult result = sim::run_start(
            pair("heat_pump_scroll_230v_50hz", "generator_5kva_230v_50hz", conditions, 60));
        EXPECT_TRUE(result.monitors.empty()) << conditions << result.monitors.front().monitor;
    }
}

}  // namespace
