// Keys whose value is a word of a list: every word is read, any other is refused with the list, and
// a key that is left out has its documented word.
#include <gtest/gtest.h>

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "plant_models/refrigerant/gas.hpp"
#include "plant_models/wiring/conductor.hpp"
#include "scenario/scenario_text.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

using sim_test::fault_of;
using sim_test::replaced;
using sim_test::right_scenario;

/// `lines` become the table; the rest of the scenario fits them.
std::string with(const std::string& table, const std::string& lines) {
    std::string text = right_scenario();
    if (table == "source") {
        const std::size_t at = text.find("[source]");
        text.erase(at, text.find("[limiter]") - at);
    } else if (table == "load" || table == "refrigerant") {
        const std::size_t at = text.find("[load]");
        text.erase(at, text.find("[source]") - at);
    }
    if (table == "refrigerant") {
        text +=
            "[load]\nkind = \"scroll\"\ndisplacement_cm3 = 40\nbreakaway_torque_Nm = 0.5\n"
            "bearing_torque_Nm = 0.2\noil_torque_Nm = 0.3\nreference_speed_rpm = 2900\n";
    }
    return text + "[" + table + "]\n" + lines;
}

const std::string inverter =
    "kind = \"inverter\"\nvoltage_V = 230\nfrequency_Hz = 50\npeak_current_limit_A = 60\n";
const std::string scroll =
    "kind = \"scroll\"\ndisplacement_cm3 = 40\nbreakaway_torque_Nm = 0.5\n"
    "bearing_torque_Nm = 0.2\noil_torque_Nm = 0.3\nreference_speed_rpm = 2900\n";

struct WordKey {
    std::string table;
    std::string key;
    std::string common;  ///< lines beside it
    std::vector<std::string> words;
    std::string default_word;
    std::function<std::string_view(const sim::Scenario&)> value;
    /// Lines that this word needs beside it.
    std::function<std::string(const std::string&)> beside = [](const std::string&) {
        return std::string();
    };

    std::string text(const std::string& value_text, const std::string& more = "") const {
        return with(table, common + more + key + " = " + value_text + "\n");
    }
};

const plant_models::InverterParameters& inverter_of(const sim::Scenario& scenario) {
    return std::get<plant_models::InverterParameters>(scenario.source);
}

std::vector<std::string> sizes() {
    std::vector<std::string> words = {"none"};
    for (const plant_models::Conductor& conductor : plant_models::conductors()) {
        words.emplace_back(conductor.size);
    }
    return words;
}

std::string any_size(const std::string& word, const std::string& run) {
    return word == "none" ? "" : run + "_length_m = 20\n";
}

const std::vector<WordKey>& word_keys() {
    using S = sim::Scenario;
    static const std::vector<WordKey> keys = {
        {"refrigerant",
         "expansion",
         "",
         {"orifice", "bleed_valve", "tight_valve"},
         "orifice",
         [](const S& s) { return s.refrigerant.expansion; }},
        {"refrigerant",
         "gas",
         "",
         {"R410A", "R22", "R134a", "R290", "R32"},
         "R410A",
         [](const S& s) { return s.refrigerant.gas; },
         // Rated pressures that are in the range of each.
         [](const std::string&) { return std::string("condensing_C = 50\n"); }},
        {"load",
         "check_valve",
         scroll,
         {"fitted", "none"},
         "fitted",
         [](const S& s) { return std::get<plant_models::ScrollParameters>(s.load).check_valve; }},
        {"source",
         "limiting_method",
         inverter,
         {"reference_clamp", "switch_clamp", "virtual_impedance", "voltage_foldback"},
         "reference_clamp",
         [](const S& s) { return inverter_of(s).limiting_method; }},
        {"source",
         "overload_law",
         inverter,
         {"definite_time", "inverse_time"},
         "definite_time",
         [](const S& s) { return inverter_of(s).overload_law; }},
        {"source",
         "dc_side",
         inverter,
         {"stiff", "battery"},
         "stiff",
         [](const S& s) { return inverter_of(s).dc_side; },
         [](const std::string& word) {
             return word == "battery" ? std::string("battery_voltage_V = 51.2\n") : std::string();
         }},
        {"source",
         "connection",
         "kind = \"split_phase\"\nleg_voltage_V = 115\nfrequency_Hz = 50\n",
         {"leg_to_leg", "leg_to_neutral"},
         "leg_to_leg",
         [](const S& s) {
             return std::get<plant_models::SplitPhaseParameters>(s.source).connection;
         }},
        {"wiring", "service_size", "", sizes(), "none",
         [](const S& s) { return s.wiring.service_size; },
         [](const std::string& word) { return any_size(word, "service"); }},
        {"wiring", "branch_size", "", sizes(), "none",
         [](const S& s) { return s.wiring.branch_size; },
         [](const std::string& word) { return any_size(word, "branch"); }},
        {"run",
         "power_between_starts",
         "",
         {"on", "off"},
         "on",
         [](const S& s) { return s.run.power_between_starts; }},
        {"wiring",
         "material",
         "",
         {"copper", "aluminium"},
         "copper",
         [](const S& s) { return s.wiring.material; }},
    };
    return keys;
}

/// As messages list them.
std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t k = 0; k < words.size(); ++k) {
        text += (k == 0 ? "\"" : k + 1 == words.size() ? " or \"" : ", \"") + words[k] + "\"";
    }
    return text;
}

/// Lines up to and including that of the key, which `WordKey::text` puts last.
int last_line(const std::string& text) {
    int lines = 0;
    for (const char letter : text) {
        lines += letter == '\n' ? 1 : 0;
    }
    return lines;
}

