// Walks every table, every kind and every key that a scenario may have. A parameter, a supply or a
// load that is added later is tested here without a change.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "scenario/scenario_text.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

using sim::Key;
using sim::NumberListRule;
using sim::NumberRule;
using Values = std::map<std::string, std::string>;  // key -> TOML text

std::string number(double value, bool is_whole) {
    return is_whole ? fmt::format("{:.0f}", value) : fmt::format("{:.17g}", value);
}

/// The shortest right table: each key that must be given, at its lowest bound.
Values shortest(const sim::Keys& keys) {
    Values values;
    for (const Key& key : keys) {
        if (!key.default_text && std::holds_alternative<sim::TextRule>(key.rule)) {
            // The only text that must be given: a library, which is loaded while the file is read.
            EXPECT_EQ(key.name, "path");
            values[key.name] = "\"" RUNUP_EXAMPLES "/fixed_angle_ramp.so\"";
        } else if (!key.default_text) {
            const auto& rule = std::get<NumberRule>(key.rule);
            values[key.name] = number(rule.lowest, rule.is_whole);
        }
    }
    return values;
}

std::string table_text(const sim::ScenarioTable& table, const sim::TableKind& kind,
                       const Values& values) {
    std::string text = "[" + std::string(table.name) + "]\n";
    if (!kind.kind.empty()) {
        text += "kind = \"" + std::string(kind.kind) + "\"\n";
    }
    for (const auto& [key, value] : values) {
        text += key + " = " + value + "\n";
    }
    // A change that changes nothing is refused.
    text += table.name == sim::change_table && values.size() == 1 ? "rest_between_s = 60\n" : "";
    return text;
}

/// What the other tables need so that the one under test makes sense (fitting_together.hpp).
struct Company {
    std::string frequency_Hz;
    bool has_thermistor;
    bool has_limiter;
};

/// Of the table under test: what it says about its frequency, or what it takes for granted.
std::string frequency_of(const sim::ScenarioTable& table, const sim::Keys& keys,
                         const Values& values) {
    for (const Key& key : keys) {
        // A fault's frequency is one that the motor was never made for.
        if (table.name == "fault" ||
            (key.name != "frequency_Hz" && key.name != "rated_frequency_Hz")) {
            continue;
        }
        const auto given = values.find(key.name);
        const std::string text =
            given == values.end() ? key.default_text.value_or("") : given->second;
        // What is missing or out of bounds is refused before anything is compared.
        const bool comparable = text.size() == 2;
        return comparable ? text : "50";
    }
    EXPECT_NE(table.name, "motor");
    return "50";
}

Company company_of(const sim::ScenarioTable& table, const sim::TableKind& kind,
                   const Values& values) {
    const auto capacitor = values.find("run_capacitor_uF");
    return {frequency_of(table, kind.begin().keys, values),
            capacitor != values.end() && capacitor->second == "0", table.name == "fault"};
}

/// The shortest table of the last kind, which for a load is a compressor with a refrigerant.
std::string companion_text(const sim::ScenarioTable& table, const Company& company) {
    const bool is_limiter = table.name == "limiter";
    const sim::TableKind& kind = (is_limiter && !company.has_limiter) || table.name == "source"
                                     ? table.kinds.front()
                                     : table.kinds.back();
    Values values = shortest(kind.begin().keys);
    for (auto& [key, value] : values) {
        if (key == "frequency_Hz" || key == "rated_frequency_Hz") {
            value = company.frequency_Hz;
        } else if (key == "run_capacitor_uF") {
            value = "20";
        }
    }
    return table_text(table, kind, values);
}

/// A whole scenario with the given kind of the given table holding `values`.
std::string scenario_with(const sim::ScenarioTable& table, const sim::TableKind& kind,
                          const Values& values) {
    sim::Scenario scratch;
    const Company company = company_of(table, kind, values);
    std::string text = table_text(table, kind, values);
    for (const sim::ScenarioTable& other : sim::scenario_tables(scratch)) {
        if (other.is_required && other.name != table.name) {
            text += companion_text(other, company);
        }
    }
    if (company.has_thermistor) {
        text += "[start_aid]\nkind = \"thermistor\"\ncold_resistance_ohm = 10\n";
    }
    return text;
}

/// Key that reading the text complains about; empty if it is read.
std::string refused_key(const std::string& text) {
    try {
        sim::parse_scenario(text, "walk.toml");
    } catch (const sim::InputError& error) {
        EXPECT_EQ(error.file(), "walk.toml");
        EXPECT_GT(error.line(), 0) << error.what();
        EXPECT_NE(std::string(error.what()).find(error.key()), std::string::npos);
        return error.key();
    }
    return "";
}

