// [[fault]] in a scenario: what is read, and what is refused with which sentence.
#include <gtest/gtest.h>

#include <string>
#include <variant>

#include "firmware/sequence/state.hpp"
#include "scenario/scenario_text.hpp"
#include "sim/scenario/fitting_together.hpp"

namespace {

using sim_test::fault_of;
using sim_test::replaced;
using sim_test::right_scenario;

/// With a limiter; the first line after it is 31.
std::string limited() {
    return replaced(right_scenario(), "[limiter]\nkind = \"none\"",
                    "[limiter]\nkind = \"builtin\"");
}

sim::Faults faults_in(const std::string& lines) {
    return sim::parse_scenario(limited() + lines, "cellar.toml").faults;
}

TEST(FaultTable, IsReadAsOftenAsItIsGivenInTheOrderOfTheFile) {
    const sim::Faults faults = faults_in(
        "[[fault]]\nkind = \"supply_voltage\"\nto_percent = 55\nat_s = 0.25\nduration_s = 0.1\n"
        "[[fault]]\nkind = \"thyristor_shorted\"\npolarity = \"negative\"\nwhen = \"climbing\"\n"
        "after_s = 0.03\n"
        "[[fault]]\nkind = \"call_removed\"\n");
    ASSERT_EQ(faults.size(), 3U);
    EXPECT_EQ(std::get<sim::SupplyVoltage>(faults[0].what).to_percent, 55.0);
    EXPECT_EQ(faults[0].timing.at_s, 0.25);
    EXPECT_EQ(faults[0].timing.duration_s, 0.1);
    EXPECT_FALSE(faults[0].timing.waits_for_state());
    EXPECT_EQ(std::get<sim::ThyristorShorted>(faults[1].what).polarity, "negative");
    EXPECT_EQ(faults[1].timing.when, "climbing");
    EXPECT_EQ(faults[1].timing.after_s, 0.03);
    EXPECT_EQ(faults[2].kind(), "call_removed");
    EXPECT_EQ(faults[2].timing.at_s, 0.0);
    EXPECT_EQ(faults[2].timing.duration_s, 0.0);
}

TEST(FaultTable, MayBeGivenOnceAsAPlainTable) {
    const sim::Faults faults = faults_in("[fault]\nkind = \"rotor_seized\"\n");
    ASSERT_EQ(faults.size(), 1U);
    EXPECT_EQ(faults[0].kind(), "rotor_seized");
}

TEST(FaultTable, ReadsEveryKindWithEveryKey) {
    sim::Scenario scratch;
    int kinds = 0;
    for (const sim::TableKind& kind : sim::fault_kinds(scratch.faults)) {
        std::string lines = "[[fault]]\nkind = \"" + std::string(kind.kind) + "\"\n";
        for (const sim::Key& key : kind.begin().keys) {
            if (const auto* number = std::get_if<sim::NumberRule>(&key.rule)) {
                // A time of its own would contradict the other one's origin.
                const bool is_after = key.name == "after_s";
                lines += key.name + " = " +
                         (is_after ? "0"
                          : number->is_whole
                              ? "100"
                              : std::to_string(0.5 * (number->lowest + number->highest))) +
                         "\n";
            } else {
                const auto& word = std::get<sim::WordRule>(key.rule);
                lines += key.name + " = \"" +
                         std::string(key.name == "when" ? "clock" : word.words.back()) + "\"\n";
            }
        }
        const sim::Faults faults = faults_in(lines);
        ASSERT_EQ(faults.size(), 1U) << lines;
        EXPECT_EQ(faults.front().kind(), kind.kind);
        EXPECT_FALSE(kind.meaning.empty()) << kind.kind;
        ++kinds;
    }
    EXPECT_EQ(kinds, 20);
}

TEST(FaultTable, WaitsForEveryStateOfTheController) {
    for (int k = 0; k < firmware::state_count; ++k) {
        std::string word = firmware::name_of(static_cast<firmware::State>(k));
        word = word.find(' ') == std::string::npos ? word : word.replace(word.find(' '), 1, "_");
        const sim::Faults faults =
            faults_in("[[fault]]\nkind = \"call_removed\"\nwhen = \"" + word + "\"\n");
        EXPECT_EQ(faults.at(0).timing.when, word);
    }
}

TEST(FaultTable, AFaultWithoutItsPartIsRefusedAtItsOwnLine) {
    EXPECT_EQ(fault_of(right_scenario() + "[[fault]]\nkind = \"call_removed\"\n"
                                          "[[fault]]\nkind = \"bypass_welded\"\n"),
              "cellar.toml:33: fault.kind: \"bypass_welded\" is a fault of a limiter; give a "
              "[limiter] that is not \"none\"");
    EXPECT_EQ(fault_of(limited() + "start_capacitor_uF = 0\n"
                                   "[[fault]]\nkind = \"start_contact_stuck_in\"\n"),
              "cellar.toml:32: fault.kind: \"start_contact_stuck_in\" needs a start capacitor; "
              "give [limiter] start_capacitor_uF above 0");
    EXPECT_EQ(fault_of(replaced(limited(), "run_capacitor_uF = 30", "run_capacitor_uF = 0") +
                       "[[fault]]\nkind = \"run_capacitor_open\"\n"),
              "cellar.toml:31: fault.kind: \"run_capacitor_open\" needs a run capacitor; give "
              "[motor] run_capacitor_uF of at least 0.5");
    EXPECT_EQ(
        fault_of(right_scenario() + "[[fault]]\nkind = \"call_removed\"\nwhen = \"climbing\"\n"),
        "cellar.toml:31: fault.kind: without a limiter no controller is ever \"climbing\"; "
        "give at_s, or a limiter");
    EXPECT_EQ(
        fault_of(right_scenario() + "[start_aid]\nkind = \"thermistor\"\ncold_resistance_ohm = 10\n"
                                    "[[fault]]\nkind = \"windings_swapped\"\n"),
        "cellar.toml:34: fault.kind: \"windings_swapped\" beside a start aid is not "
        "modelled; give [start_aid] kind = \"none\"");
}

TEST(FaultTable, TimesThatContradictEachOtherAreRefused) {
    EXPECT_EQ(fault_of(limited() + "[[fault]]\nkind = \"call_removed\"\nwhen = \"running\"\n"
                                   "at_s = 2\n"),
              "cellar.toml:34: fault: at_s counts from the beginning of the run; with a state as "
              "`when`, give after_s");
    EXPECT_EQ(fault_of(limited() + "[[fault]]\nkind = \"call_removed\"\nafter_s = 2\n"),
              "cellar.toml:33: fault: after_s counts from a state; give that state as `when`, or "
              "at_s");
}

TEST(FaultTable, SwappedWindingsHaveNoTime) {
    const std::string fault =
        fault_of(limited() + "[[fault]]\nkind = \"windings_swapped\"\nat_s = 1\n");
    EXPECT_NE(fault.find("cellar.toml:33: fault.at_s: unknown key"), std::string::npos) << fault;
}

TEST(FaultTable, AMistypedKindIsAnsweredWithTheOneThatWasMeant) {
    const std::string fault = fault_of(limited() + "[[fault]]\nkind = \"rotor_siezed\"\n");
    EXPECT_NE(fault.find("cellar.toml:32: fault.kind: \"rotor_siezed\" is not accepted"),
              std::string::npos)
        << fault;
    EXPECT_NE(fault.find("did you mean \"rotor_seized\"?"), std::string::npos) << fault;
}

}  // namespace
