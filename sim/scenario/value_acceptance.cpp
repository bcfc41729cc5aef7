#include "sim/scenario/value_acceptance.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "sim/files/quoting.hpp"

namespace sim {

namespace {

/// With the ".0" that makes 4.0 another type than 4.
std::string shown_decimal(double number) {
    const std::string text = fmt::format("{}", number);
    return text.find_first_not_of("-0123456789") == std::string::npos ? text + ".0" : text;
}

std::optional<double> accepted_number(const toml::node& value, const NumberRule& rule) {
    double number = 0.0;
    if (value.is_integer()) {
        // Exact up to 2^53, far beyond every bound.
        number = static_cast<double>(value.ref<int64_t>());
    } else if (value.is_floating_point() && !rule.is_whole) {
        number = value.ref<double>();
    } else {
        return std::nullopt;
    }
    // Written so that a NaN fails.
    const bool in_bounds = number >= rule.lowest && number <= rule.highest;
    if (!in_bounds || (rule.is_even && std::fmod(number, 2.0) != 0.0)) {
        return std::nullopt;
    }
    // Minus zero is in bounds, but nobody means it, and its sign would travel into the results.
    return number == 0.0 ? 0.0 : number;
}

std::optional<std::string> accepted_text(const toml::node& value, std::size_t most_bytes) {
    // Text that would have to be escaped in a report is not a title.
    const auto* text = value.as_string();
    if (text == nullptr || text->get().empty() || text->get().size() > most_bytes ||
        escaped(text->get()) != text->get()) {
        return std::nullopt;
    }
    return text->get();
}

/// One overload for each rule.
struct Accept {
    const toml::node& value;

    std::optional<KeyValue> operator()(const NumberRule& rule) const {
        if (const std::optional<double> number = accepted_number(value, rule)) {
            return KeyValue(*number);
        }
        return std::nullopt;
    }

    std::optional<KeyValue> operator()(const NumberListRule& rule) const {
        const toml::array* list = value.as_array();
        if (list == nullptr || list->size() < rule.fewest || list->size() > rule.most) {
            return std::nullopt;
        }
        // One wrong entry refuses the list: a ladder with a stage left out is another ladder.
        std::vector<double> numbers;
        for (const toml::node& element : *list) {
            const std::optional<double> number = accepted_number(element, rule.each);
            if (!number) {
                return std::nullopt;
            }
            numbers.push_back(*number);
        }
        return KeyValue(std::move(numbers));
    }

    std::optional<KeyValue> operator()(const WordRule& rule) const {
        const auto* word = value.as_string();
        if (word == nullptr ||
            std::find(rule.words.begin(), rule.words.end(), word->get()) == rule.words.end()) {
            return std::nullopt;
        }
        return KeyValue(word->get());
    }

    std::optional<KeyValue> operator()(const TextRule& rule) const {
        if (std::optional<std::string> text = accepted_text(value, rule.most_bytes)) {
            return KeyValue(*std::move(text));
        }
        return std::nullopt;
    }

    std::optional<KeyValue> operator()(const NameListRule& rule) const {
        if (std::optional<std::string> alone = accepted_text(value, rule.most_bytes)) {
            return KeyValue(std::vector<std::string>{*std::move(alone)});
        }
        const toml::array* list = value.as_array();
        if (list == nullptr || list->empty() || list->size() > rule.most) {
            return std::nullopt;
        }
        std::vector<std::string> names;
        for (const toml::node& element : *list) {
            std::optional<std::string> name = accepted_text(element, rule.most_bytes);
            if (!name) {
                return std::nullopt;
            }
            names.push_back(*std::move(name));
        }
        return KeyValue(std::move(names));
    }
};

}  // namespace

std::optional<KeyValue> accepted_value(const toml::node& value, const Rule& rule) {
    return std::visit(Accept{value}, rule);
}

std::string shown_value(const toml::node& value) {
    switch (value.type()) {
        case toml::node_type::string:
            return quoted(value.ref<std::string>());
        case toml::node_type::integer:
            return std::to_string(value.ref<int64_t>());
        case toml::node_type::floating_point:
            return shown_decimal(value.ref<double>());
        case toml::node_type::boolean:
            return value.ref<bool>() ? "true" : "false";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::table:
            return "a table";
        default:
            return "a date or time";
    }
}

}  // namespace sim