using Visit = std::function<void(const sim::ScenarioTable&, const sim::TableKind&, const Key&,
                                 const Values& shortest_values)>;

int for_every_key(const Visit& visit) {
    sim::Scenario scratch;
    int count = 0;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        for (const sim::TableKind& kind : table.kinds) {
            const sim::TableForm form = kind.begin();
            for (const Key& key : form.keys) {
                SCOPED_TRACE(fmt::format("[{}] {} {}", table.name, kind.kind, key.name));
                visit(table, kind, key, shortest(form.keys));
                ++count;
            }
        }
    }
    return count;
}

std::string full_name(const sim::ScenarioTable& table, const Key& key) {
    return std::string(table.name) + "." + key.name;
}

TEST(ScenarioBounds, TheShortestScenarioOfEveryKindIsRead) {
    sim::Scenario scratch;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        for (const sim::TableKind& kind : table.kinds) {
            EXPECT_EQ(refused_key(scenario_with(table, kind, shortest(kind.begin().keys))), "")
                << table.name << " " << kind.kind;
        }
    }
}

TEST(ScenarioBounds, EveryNumberIsRefusedJustOutsideItsBoundsByItsName) {
    const int keys =
        for_every_key([](const auto& table, const auto& kind, const Key& key, Values values) {
            const auto* rule = std::get_if<NumberRule>(&key.rule);
            if (rule == nullptr) {
                return;
            }
            for (const double bound : {rule->lowest, rule->highest}) {
                const double step = rule->is_whole ? 1.0 : std::max(1e-12, std::abs(bound) * 1e-12);
                values[key.name] =
                    number(bound == rule->lowest ? bound - step : bound + step, rule->is_whole);
                EXPECT_EQ(refused_key(scenario_with(table, kind, values)), full_name(table, key))
                    << values[key.name];
            }
        });
    EXPECT_GT(keys, 60);
}

TEST(ScenarioBounds, EveryNumberIsAcceptedAtItsBounds) {
    std::set<std::string> never_read;
    for_every_key([&](const auto& table, const auto& kind, const Key& key, Values values) {
        const auto* rule = std::get_if<NumberRule>(&key.rule);
        if (rule == nullptr) {
            return;
        }
        int read = 0;
        for (const double bound : {rule->lowest, rule->highest}) {
            values[key.name] = number(bound, rule->is_whole);
            const std::string refused = refused_key(scenario_with(table, kind, values));
            // A bound may contradict another key; then the table as a whole is refused, not the
            // key.
            EXPECT_TRUE(refused.empty() || refused == table.name) << refused;
            read += refused.empty() ? 1 : 0;
        }
        if (read == 0) {
            never_read.insert(full_name(table, key));
        }
    });
    // Those lie between others: a scroll compresses over one to two turns of its wraps, and the air
    // at the rating is between the two saturation temperatures.
    EXPECT_EQ(never_read, (std::set<std::string>{"load.wrap_turns", "refrigerant.condensing_C",
                                                 "refrigerant.rated_ambient_C"}));
}

TEST(ScenarioBounds, EveryKeyRefusesWhatIsNotItsType) {
    for_every_key([](const auto& table, const auto& kind, const Key& key, Values values) {
        std::vector<std::string> wrong = {"true", "{a = 1}", "1979-05-27", "[[1]]", "[]", "['a']"};
        if (const auto* rule = std::get_if<NumberRule>(&key.rule)) {
            wrong.insert(wrong.end(), {"nan", "-nan", "inf", "-inf", "'1'"});
            if (rule->is_whole) {
                wrong.push_back(fmt::format("{:.1f}", rule->highest));
            }
        } else if (std::holds_alternative<NumberListRule>(key.rule)) {
            wrong.insert(wrong.end(), {"nan", "1", "'1'", "[nan]"});
        } else {
            wrong.insert(wrong.end(), {"1", "nan", "''", "\"\\u0000\""});
        }
        for (const std::string& text : wrong) {
            values[key.name] = text;
            EXPECT_EQ(refused_key(scenario_with(table, kind, values)), full_name(table, key))
                << text;
        }
    });
}

