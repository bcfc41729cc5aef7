// Tables that may be left out: without them everything has its documented default, and each of them
// is read, in every kind and every key.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "scenario/scenario_text.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

using sim_test::fault_of;
using sim_test::right_scenario;

sim::Scenario read(const std::string& text) {
    return sim::parse_scenario(text, "cellar.toml");
}

/// Tables that pump need a load that does.
std::string pumping_scenario() {
    std::string text = right_scenario();
    const std::size_t at = text.find("[load]");
    text.erase(at, text.find("[source]") - at);
    return text +
           "[load]\nkind = \"reciprocating\"\ndisplacement_cm3 = 40\nbreakaway_torque_Nm = 0.5\n"
           "bearing_torque_Nm = 0.2\noil_torque_Nm = 0.3\nreference_speed_rpm = 2900\n";
}

/// Each row of P's table: the member is at the row's default. Returns how many were looked at.
template <class P>
int expect_defaults(const P& parameters) {
    int rows = 0;
    for (const auto& row : P::table()) {
        if (row.default_value) {
            std::visit(
                [&](auto member) {
                    EXPECT_EQ(static_cast<double>(parameters.*member), *row.default_value)
                        << row.key;
                },
                row.member);
            ++rows;
        }
    }
    return rows;
}

template <class Choice>
std::string_view kind_of(const Choice& choice) {
    return std::visit([](const auto& one) { return one.kind; }, choice);
}

TEST(OptionalTables, ThatAreAbsentLeaveABareUnitAtItsDefaults) {
    const sim::Scenario scenario = read(right_scenario());
    EXPECT_TRUE(scenario.unit.is_bare());
    EXPECT_EQ(kind_of(scenario.unit.heat), "constant");
    EXPECT_EQ(kind_of(scenario.unit.protector), "none");
    EXPECT_EQ(kind_of(scenario.unit.protection_module), "none");
    EXPECT_EQ(kind_of(scenario.unit.contactor), "ideal");
    EXPECT_EQ(kind_of(scenario.unit.start_aid), "none");
    EXPECT_EQ(expect_defaults(scenario.conditions), 3);
    EXPECT_EQ(scenario.conditions.ambient_C, 25.0);
    EXPECT_EQ(scenario.conditions.rest_s, 300.0);
    EXPECT_EQ(expect_defaults(scenario.refrigerant), 6);
    EXPECT_EQ(scenario.refrigerant.gas, "R410A");
    EXPECT_EQ(scenario.refrigerant.expansion, "orifice");
    EXPECT_EQ(expect_defaults(scenario.wiring), 3);
    EXPECT_EQ(plant_models::series_impedance(scenario.wiring).resistance_ohm, 0.0);
    EXPECT_EQ(plant_models::series_impedance(scenario.wiring).inductance_H, 0.0);
    EXPECT_EQ(expect_defaults(scenario.run), 7);
    EXPECT_EQ(scenario.run.power_between_starts, "on");
    EXPECT_EQ(expect_defaults(scenario.limits), 11);
    EXPECT_TRUE(scenario.faults.empty());
    EXPECT_EQ(scenario.expect.outcome, sim::Outcome::running);
    EXPECT_EQ(scenario.library.compressor, nullptr);
    EXPECT_EQ(scenario.library.supply, nullptr);
    EXPECT_EQ(scenario.title, "cellar");
    EXPECT_TRUE(scenario.warnings.empty());
}

std::string number(double value, bool is_whole) {
    return is_whole ? fmt::format("{:.0f}", value) : fmt::format("{:.17g}", value);
}

/// A value that every key of the same kind accepts beside the others' defaults: 1 % off its
/// default, or, for one whose default is 0 or that must be given, something usual.
std::string unusual_value(const sim::Key& key) {
    static const std::map<std::string, double> usual = {{"ultimate_trip_A", 20},
                                                        {"trip_current_A", 90},
                                                        {"expected_start_current_A", 60},
                                                        {"running_current_A", 20},
                                                        {"start_capacitor_uF", 110},
                                                        {"cold_resistance_ohm", 22},
                                                        {"coil_voltage_V", 24},
                                                        {"pick_up_V", 300},
                                                        {"drop_out_V", 100},
                                                        {"maximum_resistance_ohm", 30000},
                                                        {"service_length_m", 12},
                                                        {"branch_length_m", 7},
                                                        {"oil_warming_K", 15},
                                                        {"call_off_s", 2},
                                                        {"call_on_s", 0.5},
                                                        {"initial_speed_rpm", -20},
                                                        {"ambient_C", 28},
                                                        {"rest_between_s", 310},
                                                        {"line_voltage_factor", 0.95},
                                                        {"run_capacitor_factor", 0.9},
                                                        {"friction_factor", 1.2},
                                                        {"run_capacitor_factor_per_start", 0.999},
                                                        {"friction_factor_per_start", 1.001}};
    const auto& rule = std::get<sim::NumberRule>(key.rule);
    if (const auto found = usual.find(key.name); found != usual.end()) {
        return number(found->second, rule.is_whole);
    }
    const double standing = key.default_text ? std::stod(*key.default_text) : 0.0;
    double value = standing == 0.0 ? 0.5 * (rule.lowest + rule.highest) : 1.01 * standing;
    value = rule.is_whole ? std::floor(value) + 1.0 : value;
    return number(std::min(value, standing == rule.highest ? 0.99 * standing : rule.highest),
                  rule.is_whole);
}

