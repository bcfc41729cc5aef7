// Turns a parameter struct's own table into scenario keys, and a list of such structs into the
// forms of a table with a `kind`. This is why a new supply or load needs no change in the reader.
//
// Everything here is bound by reference to the struct that will hold the values: the struct must
// outlive the keys, and must not move.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "plant_models/parameter_defaults.hpp"
#include "sim/scenario/key.hpp"

namespace sim {

/// Appends the keys of P::table(), bound to `target`, which must outlive them.
template <class P>
void append_parameter_keys(Keys& keys, P& target) {
    for (const plant_models::Parameter<P>& row : P::table()) {
        NumberRule rule;
        rule.lowest = row.lowest;
        rule.highest = row.highest;
        rule.is_whole = std::holds_alternative<int P::*>(row.member);
        Key key;
        key.name = row.key;
        key.rule = rule;
        key.meaning = row.meaning;
        // Bounds are checked before this, so the narrowing to int is exact.
        key.store = [&row, &target](const KeyValue& value) {
            plant_models::store(target, row, std::get<double>(value));
        };
        if (row.default_value) {
            key.default_text = number_text(*row.default_value);
        }
        keys.push_back(std::move(key));
    }
}

/// The same for the keys of P::word_table().
template <class P>
void append_word_keys(Keys& keys, P& target) {
    for (const plant_models::WordParameter<P>& row : P::word_table()) {
        Key key;
        key.name = row.key;
        key.rule = WordRule{row.words};
        key.meaning = row.meaning;
        // The target views a word of the table, which lives as long as the program.
        key.store = [&row, &target](const KeyValue& value) {
            target.*row.member =
                *std::find(row.words.begin(), row.words.end(), std::get<std::string>(value));
        };
        if (row.default_word) {
            key.default_text = '"' + std::string(*row.default_word) + '"';
        }
        keys.push_back(std::move(key));
    }
}

/// Whether P offers `inconsistency()`; not every parameter struct has fields that can contradict
/// each other.
template <class P, class = void>
struct HasInconsistency : std::false_type {};
template <class P>
struct HasInconsistency<P, std::void_t<decltype(std::declval<const P&>().inconsistency())>>
    : std::true_type {};

/// What a table may hold, for one `kind` or for a table without kinds.
struct TableForm {
    Keys keys;
    /// What is wrong between keys that are each accepted, beginning with a key; empty if nothing.
    std::function<std::string()> inconsistency;
};

/// The form of a table that holds one parameter struct. A struct whose form is not simply its own
/// table has an overload of this function beside it, which then takes precedence.
template <class P>
TableForm form_of(P& target) {
    TableForm form;
    plant_models::set_defaults(target);
    if constexpr (plant_models::HasWords<P>::value) {
        append_word_keys(form.keys, target);
    }
    append_parameter_keys(form.keys, target);
    if constexpr (HasInconsistency<P>::value) {
        form.inconsistency = [&target]() { return std::string(target.inconsistency()); };
    } else {
        form.inconsistency = []() { return std::string(); };
    }
    return form;
}

/// One way to fill a table. `begin` makes the target hold this kind, with its defaults.
struct TableKind {
    std::string_view kind;  ///< empty: the table has no `kind` key
    std::function<TableForm()> begin;
    std::string_view meaning = {};  ///< in words, where the kind's own does not say enough
};

/// One TableKind for each alternative of a std::variant of parameter structs, in its order.
template <class... P>
std::vector<TableKind> kinds_of(std::variant<P...>& target) {
    return {TableKind{P::kind, [&target]() { return form_of(target.template emplace<P>()); }}...};
}

}  // namespace sim