TEST(ScenarioBounds, EveryListRefusesOneEntryOutsideTheBoundsAndTooManyEntries) {
    int lists = 0;
    for_every_key([&](const auto& table, const auto& kind, const Key& key, Values values) {
        const auto* rule = std::get_if<NumberListRule>(&key.rule);
        if (rule == nullptr) {
            return;
        }
        ++lists;
        const std::string low = number(rule->each.lowest, rule->each.is_whole);
        std::string many = "[" + low;
        for (std::size_t i = 0; i < rule->most; ++i) {
            many += ", " + low;
        }
        for (const std::string& text :
             {"[" + low + ", " + number(rule->each.lowest - 1, rule->each.is_whole) + "]",
              "[" + low + ", " + number(rule->each.highest + 1, rule->each.is_whole) + "]",
              many + "]"}) {
            values[key.name] = text;
            EXPECT_EQ(refused_key(scenario_with(table, kind, values)), full_name(table, key))
                << text;
        }
    });
    EXPECT_GE(lists, 2);
}

TEST(ScenarioBounds, EveryRequiredKeyIsMissedByItsName) {
    int required = 0;
    for_every_key([&](const auto& table, const auto& kind, const Key& key, Values values) {
        if (values.erase(key.name) > 0) {
            ++required;
            EXPECT_EQ(refused_key(scenario_with(table, kind, values)), full_name(table, key));
        }
    });
    EXPECT_GT(required, 20);
}

TEST(ScenarioBounds, EveryKeyMistypedByOneLetterIsRecognised) {
    for_every_key([](const auto& table, const auto& kind, const Key& key, Values values) {
        std::string mistyped = key.name;
        mistyped.insert(mistyped.size() / 2, "q");
        values[mistyped] = "1";
        try {
            sim::parse_scenario(scenario_with(table, kind, values), "walk.toml");
            ADD_FAILURE() << "was read";
        } catch (const sim::InputError& error) {
            EXPECT_EQ(error.key(), std::string(table.name) + "." + mistyped);
            EXPECT_NE(std::string(error.what()).find("did you mean " + key.name + "?"),
                      std::string::npos)
                << error.what();
        }
    });
}

TEST(ScenarioBounds, NoTableHasTheSameKeyTwice) {
    sim::Scenario scratch;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        for (const sim::TableKind& kind : table.kinds) {
            std::map<std::string, int> seen = {{"kind", 1}};
            for (const Key& key : kind.begin().keys) {
                EXPECT_EQ(++seen[key.name], 1) << table.name << "." << key.name;
            }
        }
    }
}

/// The keys of a form against the parameter table that they were made from.
template <class P>
void expect_keys_mirror(const sim::Keys& keys) {
    for (const plant_models::Parameter<P>& row : P::table()) {
        const auto key = std::find_if(keys.begin(), keys.end(),
                                      [&row](const Key& one) { return one.name == row.key; });
        ASSERT_NE(key, keys.end()) << row.key;
        const auto& rule = std::get<NumberRule>(key->rule);
        EXPECT_EQ(rule.lowest, row.lowest) << row.key;
        EXPECT_EQ(rule.highest, row.highest) << row.key;
        EXPECT_EQ(rule.is_whole, std::holds_alternative<int P::*>(row.member)) << row.key;
        EXPECT_EQ(key->default_text.has_value(), row.default_value.has_value()) << row.key;
        EXPECT_EQ(key->meaning, row.meaning) << row.key;
    }
}

TEST(ScenarioBounds, TheKeysSayWhatTheParameterTablesSay) {
    sim::Scenario scratch;
    std::map<std::string_view, std::vector<sim::TableKind>> kinds;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scratch)) {
        kinds[table.name] = table.kinds;
    }
    expect_keys_mirror<plant_models::MotorParameters>(kinds["motor"].at(0).begin().keys);
    expect_keys_mirror<plant_models::PolynomialLoadParameters>(kinds["load"].at(0).begin().keys);
    expect_keys_mirror<plant_models::ReciprocatingParameters>(kinds["load"].at(1).begin().keys);
    expect_keys_mirror<plant_models::GridParameters>(kinds["source"].at(0).begin().keys);
    expect_keys_mirror<plant_models::InverterParameters>(kinds["source"].at(2).begin().keys);
    expect_keys_mirror<plant_models::LimiterParameters>(kinds["limiter"].at(1).begin().keys);
    expect_keys_mirror<sim::RunSettings>(kinds["run"].at(0).begin().keys);
    expect_keys_mirror<sim::SafetyLimits>(kinds["limits"].at(0).begin().keys);
}

}  // namespace
