// The tables [[change]] of a scenario, as the reader takes them.
#include <gtest/gtest.h>

#include <string>

#include "scenario/scenario_text.hpp"

namespace {

using sim_test::fault_of;
using sim_test::right_scenario;

// The first change's header is line 31 of the text.
std::string fault_of_change(const std::string& keys) {
    return fault_of(right_scenario() + "[[change]]\n" + keys);
}

TEST(Change, MayBeGivenAsOftenAsWantedEachWithItsPlace) {
    const sim::Scenario scenario =
        sim::parse_scenario(right_scenario() + "[[change]]\nbefore_start = 3\nambient_C = 30\n\n" +
                                "[[change]]\nbefore_start = 9\nrest_between_s = 60\n",
                            "cellar.toml");
    ASSERT_EQ(scenario.changes.size(), 2U);
    EXPECT_EQ(scenario.changes[0].before_start, 3);
    EXPECT_EQ(scenario.changes[0].ambient_C, 30.0);
    EXPECT_FALSE(scenario.changes[0].rest_between_s.has_value());
    EXPECT_EQ(scenario.changes[0].line, 31);
    EXPECT_EQ(scenario.changes[1].before_start, 9);
    EXPECT_EQ(scenario.changes[1].rest_between_s, 60.0);
    EXPECT_EQ(scenario.changes[1].line, 35);
}

TEST(Change, IsRefusedInASentenceWithItsLine) {
    EXPECT_EQ(fault_of_change("before_start = 3\n"),
              "cellar.toml:32: change: before_start alone changes nothing; give what becomes "
              "different, too");
    EXPECT_EQ(fault_of_change("ambient_C = 3\n").find("cellar.toml:31: change.before_start: "), 0U);
    EXPECT_EQ(fault_of_change("before_start = 1\nambient_C = 3\n")
                  .find("cellar.toml:32: change.before_start: 1 is not accepted; give a whole "
                        "number from 2 to 10000"),
              0U);
    EXPECT_EQ(fault_of_change("before_start = 3\nambient = 3\n"),
              "cellar.toml:33: change.ambient: unknown key; did you mean ambient_C?");
    EXPECT_EQ(fault_of_change("before_start = 3\nambient_C = 3\n[[change]]\nbefore_start = 3\n"
                              "ambient_C = 4\n"),
              "cellar.toml:34: change.before_start: each change comes before a later start than "
              "the one above it; give more than 3");
    EXPECT_EQ(fault_of_change("before_start = 3\ncompressor = \"nobody\"\n")
                  .find("cellar.toml:33: change.compressor: \"nobody\" is not accepted; give "),
              0U);
}

TEST(Change, IsRefusedWhereTheScenarioHasNothingForIt) {
    const std::string inverter = sim_test::replaced(
        sim_test::replaced(right_scenario(), "kind = \"grid\"", "kind = \"inverter\""),
        "resistance_ohm = 0.25\ninductance_mH = 0.5\nphase_deg = 90\n",
        "peak_current_limit_A = 60\n");
    EXPECT_EQ(fault_of(inverter), "was read");
    const std::string fault =
        fault_of(inverter + "[[change]]\nbefore_start = 3\nline_voltage_factor = 0.9\n");
    EXPECT_NE(fault.find("change.line_voltage_factor: this [source] holds its voltage by itself"),
              std::string::npos)
        << fault;
    const std::string sixty =
        fault_of_change("before_start = 3\ncompressor = \"walk_in_freezer_230v_60hz\"\n");
    EXPECT_EQ(sixty.find("cellar.toml:31: "), 0U) << sixty;
    EXPECT_NE(sixty.find("60 Hz"), std::string::npos) << sixty;
}

TEST(Change, MustBeTablesAndNoOtherTableMayBeAList) {
    EXPECT_EQ(fault_of("change = 3\n" + right_scenario()),
              "cellar.toml:1: change: this is not a table; give [[change]] with its keys below");
    EXPECT_EQ(fault_of("change = []\n" + right_scenario()).find("cellar.toml:1: change: "), 0U);
    EXPECT_EQ(fault_of("change = [1, {before_start = 3}]\n" + right_scenario())
                  .find("cellar.toml:1: change: "),
              0U);
    EXPECT_NE(fault_of(right_scenario() + "[[run]]\nduration_s = 1\n")
                  .find("run: this is not a table; give [run] once"),
              std::string::npos);
}

TEST(Change, OfTheCompressorTakesItAsTheLibraryHasItAndTheRestFromTheScenario) {
    const sim::Scenario scenario = sim::parse_scenario(
        right_scenario() + "[contactor]\nkind = \"coil\"\n" +
            "[[change]]\nbefore_start = 3\ncompressor = \"cold_room_230v_50hz\"\n",
        "cellar.toml");
    ASSERT_TRUE(scenario.changes[0].exchanged.has_value());
    const sim::ExchangedUnit& unit = *scenario.changes[0].exchanged;
    EXPECT_EQ(unit.motor.main_resistance_ohm, 1.9315);
    EXPECT_EQ(unit.refrigerant.gas, "R134a");
    EXPECT_TRUE(std::holds_alternative<plant_models::LineBreakParameters>(unit.unit.protector));
    EXPECT_TRUE(std::holds_alternative<plant_models::ContactorParameters>(unit.unit.contactor))
        << "of the box";
    EXPECT_EQ(scenario.motor.main_resistance_ohm, 1.5) << "until then";
}

}  // namespace