TEST(WordKey, IsReadWithEachOfItsWords) {
    for (const WordKey& key : word_keys()) {
        for (const std::string& word : key.words) {
            const std::string text = key.text("\"" + word + "\"", key.beside(word));
            SCOPED_TRACE(key.table + "." + key.key + " = " + word);
            ASSERT_EQ(fault_of(text), "was read");
            EXPECT_EQ(key.value(sim::parse_scenario(text, "cellar.toml")), word);
        }
    }
}

TEST(WordKey, ThatIsLeftOutHasItsDocumentedWord) {
    for (const WordKey& key : word_keys()) {
        const sim::Scenario scenario =
            sim::parse_scenario(with(key.table, key.common), "cellar.toml");
        EXPECT_EQ(key.value(scenario), key.default_word) << key.table << "." << key.key;
    }
}

TEST(WordKey, RefusesAnyOtherWordWithTheWholeListAndTheLine) {
    for (const WordKey& key : word_keys()) {
        const std::string text = key.text("\"kitchen_radio\"");
        EXPECT_EQ(fault_of(text),
                  "cellar.toml:" + std::to_string(last_line(text)) + ": " + key.table + "." +
                      key.key + ": \"kitchen_radio\" is not accepted; give " + listed(key.words));
    }
}

TEST(WordKey, RefusesAWordWithASpaceAndSaysWhichWasMeant) {
    for (const WordKey& key : word_keys()) {
        const std::string& word = key.words.back();
        const std::string fault = fault_of(key.text("\"" + word + " \""));
        EXPECT_NE(fault.find(" is not accepted; give " + listed(key.words)), std::string::npos)
            << fault;
        EXPECT_NE(fault.find("(did you mean \"" + word + "\"?)"), std::string::npos) << fault;
    }
}

TEST(WordKey, RefusesEveryOtherType) {
    const std::vector<std::pair<std::string, std::string>> values = {
        {"1", "1"},
        {"1.5", "1.5"},
        {"true", "true"},
        {"[\"none\"]", "a list"},
        {"{a = 1}", "a table"},
        {"2026-01-01", "a date or time"},
        {"\"\"", "\"\""}};
    for (const WordKey& key : word_keys()) {
        for (const auto& [value, shown] : values) {
            const std::string fault = fault_of(key.text(value));
            EXPECT_NE(fault.find(": " + key.table + "." + key.key + ": " + shown +
                                 " is not accepted; give \""),
                      std::string::npos)
                << fault;
        }
    }
}

TEST(WordKey, MayBeGivenOnlyOnce) {
    for (const WordKey& key : word_keys()) {
        const std::string line = key.key + " = \"" + key.default_word + "\"\n";
        const std::string fault = fault_of(key.text("\"" + key.default_word + "\"") + line);
        EXPECT_NE(fault.find("this is not valid TOML"), std::string::npos) << fault;
    }
}

TEST(WordKeys, AreAllInThisTest) {
    // Walks the reader's own list, so that a new word key is missed here.
    std::set<std::string> tested;
    for (const WordKey& key : word_keys()) {
        tested.insert(key.table + "." + key.key);
    }
    // These have tests of their own.
    const std::set<std::string> elsewhere = {
        "library.compressor", "library.supply",   "change.compressor",
        "expect.outcome",     "limiter.ramp_law", "limiter.learning_law",
        "fault.when",         "fault.welds",      "fault.polarity"};
    sim::Scenario scratch;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        for (const sim::TableKind& kind : table.kinds) {
            for (const sim::Key& key : kind.begin().keys) {
                const std::string name = std::string(table.name) + "." + key.name;
                if (std::holds_alternative<sim::WordRule>(key.rule)) {
                    EXPECT_TRUE(tested.count(name) + elsewhere.count(name) == 1) << name;
                    tested.erase(name);
                }
            }
        }
    }
    EXPECT_TRUE(tested.empty()) << *tested.begin();
}

TEST(WordKeys, ReachTheModelsWithTheirMeaning) {
    // A word that is read but does nothing would pass every test above.
    const auto source = [](const std::string& lines) {
        return sim::parse_scenario(with("source", inverter + lines), "cellar.toml").source;
    };
    const auto battery = source("dc_side = \"battery\"\nbattery_voltage_V = 51.2\n");
    EXPECT_TRUE(std::get<plant_models::InverterParameters>(battery).has_battery());
    EXPECT_FALSE(std::get<plant_models::InverterParameters>(source("")).has_battery());
    const auto nominal_V = [](const std::string& connection) {
        return plant_models::nominal_voltage_V(
            sim::parse_scenario(with("source",
                                     "kind = \"split_phase\"\nleg_voltage_V = 115\n"
                                     "frequency_Hz = 50\nconnection = \"" +
                                         connection + "\"\n"),
                                "cellar.toml")
                .source);
    };
    EXPECT_DOUBLE_EQ(nominal_V("leg_to_leg"), 230.0);
    EXPECT_DOUBLE_EQ(nominal_V("leg_to_neutral"), 115.0);
    const auto wire_ohm = [](const std::string& material) {
        return plant_models::series_impedance(
                   sim::parse_scenario(with("wiring",
                                            "branch_size = \"10 mm2\"\nbranch_length_m = 20\n"
                                            "material = \"" +
                                                material + "\"\n"),
                                       "cellar.toml")
                       .wiring)
            .resistance_ohm;
    };
    EXPECT_GT(wire_ohm("aluminium"), 1.5 * wire_ohm("copper"));
}

}  // namespace