std::string unusual_word(const std::string& key) {
    static const std::map<std::string, std::string> words = {{"gas", "R134a"},
                                                             {"expansion", "tight_valve"},
                                                             {"service_size", "25 mm2"},
                                                             {"branch_size", "10 mm2"},
                                                             {"material", "aluminium"},
                                                             {"outcome", "stalled"},
                                                             {"power_between_starts", "off"},
                                                             {"compressor", "cold_room_230v_50hz"}};
    return words.at(key);
}

TEST(OptionalTables, AreReadInEveryKindWithEveryKeyGiven) {
    sim::Scenario scratch;
    int kinds = 0;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        if (table.is_required || table.name == sim::library_table ||
            table.name == sim::heading_table || table.name == "fault") {
            continue;  // a fault has tests of its own: fault_table_test.cpp
        }
        for (const sim::TableKind& kind : table.kinds) {
            std::string text = table.name == "refrigerant" ? pumping_scenario() : right_scenario();
            text += "[" + std::string(table.name) + "]\n";
            if (!kind.kind.empty()) {
                text += "kind = \"" + std::string(kind.kind) + "\"\n";
            }
            for (const sim::Key& key : kind.begin().keys) {
                const bool is_number = std::holds_alternative<sim::NumberRule>(key.rule);
                text += key.name + " = " +
                        (is_number ? unusual_value(key) : "\"" + unusual_word(key.name) + "\"") +
                        "\n";
            }
            EXPECT_EQ(fault_of(text), "was read") << text.substr(text.rfind('['));
            ++kinds;
        }
    }
    EXPECT_GE(kinds, 17);
}

/// Every double or int of P, in the table's order.
template <class P>
std::vector<double> values_of(const P& parameters) {
    std::vector<double> values;
    for (const auto& row : P::table()) {
        std::visit([&](auto member) { values.push_back(static_cast<double>(parameters.*member)); },
                   row.member);
    }
    return values;
}

/// Gives each key of P's table by itself, in a table of this name and kind, and expects that it
/// changes its own member to the value given, and no other.
template <class P, class Pick>
void expect_each_key_lands(const std::string& scenario, const std::string& table,
                           const std::string& always, Pick pick) {
    const std::vector<double> before =
        values_of(pick(read(scenario + "[" + table + "]\n" + always)));
    for (std::size_t k = 0; k < P::table().size(); ++k) {
        const auto& row = P::table()[k];
        const bool is_whole = std::holds_alternative<int P::*>(row.member);
        std::string others = always;
        if (const std::size_t at = others.find(std::string(row.key) + " =");
            at != std::string::npos) {
            others.erase(at, others.find('\n', at) + 1 - at);
        }
        // Near what it is without being it.
        double value = before[k] == 0.0 ? row.highest : 1.01 * before[k];
        value = std::min(is_whole ? std::round(value) + 1.0 : value, row.highest);
        if (value == before[k]) {
            value = is_whole ? value - 1.0 : 0.99 * value;
        }
        const std::string text = scenario + "[" + table + "]\n" + others + std::string(row.key) +
                                 " = " + number(value, is_whole) + "\n";
        SCOPED_TRACE(text.substr(text.rfind('[')));
        ASSERT_EQ(fault_of(text), "was read");
        const std::vector<double> after = values_of(pick(read(text)));
        for (std::size_t j = 0; j < after.size(); ++j) {
            EXPECT_EQ(after[j], j == k ? value : before[j]) << P::table()[j].key;
        }
    }
}

