#include "sim/scenario/table_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>
#include <utility>
#include <vector>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"

namespace sim {

namespace {

constexpr std::string_view kind_key = "kind";
constexpr std::size_t most_name_bytes = 60;

struct GivenKey {
    int line;
    std::string_view name;
    const toml::node* value;
};

std::vector<GivenKey> in_file_order(const toml::table& given) {
    std::vector<std::pair<toml::source_position, GivenKey>> found;
    for (const auto& [key, value] : given) {
        found.emplace_back(key.source().begin, GivenKey{line_of(key), key.str(), &value});
    }
    std::sort(found.begin(), found.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<GivenKey> keys;
    for (const auto& [position, key] : found) {
        keys.push_back(key);
    }
    return keys;
}

/// With the ".0" that makes 4.0 another type than 4.
std::string shown_decimal(double number) {
    const std::string text = fmt::format("{}", number);
    return text.find_first_not_of("-0123456789") == std::string::npos ? text + ".0" : text;
}

std::string shown(const toml::node& value) {
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

std::optional<double> accepted_number(const toml::node& value, const NumberRule& rule) {
    double number = 0.0;
    if (value.is_integer()) {
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

/// The value in the form that the rule stores, or none if the rule does not accept it.
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
        const auto* text = value.as_string();
        if (text == nullptr || text->get().empty() || text->get().size() > rule.most_bytes ||
            escaped(text->get()) != text->get()) {
            return std::nullopt;
        }
        return KeyValue(text->get());
    }
};

/// " (did you mean "grid"?)" where the value is almost one of the rule's words.
std::string word_hint(const toml::node& value, const Rule& rule) {
    const auto* word_rule = std::get_if<WordRule>(&rule);
    const auto* word = value.as_string();
    if (word_rule == nullptr || word == nullptr) {
        return "";
    }
    const auto meant = closest_word(word->get(), word_rule->words);
    return meant ? " (did you mean \"" + std::string(*meant) + "\"?)" : "";
}

/// Faults of one table, all thrown from here.
class TableReader {
  public:
    TableReader(const toml::table& given, const TablePlace& place, const ScenarioTable& table)
        : table_(table), place_(place), given_(in_file_order(given)) {}

    void read() {
        const TableKind& chosen = has_kinds() ? chosen_kind() : table_.kinds.front();
        const TableForm form = chosen.begin();
        for (const GivenKey& given : given_) {
            if (!(has_kinds() && given.name == kind_key)) {
                const Key& key = known_key(given, form, chosen);
                key.store(accepted_value(given, key.rule));
            }
        }
        for (const Key& key : form.keys) {
            if (!key.default_text && find_given(key.name) == nullptr) {
                fail_missing(key.name, key.rule, key.meaning);
            }
        }
        check_consistency(form);
    }

  private:
    bool has_kinds() const { return !table_.kinds.front().kind.empty(); }

    const GivenKey* find_given(std::string_view name) const {
        const auto found = std::find_if(given_.begin(), given_.end(),
                                        [name](const GivenKey& key) { return key.name == name; });
        return found == given_.end() ? nullptr : &*found;
    }

    const TableKind& chosen_kind() const {
        WordRule rule;
        for (const TableKind& kind : table_.kinds) {
            rule.words.push_back(kind.kind);
        }
        const GivenKey* given = find_given(kind_key);
        if (given == nullptr) {
            fail_missing(std::string(kind_key), rule, table_.meaning);
        }
        const std::string word = std::get<std::string>(accepted_value(*given, rule));
        return *std::find_if(table_.kinds.begin(), table_.kinds.end(),
                             [&word](const TableKind& kind) { return kind.kind == word; });
    }

    const Key& known_key(const GivenKey& given, const TableForm& form,
                         const TableKind& chosen) const {
        std::vector<std::string_view> names;
        for (const Key& key : form.keys) {
            if (key.name == given.name) {
                return key;
            }
            names.push_back(key.name);
        }
        const std::string name = shortened(given.name, most_name_bytes);
        if (const auto meant = closest_word(given.name, names)) {
            fail(given.line, name, "unknown key; did you mean " + std::string(*meant) + "?");
        }
        std::string owner = "[" + std::string(table_.name) + "]";
        if (has_kinds()) {
            owner += " of kind \"" + std::string(chosen.kind) + "\"";
        }
        if (names.empty()) {
            fail(given.line, name, "unknown key; " + owner + " takes no key but kind");
        }
        fail(given.line, name,
             fmt::format("unknown key; {} takes {}", owner, fmt::join(names, ", ")));
    }

    KeyValue accepted_value(const GivenKey& given, const Rule& rule) const {
        std::optional<KeyValue> value = std::visit(Accept{*given.value}, rule);
        if (!value) {
            fail(given.line, std::string(given.name),
                 shown(*given.value) + " is not accepted; give " + accepted_by(rule) +
                     word_hint(*given.value, rule));
        }
        return *std::move(value);
    }

    /// Points at the first key of the sentence that the file gives.
    void check_consistency(const TableForm& form) const {
        const std::string problem = form.inconsistency();
        if (problem.empty()) {
            return;
        }
        int line = place_.line;
        std::istringstream sentence(problem);
        for (std::string word; sentence >> word;) {
            if (const GivenKey* given = find_given(word)) {
                line = given->line;
                break;
            }
        }
        throw InputError(place_.file, line, std::string(table_.name), problem);
    }

    [[noreturn]] void fail_missing(const std::string& key, const Rule& rule,
                                   std::string_view meaning) const {
        fail(place_.line, key,
             "this key is missing; give " + accepted_by(rule) + " (" + std::string(meaning) + ")");
    }

    [[noreturn]] void fail(int line, const std::string& key, const std::string& fault) const {
        throw InputError(place_.file, line, std::string(table_.name) + "." + key, fault);
    }

    const ScenarioTable& table_;
    const TablePlace& place_;
    std::vector<GivenKey> given_;
};

}  // namespace

void read_table(const toml::table& given, const TablePlace& place, const ScenarioTable& table) {
    TableReader(given, place, table).read();
}

int line_of(const toml::key& key) {
    return static_cast<int>(key.source().begin.line);
}

}  // namespace sim
