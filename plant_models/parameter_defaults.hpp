// The defaults of a parameter struct, from its own tables: one place for the scenario reader and
// for everybody who needs a model without a file.
#pragma once

#include <type_traits>
#include <utility>
#include <variant>

#include "plant_models/parameter_table.hpp"

namespace plant_models {

/// Whether P offers `word_table()`; most parameter structs hold numbers only.
template <class P, class = void>
struct HasWords : std::false_type {};
template <class P>
struct HasWords<P, std::void_t<decltype(P::word_table())>> : std::true_type {};

/// Stores a number where `row` says. For a whole number it must be one.
template <class P>
void store(P& parameters, const Parameter<P>& row, double value) {
    std::visit(
        [&parameters, value](auto member) {
            using Field = std::remove_reference_t<decltype(parameters.*member)>;
            parameters.*member = static_cast<Field>(value);
        },
        row.member);
}

/// Writes every default of the tables; what must be given is left alone.
template <class P>
void set_defaults(P& parameters) {
    for (const Parameter<P>& row : P::table()) {
        if (row.default_value) {
            store(parameters, row, *row.default_value);
        }
    }
    if constexpr (HasWords<P>::value) {
        for (const WordParameter<P>& row : P::word_table()) {
            if (row.default_word) {
                parameters.*row.member = *row.default_word;
            }
        }
    }
}

template <class P>
P table_defaults() {
    P parameters;
    set_defaults(parameters);
    return parameters;
}

}  // namespace plant_models