TEST(OptionalTables, StoreEachNumberInItsOwnPlace) {
    using namespace plant_models;
    const std::string plain = right_scenario();
    expect_each_key_lands<Conditions>(plain, "conditions", "",
                                      [](const sim::Scenario& s) { return s.conditions; });
    expect_each_key_lands<RefrigerantParameters>(
        pumping_scenario(), "refrigerant", "",
        [](const sim::Scenario& s) { return s.refrigerant; });
    expect_each_key_lands<HeatParameters>(
        plain, "heat", "kind = \"four_nodes\"\n",
        [](const sim::Scenario& s) { return std::get<HeatParameters>(s.unit.heat); });
    expect_each_key_lands<LineBreakParameters>(
        plain, "protector", "kind = \"line_break\"\nultimate_trip_A = 20\ntrip_current_A = 90\n",
        [](const sim::Scenario& s) { return std::get<LineBreakParameters>(s.unit.protector); });
    expect_each_key_lands<ProtectionModuleParameters>(
        plain, "protection_module",
        "kind = \"start_watch\"\nexpected_start_current_A = 60\nrunning_current_A = 20\n",
        [](const sim::Scenario& s) {
            return std::get<ProtectionModuleParameters>(s.unit.protection_module);
        });
    expect_each_key_lands<ContactorParameters>(
        plain, "contactor", "kind = \"coil\"\n",
        [](const sim::Scenario& s) { return std::get<ContactorParameters>(s.unit.contactor); });
    expect_each_key_lands<PotentialRelayParameters>(
        plain, "start_aid",
        "kind = \"capacitor_relay\"\nstart_capacitor_uF = 100\npick_up_V = 300\n"
        "drop_out_V = 100\n",
        [](const sim::Scenario& s) {
            return std::get<PotentialRelayParameters>(s.unit.start_aid);
        });
    expect_each_key_lands<ThermistorParameters>(
        plain, "start_aid", "kind = \"thermistor\"\ncold_resistance_ohm = 20\n",
        [](const sim::Scenario& s) { return std::get<ThermistorParameters>(s.unit.start_aid); });
    expect_each_key_lands<WiringParameters>(
        plain, "wiring",
        "service_size = \"25 mm2\"\nbranch_size = \"10 mm2\"\nservice_length_m = 12\n"
        "branch_length_m = 7\n",
        [](const sim::Scenario& s) { return s.wiring; });
    expect_each_key_lands<sim::RunSettings>(plain, "run", "",
                                            [](const sim::Scenario& s) { return s.run; });
}

TEST(OptionalTables, OfAKindNeedThatKind) {
    for (const std::string table :
         {"heat", "protector", "protection_module", "contactor", "start_aid"}) {
        const std::string text = right_scenario() + "[" + table + "]\n";
        const std::string fault = fault_of(text);
        EXPECT_EQ(fault.substr(0, 16 + table.size()), "cellar.toml:31: " + table) << fault;
        EXPECT_NE(fault.find(".kind: this key is missing; give \""), std::string::npos) << fault;
        const std::string wrong = fault_of(text + "kind = \"elsewhere\"\n");
        EXPECT_EQ(wrong.substr(0, 21 + table.size()), "cellar.toml:32: " + table + ".kind")
            << wrong;
        EXPECT_NE(wrong.find("\"elsewhere\" is not accepted; give \""), std::string::npos) << wrong;
    }
}

TEST(OptionalTables, ThatFitNothingTakeNoKeyButTheirKind) {
    const std::vector<std::pair<std::string, std::string>> nothing = {{"heat", "constant"},
                                                                      {"protector", "none"},
                                                                      {"protection_module", "none"},
                                                                      {"contactor", "ideal"},
                                                                      {"start_aid", "none"}};
    for (const auto& [table, kind] : nothing) {
        const std::string text = right_scenario() + "[" + table + "]\nkind = \"" + kind + "\"\n";
        ASSERT_EQ(fault_of(text), "was read");
        EXPECT_TRUE(read(text).unit.is_bare()) << table;
        EXPECT_EQ(fault_of(text + "opens_C = 100\n"),
                  "cellar.toml:33: " + table + ".opens_C: unknown key; [" + table + "] of kind \"" +
                      kind + "\" takes no key but kind");
    }
}

TEST(OptionalTables, OfEveryFittingMakeTheUnitNoLongerBare) {
    const std::vector<std::string> fittings = {
        "[heat]\nkind = \"four_nodes\"\n",
        "[protector]\nkind = \"line_break\"\nultimate_trip_A = 20\ntrip_current_A = 90\n",
        "[protection_module]\nkind = \"start_watch\"\nexpected_start_current_A = 60\n"
        "running_current_A = 20\n",
        "[contactor]\nkind = \"coil\"\n",
        "[start_aid]\nkind = \"capacitor_relay\"\nstart_capacitor_uF = 100\n",
        "[start_aid]\nkind = \"thermistor\"\ncold_resistance_ohm = 20\n"};
    for (const std::string& fitting : fittings) {
        EXPECT_FALSE(read(right_scenario() + fitting).unit.is_bare()) << fitting;
    }
}

}  // namespace
