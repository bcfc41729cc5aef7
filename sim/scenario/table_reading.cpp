#include "sim/scenario/table_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <sstream>
#include <utility>
#include <vector>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/scenario/closest_word.hpp"
#include "sim/scenario/given_keys.hpp"
#include "sim/scenario/value_acceptance.hpp"

namespace sim {

namespace {

// Longer than every key of ours, so that a key with a slip in it is shown whole.
constexpr std::size_t most_name_bytes = 60;

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
    TableReader(const std::vector<GivenKey>& given, const TablePlace& place,
                const ScenarioTable& table)
        : table_(table), place_(place), given_(given) {}

    void read() {
        const TableKind& chosen = has_kinds() ? chosen_kind() : table_.kinds.front();
        // From here on the target holds this kind with its defaults; only what the file gives is
        // written over them.
        const TableForm form = chosen.begin();
        for (const GivenKey& given : given_) {
            if (!(has_kinds() && given.name == kind_key)) {
                const Key& key = known_key(given, form, chosen);
                key.store(value_of(given, key.rule));
            }
        }
        // After the given keys, because a key that seems missing is often one that was mistyped.
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
        const std::string word = std::get<std::string>(value_of(*given, rule));
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
            fail(given, name, "unknown key; did you mean " + std::string(*meant) + "?");
        }
        std::string owner = "[" + std::string(table_.name) + "]";
        if (has_kinds()) {
            owner += " of kind \"" + std::string(chosen.kind) + "\"";
        }
        if (names.empty()) {
            fail(given, name, "unknown key; " + owner + " takes no key but kind");
        }
        fail(given, name, fmt::format("unknown key; {} takes {}", owner, fmt::join(names, ", ")));
    }

    KeyValue value_of(const GivenKey& given, const Rule& rule) const {
        std::optional<KeyValue> value = accepted_value(*given.value, rule);
        if (!value) {
            fail(given, std::string(given.name),
                 shown_value(*given.value) + " is not accepted; give " + accepted_by(rule) +
                     word_hint(*given.value, rule));
        }
        return *std::move(value);
    }

    /// Points at the first key of the sentence that the table's own file gives; else, as what lies
    /// below it may come from another file, at the first that is given at all.
    void check_consistency(const TableForm& form) const {
        const std::string problem = form.inconsistency();
        if (problem.empty()) {
            return;
        }
        const GivenKey* culprit = nullptr;
        std::istringstream sentence(problem);
        for (std::string word; sentence >> word;) {
            const GivenKey* given = find_given(word);
            const bool is_own = given != nullptr && given->file == place_.file;
            if (is_own || culprit == nullptr) {
                culprit = given;
            }
            if (is_own) {
                break;
            }
        }
        const TablePlace place =
            culprit == nullptr ? place_ : TablePlace{std::string(culprit->file), culprit->line};
        throw InputError(place.file, place.line, std::string(table_.name), problem);
    }

    [[noreturn]] void fail_missing(const std::string& key, const Rule& rule,
                                   std::string_view meaning) const {
        // Its further lines explain the words, of which a sentence has no need.
        const std::string_view in_a_line = meaning.substr(0, meaning.find('\n'));
        fail(
            place_, key,
            "this key is missing; give " + accepted_by(rule) + " (" + std::string(in_a_line) + ")");
    }

    [[noreturn]] void fail(const GivenKey& given, const std::string& key,
                           const std::string& fault) const {
        fail(TablePlace{std::string(given.file), given.line}, key, fault);
    }
    [[noreturn]] void fail(const TablePlace& place, const std::string& key,
                           const std::string& fault) const {
        throw InputError(place.file, place.line, std::string(table_.name) + "." + key, fault);
    }

    const ScenarioTable& table_;
    const TablePlace& place_;
    const std::vector<GivenKey>& given_;
};

}  // namespace

void read_table(const toml::table& given, const TablePlace& place, const ScenarioTable& table) {
    read_table(keys_in_file_order(given, place.file), place, table);
}

void read_table(const std::vector<GivenKey>& given, const TablePlace& place,
                const ScenarioTable& table) {
    TableReader(given, place, table).read();
}

}  // namespace sim
