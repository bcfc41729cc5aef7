#include "sim/replay/recorded_settings.hpp"

#include <toml++/toml.h>

#include <cmath>
#include <cstdint>
#include <optional>
#include <string_view>
#include <variant>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/controller_setting_rows.hpp"
#include "sim/scenario/controller_settings.hpp"
#include "sim/scenario/value_acceptance.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;
using firmware::Settings;

/// A key whose unit is the controller's own takes whole numbers only.
Json number_json(std::int32_t count, double per_unit) {
    return per_unit == 1.0 ? Json(count) : Json(count / per_unit);
}

/// The word of a rule that makes a scratch copy equal to `settings` in the place that it sets.
std::string word_in_use(const Settings& settings, std::size_t key_index) {
    Settings scratch;
    Keys keys;
    append_controller_keys(keys, scratch);
    const Key& key = keys.at(key_index);
    for (const std::string_view word : std::get<WordRule>(key.rule).words) {
        scratch.ramp_law = settings.ramp_law;
        scratch.learning_law = settings.learning_law;
        key.store(std::string(word));
        if (scratch.ramp_law == settings.ramp_law &&
            scratch.learning_law == settings.learning_law) {
            return std::string(word);
        }
    }
    return {};
}

toml::array list_of(const Json& json) {
    toml::array list;
    for (const Json& element : json) {
        if (element.is_number_integer()) {
            list.push_back(element.get<std::int64_t>());
        } else if (element.is_number()) {
            list.push_back(element.get<double>());
        } else {
            list.push_back(element.dump());
        }
    }
    return list;
}

/// None for what no key takes, such as a table.
std::optional<KeyValue> accepted(const Json& json, const Rule& rule) {
    if (json.is_number_integer()) {
        return accepted_value(toml::value<std::int64_t>(json.get<std::int64_t>()), rule);
    }
    if (json.is_number()) {
        return accepted_value(toml::value<double>(json.get<double>()), rule);
    }
    if (json.is_string()) {
        return accepted_value(toml::value<std::string>(json.get<std::string>()), rule);
    }
    return json.is_array() ? accepted_value(list_of(json), rule) : std::nullopt;
}

[[noreturn]] void fail(const std::string& file, const std::string& key, const std::string& fault) {
    throw InputError(file, 1, "settings." + shortened(key, 60), fault);
}

const Key& known_key(const Keys& keys, const std::string& name, const std::string& file) {
    std::vector<std::string_view> names;
    for (const Key& key : keys) {
        if (key.name == name) {
            return key;
        }
        names.push_back(key.name);
    }
    const auto meant = closest_word(name, names);
    fail(file, name,
         "this build's controller has no such setting; " +
             (meant ? "did you mean " + std::string(*meant) + "?"
                    : std::string("take the line out, or give --settings SCENARIO")));
}

}  // namespace

Json settings_json(const Settings& settings) {
    Settings scratch;
    Keys keys;
    append_controller_keys(keys, scratch);
    Json json = Json::object();
    for (std::size_t k = 0; k < keys.size(); ++k) {
        if (std::holds_alternative<WordRule>(keys[k].rule)) {
            json[keys[k].name] = word_in_use(settings, k);
        }
    }
    for (const StageList& list : stage_lists()) {
        Json values = Json::array();
        for (std::size_t k = 0; k < static_cast<std::size_t>(settings.stage_count); ++k) {
            values.push_back(number_json(settings.stages.at(k).*list.field, list.per_unit));
        }
        json[std::string(list.key)] = values;
    }
    for (const NumberSetting& row : number_settings()) {
        json[std::string(row.key)] = number_json(settings.*row.field, row.per_unit);
    }
    return json;
}

Settings settings_from_json(const Json& json, const std::string& file) {
    Settings settings;
    Keys keys;
    append_controller_keys(keys, settings);
    for (const auto& [name, value] : json.items()) {
        const Key& key = known_key(keys, name, file);
        const std::optional<KeyValue> taken = accepted(value, key.rule);
        if (!taken) {
            fail(file, name,
                 shortened(value.dump(), 40) + " is not accepted; give " + accepted_by(key.rule));
        }
        key.store(*taken);
    }
    const std::string problem = controller_problem(settings);
    if (!problem.empty()) {
        const std::size_t blank = problem.find(' ');
        fail(file, problem.substr(0, blank), problem.substr(blank + 1));
    }
    return settings;
}

}  // namespace sim
