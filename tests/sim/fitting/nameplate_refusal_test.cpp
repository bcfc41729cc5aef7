// Impossible nameplates: one sentence that names the file, the line, the key, and what would do.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "fitting/nameplate_text.hpp"

namespace {

using sim_test::nameplate_fault;
using sim_test::right_nameplate;
using sim_test::right_nameplate_with;
using sim_test::with_line;

struct Change {
    const char* key;
    const char* line;
    std::vector<const char*> in_sentence;
};

void expect_each_refused(const std::vector<Change>& changes,
                         const std::string& text = right_nameplate()) {
    for (const Change& change : changes) {
        const std::string fault = nameplate_fault(with_line(text, change.key, change.line));
        for (const char* part : change.in_sentence) {
            EXPECT_NE(fault.find(part), std::string::npos) << part << " is not in: " << fault;
        }
        EXPECT_EQ(fault.find('\n'), std::string::npos) << fault;
        const bool says_what_would_do = fault.find("give ") != std::string::npos ||
                                        fault.find("did you mean ") != std::string::npos;
        EXPECT_TRUE(says_what_would_do) << fault;
        EXPECT_LT(fault.size(), 330U) << fault;
    }
}

TEST(Nameplate, ThatIsRightIsFitted) {
    EXPECT_EQ(nameplate_fault(right_nameplate()), "was fitted");
}

TEST(Nameplate, WithoutAVoltageIsRefused) {
    expect_each_refused(
        {{"voltage_V", "", {"unit.toml:1: nameplate: voltage_V is missing", "100 to 250"}},
         {"voltage_V",
          "lowest_voltage_V = 208",
          {"unit.toml:2: ", "lowest_voltage_V stands alone"}},
         {"voltage_V", "highest_voltage_V = 230", {"highest_voltage_V stands alone"}},
         {"voltage_V",
          "voltage_V = 480",
          {"unit.toml:2: nameplate.voltage_V: 480", "100 to 250"}}});
}

TEST(Nameplate, WithAVoltageRangeThatIsNoneIsRefused) {
    expect_each_refused(
        {{"voltage_V",
          "lowest_voltage_V = 230\nhighest_voltage_V = 208",
          {"unit.toml:2: ", "not below highest_voltage_V, 208"}},
         {"voltage_V",
          "lowest_voltage_V = 230\nhighest_voltage_V = 230",
          {"unit.toml:2: ", "not below highest_voltage_V, 230"}},
         {"voltage_V",
          "lowest_voltage_V = 115\nhighest_voltage_V = 230",
          {"too far below", "at least 171"}},
         {"voltage_V", "voltage_V = 230\nlowest_voltage_V = 208", {"beside a range"}}});
}

TEST(Nameplate, OfAnotherFrequencyIsRefused) {
    expect_each_refused(
        {{"frequency_Hz", "frequency_Hz = 55", {"unit.toml:3: ", "frequency_Hz is 55", "50 or 60"}},
         {"frequency_Hz", "frequency_Hz = 400", {"nameplate.frequency_Hz: 400"}},
         {"frequency_Hz", "", {"unit.toml:1: nameplate.frequency_Hz", "missing"}}});
}

TEST(Nameplate, WithCurrentsThatCannotBelongTogetherIsRefused) {
    expect_each_refused(
        {{"locked_rotor_current_A",
          "locked_rotor_current_A = 15",
          {"unit.toml:5: ", "no more than the 17.6 of rated_load_current_A", "44.0 to 158.4"}},
         {"locked_rotor_current_A", "locked_rotor_current_A = 40", {"2.3 times", "44.0 to 158.4"}},
         {"locked_rotor_current_A", "locked_rotor_current_A = 160", {"9.1 times"}},
         {"locked_rotor_current_A", "", {"nameplate.locked_rotor_current_A", "missing"}}});
}

TEST(Nameplate, WithACapacitorOfAnotherMotorIsRefused) {
    expect_each_refused(
        {{"run_capacitor_uF",
          "run_capacitor_uF = 145",
          {"unit.toml:6: ", "start capacitor", "at most 143"}},
         {"run_capacitor_uF", "run_capacitor_uF = 2", {"too little", "at least 3"}},
         {"run_capacitor_uF", "run_capacitor_uF = -4", {"nameplate.run_capacitor_uF: -4"}},
         {"run_capacitor_uF",
          "run_capacitor_uF = 40\nstart_thermistor_ohm = 10",
          {"unit.toml:7: ", "without a run capacitor"}}});
}

TEST(Nameplate, WithAPowerThatTheCurrentCannotCarryIsRefused) {
    expect_each_refused(
        {{"shaft_power_W", "", {"power_hp is missing", "at least one"}},
         {"shaft_power_W", "shaft_power_W = 4200", {"unit.toml:7: ", "4048 VA", "at most 3724"}},
         {"shaft_power_W", "power_hp = 5.5", {"unit.toml:7: ", "power_hp is 5.5", "at most 4.99"}},
         {"shaft_power_W", "shaft_power_W = 1500", {"at least 2024"}},
         {"shaft_power_W",
          "shaft_power_W = 3300\npower_hp = 3",
          {"unit.toml:7: ", "3 hp are 2237 W"}},
         {"shaft_power_W", "cooling_capacity_W = 1500", {"cooling_capacity_W is 1500", "2025 to"}},
         {"shaft_power_W", "cooling_capacity_W = 30000", {"to 18216"}},
         {"shaft_power_W",
          "shaft_power_W = 3300\ncooling_capacity_W = 30000",
          {"unit.toml:8: ", "9.09 times the power at the shaft"}}});
}

TEST(Nameplate, WithFiguresThatNoMotorHasTogetherIsRefused) {
    // Each figure is possible beside each other one, but not all of them on so small a capacitor.
    expect_each_refused({{"run_capacitor_uF",
                          "run_capacitor_uF = 4",
                          {"unit.toml:", " asks for ", "nearest motor", "give about that"}}},
                        right_nameplate_with("shaft_power_W", "shaft_power_W = 3700"));
}

TEST(Nameplate, WithAWordOrKeyOfNobodysIsRefused) {
    expect_each_refused({{"shaft_power_W",
                          "shaft_power_W = 3300\npoles = 3",
                          {"unit.toml:8: nameplate.poles: 3", "an even whole number from 2 to 4"}},
                         {"shaft_power_W",
                          "shaft_power_W = 3300\ncompressor = \"scrol\"",
                          {"nameplate.compressor", "did you mean \"scroll\""}},
                         {"shaft_power_W",
                          "shaft_power_W = 3300\ngas = \"air\"",
                          {"nameplate.gas", "give \"R410A\""}},
                         {"shaft_power_W",
                          "shaft_power_W = 3300\nlocked_rotor_curent_A = 90",
                          {"did you mean locked_rotor_current_A?"}}});
}

TEST(Nameplate, FileThatIsNoneIsRefused) {
    EXPECT_EQ(nameplate_fault("[nameplate\n").find("unit.toml:1: this is not valid TOML"), 0U);
    EXPECT_NE(nameplate_fault("").find("give [nameplate]"), std::string::npos);
    EXPECT_NE(nameplate_fault("nameplate = 3\n").find("not a table"), std::string::npos);
    EXPECT_NE(
        nameplate_fault(right_nameplate() + "[motor]\npoles = 2\n").find("unit.toml:8: motor"),
        std::string::npos);
}

TEST(Nameplate, MayGiveARangeAndTakesTheUpperEnd) {
    const sim::Nameplate plate =
        sim::parse_nameplate(sim_test::outdoor_unit(3, 17.6, 90, 40), "folder/unit.toml");
    EXPECT_EQ(plate.rated_voltage_V(), 230.0);
    EXPECT_EQ(plate.title, "unit");
    EXPECT_FALSE(plate.printed_shaft_W());
}

}  // namespace
