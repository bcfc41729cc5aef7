// What no key says alone: keys and tables that must fit together. Each refusal is one sentence with
// file, line and key, and just inside its limit the same scenario is read.
#include "sim/scenario/fitting_together.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "plant_models/refrigerant/gas.hpp"
#include "plant_models/refrigerant/saturation.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::fault_of;
using sim_test::replaced;
using sim_test::right_scenario;

/// The text with its table `table` replaced by these lines, or with them added.
std::string with_table(std::string text, const std::string& table, const std::string& lines) {
    const std::string header = "[" + table + "]\n";
    if (const std::size_t at = text.find(header); at != std::string::npos) {
        const std::size_t next = text.find("\n[", at);
        text.erase(at, next == std::string::npos ? next : next + 1 - at);
    }
    return text + header + lines;
}

/// Counted from 1, of the last line that begins so.
int line_of(const std::string& text, const std::string& beginning) {
    const std::size_t at = text.rfind("\n" + beginning);
    int line = 1;
    for (std::size_t k = 0; k < at + 1 && k < text.size(); ++k) {
        line += text[k] == '\n' ? 1 : 0;
    }
    return line;
}

/// Counted from 1, of the first line that begins so.
int first_line_of(const std::string& text, const std::string& beginning) {
    const std::size_t at = ("\n" + text).find("\n" + beginning);
    return 1 +
           static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

/// One rule between keys of one table.
struct Rule {
    std::string table;
    std::string common;     ///< lines of the table in both cases
    std::string refused;    ///< a line just outside
    std::string accepted;   ///< a line just inside
    std::string points_at;  ///< beginning of the line that the message names
    std::string says;       ///< part of its sentence: what would be accepted
};

std::string inverter(const std::string& more) {
    return "kind = \"inverter\"\nvoltage_V = 230\nfrequency_Hz = 50\npeak_current_limit_A = 60\n" +
           more;
}
std::string from_battery(const std::string& more) {
    return inverter("dc_side = \"battery\"\n" + more);
}
std::string transformer(const std::string& more) {
    return "kind = \"transformer_inverter\"\nvoltage_V = 230\nfrequency_Hz = 50\n"
           "rated_power_W = 4000\n" +
           more;
}
std::string generator(const std::string& more) {
    return "kind = \"generator\"\nvoltage_V = 230\nfrequency_Hz = 50\nrated_power_VA = 5000\n" +
           more;
}
std::string grid(const std::string& more) {
    return "kind = \"grid\"\nvoltage_V = 230\nfrequency_Hz = 50\nresistance_ohm = 0.2\n"
           "inductance_mH = 0.2\nphase_deg = 0\n" +
           more;
}
std::string scroll(const std::string& more) {
    return "kind = \"scroll\"\ndisplacement_cm3 = 40\nbreakaway_torque_Nm = 0.5\n"
           "bearing_torque_Nm = 0.2\noil_torque_Nm = 0.3\nreference_speed_rpm = 2900\n" +
           more;
}
const std::string protector = "kind = \"line_break\"\nultimate_trip_A = 20\n";
const std::string thermistor = "kind = \"thermistor\"\ncold_resistance_ohm = 20\n";
const std::string relay = "kind = \"capacitor_relay\"\nstart_capacitor_uF = 100\n";
const std::string module = "kind = \"start_watch\"\nexpected_start_current_A = 24\n";
const std::string heat = "kind = \"four_nodes\"\n";
const std::string coil = "kind = \"coil\"\n";

std::vector<Rule> unit_rules() {
    return {
        {"protector", protector, "trip_current_A = 21.9\n", "trip_current_A = 22\n",
         "trip_current_A", "at least 1.1 x ultimate_trip_A"},
        {"protector", protector + "trip_current_A = 90\nopens_C = 110\n", "closes_C = 105.1\n",
         "closes_C = 105\n", "closes_C", "at least 5 K below opens_C"},
        {"protector", protector + "trip_current_A = 90\n", "opens_C = 75.9\n", "opens_C = 76\n",
         "opens_C", "closes_C must be at least 5 K below opens_C"},
        {"protector", protector + "trip_current_A = 90\ncloses_C = 60\n", "reference_C = 55.1\n",
         "reference_C = 55\n", "reference_C", "at least 5 K below closes_C"},
        {"protection_module", module, "running_current_A = 20.1\n", "running_current_A = 20\n",
         "expected_start_current_A", "at least 1.2 x running_current_A"},
        {"contactor", coil + "pick_up_percent = 60\n", "drop_out_percent = 58.1\n",
         "drop_out_percent = 58\n", "drop_out_percent", "at least 2 below pick_up_percent"},
        {"contactor", coil, "pick_up_percent = 46.9\n", "pick_up_percent = 47\n", "pick_up_percent",
         "drop_out_percent must be at least 2 below pick_up_percent"},
        {"contactor", coil, "coil_voltage_V = 9.9\n", "coil_voltage_V = 10\n", "coil_voltage_V",
         "0 or at least 10"},
        {"start_aid", relay, "pick_up_V = 9.9\n", "pick_up_V = 10\n", "pick_up_V",
         "0 or at least 10"},
        {"start_aid", relay + "pick_up_V = 300\n", "drop_out_V = 270.1\n", "drop_out_V = 270\n",
         "drop_out_V", "at most 0.9 x pick_up_V"},
        {"start_aid", relay + "drop_out_V = 80\n", "", "pick_up_V = 200\n", "drop_out_V",
         "together with pick_up_V"},
        {"start_aid", thermistor, "maximum_resistance_ohm = 1999\n",
         "maximum_resistance_ohm = 2000\n", "maximum_resistance_ohm",
         "at least 100 x cold_resistance_ohm"},
        {"heat", heat, "main_winding_mass_kg = 0.009\n", "main_winding_mass_kg = 0.01\n",
         "main_winding_mass_kg", "0 or at least 0.01"},
        {"heat", heat, "shell_mass_kg = 0.009\n", "shell_mass_kg = 0.01\n", "shell_mass_kg",
         "0 or at least 0.01"},
        {"heat", heat + "winding_time_constant_s = 900\nrunning_shell_time_constant_s = 600\n",
         "shell_time_constant_s = 900\n", "shell_time_constant_s = 901\n", "shell_time_constant_s",
         "longer than those of the windings and the rotor"},
        {"heat", heat + "shell_time_constant_s = 2000\n", "running_shell_time_constant_s = 2001\n",
         "running_shell_time_constant_s = 2000\n", "running_shell_time_constant_s",
         "at most shell_time_constant_s"},
    };
}

std::vector<Rule> wiring_rules() {
    const std::string service = "service_size = \"10 mm2\"\n";
    return {
        {"wiring", service, "", "service_length_m = 12\n", "service_size",
         "service_size and service_length_m must be given together"},
        {"wiring", "service_length_m = 12\n", "", service, "service_length_m",
         "service_size and service_length_m must be given together"},
        {"wiring", "branch_size = \"12 AWG\"\n", "branch_length_m = 0\n", "branch_length_m = 0.1\n",
         "branch_size", "branch_size and branch_length_m must be given together"},
        {"wiring", "branch_length_m = 8\n", "branch_size = \"none\"\n",
         "branch_size = \"12 AWG\"\n", "branch_size",
         "branch_size and branch_length_m must be given together"},
        {"wiring", "material = \"aluminium\"\nbranch_length_m = 8\n", "branch_size = \"6 mm2\"\n",
         "branch_size = \"10 mm2\"\n", "material", "\"copper\" for sizes below 10 mm2"},
    };
}

std::vector<Rule> inverter_rules() {
    return {
        {"source", from_battery(""), "", "battery_voltage_V = 51.2\n", "dc_side",
         "battery_voltage_V must be given with the dc_side \"battery\""},
        {"source", inverter(""), "battery_voltage_V = 51.2\n", "battery_voltage_V = 0\n",
         "battery_voltage_V", "need dc_side = \"battery\""},
        {"source", from_battery("bus_voltage_V = 400\n"), "battery_voltage_V = 400\n",
         "battery_voltage_V = 399\n", "battery_voltage_V", "below bus_voltage_V"},
        {"source", from_battery("battery_voltage_V = 51.2\n"), "battery_minimum_V = 51.2\n",
         "battery_minimum_V = 51.1\n", "battery_minimum_V", "below battery_voltage_V"},
        {"source", from_battery("battery_voltage_V = 51.2\nbattery_protection_A = 200\n"),
         "battery_short_circuit_A = 200\n", "battery_short_circuit_A = 201\n",
         "battery_short_circuit_A", "above battery_protection_A"},
        {"source", inverter("bus_voltage_V = 400\n"), "bus_minimum_V = 400\n",
         "bus_minimum_V = 399\n", "bus_minimum_V", "below bus_voltage_V"},
        // The crest of 230 V is 325.27 V.
        {"source", inverter("bus_minimum_V = 300\n"), "bus_voltage_V = 325.2\n",
         "bus_voltage_V = 325.3\n", "bus_voltage_V", "at least the crest of voltage_V"},
        // 60 A / sqrt 2 = 42.43 A.
        {"source", inverter("limiting_method = \"voltage_foldback\"\n"),
         "limited_current_A = 42.5\n", "limited_current_A = 42.4\n", "limited_current_A",
         "at most peak_current_limit_A / sqrt 2"},
        {"source", inverter(""), "limited_current_A = 30\n", "limited_current_A = 0\n",
         "limited_current_A", "\"virtual_impedance\" or \"voltage_foldback\""},
        {"source", inverter("limiting_method = \"virtual_impedance\"\nlimited_current_A = 40\n"),
         "virtual_threshold_A = 36.1\n", "virtual_threshold_A = 36\n", "virtual_threshold_A",
         "at most 0.9 x limited_current_A"},
        {"source", inverter("limiting_method = \"voltage_foldback\"\n"),
         "virtual_threshold_A = 20\n", "virtual_threshold_A = 0\n", "virtual_threshold_A",
         "belongs to the limiting_method \"virtual_impedance\""},
        {"source", inverter(""), "surge_power_W = 9000\n", "surge_power_W = 0\n", "surge_power_W",
         "belongs to the overload_law \"inverse_time\""},
        {"source", inverter(""), "surge_time_s = 4\n", "surge_time_s = 0\n", "surge_time_s",
         "belongs to the overload_law \"inverse_time\""},
        {"source", inverter("overload_law = \"inverse_time\"\nrated_current_A = 20\n"),
         "surge_power_W = 4645\n", "surge_power_W = 4647\n", "surge_power_W",
         "at least 1 % above voltage_V x rated_current_A"},
    };
}

std::vector<Rule> other_supply_rules() {
    return {
        {"source", transformer(""), "surge_power_W = 4399\n", "surge_power_W = 4400\n",
         "surge_power_W", "at least 1.1 x rated_power_W"},
        // 4000 W / 230 V has a crest of 24.6 A.
        {"source", transformer(""), "peak_current_A = 24.5\n", "peak_current_A = 24.7\n",
         "peak_current_A", "at least the crest of the rated current"},
        // 1.41421 x 230 / 51.2 = 6.353.
        {"source", transformer(""), "turns_ratio = 6.35\n", "turns_ratio = 6.36\n", "turns_ratio",
         "at least 1.414 x voltage_V / battery_voltage_V"},
        {"source", transformer("battery_current_A = 100\n"), "battery_surge_current_A = 109\n",
         "battery_surge_current_A = 110.1\n", "battery_surge_current_A",
         "at least 1.1 x battery_current_A"},
        {"source", transformer(""), "battery_minimum_V = 51.2\n", "battery_minimum_V = 51.1\n",
         "battery_minimum_V", "below battery_voltage_V"},
        // 20 milliohms in all: 5000 microfarads come to 100 microseconds.
        {"source", transformer("battery_resistance_ohm = 0.015\ncable_resistance_ohm = 0.005\n"),
         "input_capacitance_uF = 4990\n", "input_capacitance_uF = 5010\n", "input_capacitance_uF",
         "at least 100 microseconds"},
        {"source", generator(""), "engine_power_W = 599\n", "engine_power_W = 601\n",
         "engine_power_W", "at least twice the no-load loss"},
        {"source", generator("transient_reactance_percent = 30\n"),
         "synchronous_reactance_percent = 29.9\n", "synchronous_reactance_percent = 30\n",
         "synchronous_reactance_percent", "at least transient_reactance_percent"},
        {"source", generator("breaker_current_A = 30\n"), "breaker_instant_current_A = 42.4\n",
         "breaker_instant_current_A = 42.5\n", "breaker_instant_current_A",
         "at least the crest of breaker_current_A"},
        {"source", generator("underfrequency_knee_percent = 80\n"), "stall_speed_percent = 80\n",
         "stall_speed_percent = 79.9\n", "stall_speed_percent",
         "below underfrequency_knee_percent"},
        {"source", grid("sag_length_s = 0.5\n"), "sag_to_percent = 100\n",
         "sag_to_percent = 99.9\n", "sag_to_percent", "below 100 when times of a sag are given"},
        {"source", grid("sag_to_percent = 60\nsag_fall_s = 0.2\n"), "sag_length_s = 0.19\n",
         "sag_length_s = 0.2\n", "sag_length_s", "not shorter than sag_fall_s"},
    };
}

std::vector<Rule> load_rules() {
    return {
        // (wrap_turns - 0.5) (1 - 1/2.6) turns: one at 2.125, two at 3.75.
        {"load", scroll(""), "wrap_turns = 2.12\n", "wrap_turns = 2.13\n", "wrap_turns",
         "a compression of one to two turns"},
        {"load", scroll(""), "wrap_turns = 3.76\n", "wrap_turns = 3.74\n", "wrap_turns",
         "a compression of one to two turns"},
        {"load", scroll(""), "plenum_volume_cm3 = 9.9\n", "plenum_volume_cm3 = 10\n",
         "plenum_volume_cm3", "0 or at least a quarter of displacement_cm3"},
    };
}

std::vector<Rule> run_rules() {
    return {
        {"run", "call_on_s = 1\n", "call_off_s = 1\n", "call_off_s = 1.0001\n", "call_off_s",
         "later than call_on_s, or 0"},
        {"limits", "supply_low_percent = 100\n", "supply_high_percent = 100\n",
         "supply_high_percent = 100.1\n", "supply_low_percent", "below supply_high_percent"},
        {"limits", "supply_frequency_high_Hz = 50\n", "supply_frequency_low_Hz = 50\n",
         "supply_frequency_low_Hz = 49.9\n", "supply_frequency_low_Hz",
         "below supply_frequency_high_Hz"},
    };
}

void check_rules(const std::vector<Rule>& rules) {
    for (const Rule& rule : rules) {
        const std::string text =
            with_table(right_scenario(), rule.table, rule.common + rule.refused);
        SCOPED_TRACE(rule.table + ": " + rule.common + rule.refused);
        try {
            sim::parse_scenario(text, "cellar.toml");
            ADD_FAILURE() << "was read";
        } catch (const sim::InputError& error) {
            const std::string sentence = error.what();
            EXPECT_EQ(error.file(), "cellar.toml");
            EXPECT_EQ(error.line(), line_of(text, rule.points_at)) << sentence;
            EXPECT_EQ(error.key(), rule.table);
            EXPECT_NE(sentence.find(": " + rule.table + ": "), std::string::npos) << sentence;
            EXPECT_NE(sentence.find(rule.says), std::string::npos) << sentence;
            EXPECT_EQ(sentence.find('\n'), std::string::npos);
            EXPECT_NE(sentence.back(), '.');
        }
        EXPECT_EQ(fault_of(with_table(right_scenario(), rule.table, rule.common + rule.accepted)),
                  "was read")
            << rule.accepted;
    }
}

TEST(KeysOfOneTable, ThatContradictEachOtherInTheUnitAreRefusedAndJustInsideRead) {
    check_rules(unit_rules());
}

TEST(KeysOfOneTable, ThatContradictEachOtherInTheWiringAreRefusedAndJustInsideRead) {
    check_rules(wiring_rules());
}

TEST(KeysOfOneTable, ThatContradictEachOtherInAnInverterAreRefusedAndJustInsideRead) {
    check_rules(inverter_rules());
}

TEST(KeysOfOneTable, ThatContradictEachOtherInAnotherSupplyAreRefusedAndJustInsideRead) {
    check_rules(other_supply_rules());
}

TEST(KeysOfOneTable, ThatContradictEachOtherInALoadOrARunAreRefusedAndJustInsideRead) {
    check_rules(load_rules());
    check_rules(run_rules());
}

/// What a refusal between tables must have: the line of the key that it names, or of the table.
void expect_refusal(const std::string& text, const std::string& key, const std::string& says) {
    const std::string table = key.substr(0, key.find('.'));
    try {
        sim::parse_scenario(text, "cellar.toml");
        ADD_FAILURE() << "was read; expected " << key;
    } catch (const sim::InputError& error) {
        const std::string sentence = error.what();
        EXPECT_EQ(error.file(), "cellar.toml");
        EXPECT_EQ(error.key(), key);
        const std::string header = "[" + table + "]";
        const std::size_t at = ("\n" + text).find("\n" + header);
        ASSERT_NE(at, std::string::npos);
        const std::string from_table = text.substr(at);
        const int before = static_cast<int>(std::count(text.begin(), text.end(), '\n') -
                                            std::count(from_table.begin(), from_table.end(), '\n'));
        const std::string named = key == table ? header : key.substr(table.size() + 1) + " =";
        EXPECT_EQ(error.line(), before + first_line_of(from_table, named)) << sentence;
        EXPECT_NE(sentence.find(says), std::string::npos) << sentence;
        EXPECT_EQ(sentence.find('\n'), std::string::npos);
    }
}

std::string limited(const std::string& more = "") {
    return with_table(right_scenario(), "limiter", "kind = \"builtin\"\n" + more);
}

TEST(StartAid, BesideALimiterIsRefusedAndEitherAloneIsRead) {
    for (const std::string& aid : {relay, thermistor}) {
        expect_refusal(with_table(limited(), "start_aid", aid), "start_aid.kind",
                       "kind = \"none\", or [limiter] kind = \"none\"");
        EXPECT_EQ(fault_of(with_table(right_scenario(), "start_aid", aid)), "was read");
    }
    EXPECT_EQ(fault_of(with_table(limited(), "start_aid", "kind = \"none\"\n")), "was read");
}

TEST(RunCapacitor, OfNothingIsRefusedUnlessSomethingElseFeedsTheAuxiliaryWinding) {
    const auto without_capacitor = [](const std::string& text) {
        return replaced(text, "run_capacitor_uF = 30", "run_capacitor_uF = 0");
    };
    const std::string says = "give at least 0.5, or a [start_aid] of kind \"thermistor\"";
    expect_refusal(without_capacitor(right_scenario()), "motor.run_capacitor_uF", says);
    expect_refusal(without_capacitor(limited("start_capacitor_uF = 0\n")), "motor.run_capacitor_uF",
                   says);
    EXPECT_EQ(
        fault_of(replaced(right_scenario(), "run_capacitor_uF = 30", "run_capacitor_uF = 0.5")),
        "was read");
    EXPECT_EQ(fault_of(without_capacitor(with_table(right_scenario(), "start_aid", thermistor))),
              "was read");
    EXPECT_EQ(fault_of(without_capacitor(limited("start_capacitor_uF = 1\n"))), "was read");
}

TEST(Frequency, OfTheSupplyMayBeTwoAndAHalfHertzOffTheMotorsAndNoMore) {
    const auto at = [](const std::string& frequency_Hz) {
        return replaced(right_scenario(), "frequency_Hz = 50\nresistance",
                        "frequency_Hz = " + frequency_Hz + "\nresistance");
    };
    EXPECT_EQ(fault_of(at("47.5")), "was read");
    EXPECT_EQ(fault_of(at("52.5")), "was read");
    expect_refusal(at("47.49"), "source.frequency_Hz", "47.49 Hz does not fit a motor rated at 50");
    expect_refusal(at("52.51"), "source.frequency_Hz", "within 2.5 Hz of it");
}

std::string pumping(const std::string& load, const std::string& refrigerant) {
    return with_table(with_table(right_scenario(), "refrigerant", refrigerant), "load", load);
}

TEST(Refrigerant, IsRefusedForALoadThatPumpsNothing) {
    expect_refusal(with_table(right_scenario(), "refrigerant", "gas = \"R22\"\n"), "refrigerant",
                   "leave [refrigerant] out, or give a compressor as [load]");
    EXPECT_EQ(fault_of(pumping(scroll(""), "gas = \"R22\"\n")), "was read");
}

TEST(Clearance, ThatSwallowsTheRatedPressureRatioIsRefusedAtFourFifthsOfTheDisplacement) {
    // The clearance's gas comes back to suction pressure at c ((p_d / p_s)^(1/n) - 1) of the
    // displacement.
    using namespace plant_models;
    const Gas& gas = gas_named("R134a");
    const double ratio = saturation_pressure_kPa(gas, 60.0) / saturation_pressure_kPa(gas, -30.0);
    const double limit_percent =
        100.0 * 0.8 / (std::pow(ratio, 1.0 / gas.isentropic_exponent) - 1.0);
    ASSERT_GT(limit_percent, 2.0);
    ASSERT_LT(limit_percent, 19.0);
    const std::string refrigerant =
        "gas = \"R134a\"\nevaporating_C = -30\ncondensing_C = 60\nrated_ambient_C = 20\n";
    for (const std::string kind : {"reciprocating", "rolling_piston"}) {
        const auto text = [&](double percent) {
            return pumping("kind = \"" + kind +
                               "\"\ndisplacement_cm3 = 40\nbreakaway_torque_Nm = 0.5\n"
                               "bearing_torque_Nm = 0.2\noil_torque_Nm = 0.3\n"
                               "reference_speed_rpm = 2900\nclearance_percent = " +
                               std::to_string(percent) + "\n",
                           refrigerant);
        };
        expect_refusal(text(limit_percent + 0.001), "load",
                       "clearance_percent is too large for evaporating_C and condensing_C");
        EXPECT_EQ(fault_of(text(limit_percent - 0.001)), "was read") << kind;
    }
}

TEST(RatedPressures, MustLieInTheGasesRangeAndAroundTheRest) {
    const auto at = [](const std::string& lines) { return pumping(scroll(""), lines); };
    const auto expect_fault = [&](const std::string& lines, const std::string& says) {
        const std::string text = at(lines);
        const std::string place =
            "cellar.toml:" + std::to_string(line_of(text, lines)) + ": refrigerant: ";
        EXPECT_EQ(fault_of(text).substr(0, place.size() + says.size()), place + says);
    };
    expect_fault("condensing_C = 70\n",
                 "condensing_C must stay 1.5 K below the critical temperature of the gas");
    EXPECT_EQ(fault_of(at("condensing_C = 69.8\n")), "was read");
    expect_fault("rated_ambient_C = 7.2\n",
                 "rated_ambient_C must lie well between evaporating_C and condensing_C");
    expect_fault("rated_ambient_C = 54.4\n", "rated_ambient_C must lie well between");
    EXPECT_EQ(fault_of(at("rated_ambient_C = 30\n")), "was read");
}

std::vector<std::string> warnings_of(const std::string& text) {
    return sim::parse_scenario(text, "cellar.toml").warnings;
}

TEST(SupplyVoltage, OutsideEightyToHundredAndTwentyPercentOfTheMotorsIsReadWithAWarning) {
    const auto at = [](const std::string& voltage_V) {
        return replaced(right_scenario(), "voltage_V = 235.5", "voltage_V = " + voltage_V);
    };
    for (const std::string inside : {"184", "230", "276"}) {
        EXPECT_TRUE(warnings_of(at(inside)).empty()) << inside;
    }
    for (const std::string outside : {"183.9", "276.1"}) {
        EXPECT_EQ(warnings_of(at(outside)).size(), 1U) << outside;
    }
    const std::vector<std::string> warnings = warnings_of(at("161"));
    ASSERT_EQ(warnings.size(), 1U);
    for (const std::string part : {"161 V", "70 %", "230 V"}) {
        EXPECT_NE(warnings.front().find(part), std::string::npos) << warnings.front();
    }
}

TEST(SupplyVoltage, OfASplitPhaseIsTakenBetweenTheConductorsThatFeedTheUnit) {
    const auto on = [](const std::string& connection) {
        return with_table(right_scenario(), "source",
                          "kind = \"split_phase\"\nfrequency_Hz = 50\nleg_voltage_V = 115\n"
                          "connection = \"" +
                              connection + "\"\n");
    };
    EXPECT_TRUE(warnings_of(on("leg_to_leg")).empty());
    const std::vector<std::string> warnings = warnings_of(on("leg_to_neutral"));
    ASSERT_EQ(warnings.size(), 1U);
    EXPECT_NE(warnings.front().find("115 V is 50 %"), std::string::npos) << warnings.front();
}

TEST(Drag, ThatWouldStopTheRotorWithinMicrosecondsIsRefused) {
    // 5 N m at 1450 r/min is nothing; the same at 20 r/min is a brake.
    const std::string sentence =
        sim_test::fault_with("reference_speed_rpm = 1450", "reference_speed_rpm = 10");
    EXPECT_NE(sentence.find("cellar.toml:20: load: square_torque_Nm "), std::string::npos)
        << sentence;
    EXPECT_NE(sentence.find("higher reference_speed_rpm"), std::string::npos) << sentence;
    EXPECT_EQ(sim_test::fault_with("reference_speed_rpm = 1450", "reference_speed_rpm = 100"),
              "was read");
}

TEST(Motor, WhoseNumbersNoWindingHasIsRefused) {
    EXPECT_NE(sim_test::fault_with("run_capacitor_uF = 30", "run_capacitor_uF = 0.4")
                  .find("cellar.toml:14: motor: run_capacitor_uF must be 0 or at least 0.5"),
              std::string::npos);
    EXPECT_EQ(sim_test::fault_with("run_capacitor_uF = 30", "run_capacitor_uF = 0.5"), "was read");
    // Leakage of main winding and rotor: 0.5 and 2.75 ohm.
    const std::string little_leakage = replaced(
        right_scenario(), "main_leakage_reactance_ohm = 2.5", "main_leakage_reactance_ohm = 0.5");
    EXPECT_NE(sim_test::fault_of(replaced(little_leakage, "rotor_resistance_ohm = 2.25",
                                          "rotor_resistance_ohm = 190"))
                  .find("cellar.toml:10: motor: rotor_resistance_ohm must be at most 50 x"),
              std::string::npos);
    EXPECT_NE(sim_test::fault_with("main_leakage_reactance_ohm = 2.5\naux_resistance_ohm = 4.5",
                                   "main_leakage_reactance_ohm = 2.5\naux_resistance_ohm = 499")
                  .find("cellar.toml:7: motor: aux_resistance_ohm must be at most 50 x"),
              std::string::npos);
}

}  // namespace
