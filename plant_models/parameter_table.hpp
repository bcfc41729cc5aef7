// One table per model feeds its names, its file keys and its bounds.
//
// A model's parameter struct P offers `static const ParameterTable<P>& table()`. The scenario
// reader, the help text and the documentation all walk that table; nothing repeats a key.
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

namespace plant_models {

/// One parameter: its key (ends in the unit), where it is stored, the physical bounds (inclusive),
/// the default if it has one, and what it is, in words.
template <class P>
struct Parameter {
    std::string_view key;
    std::variant<double P::*, int P::*> member;
    double lowest;
    double highest;
    std::optional<double> default_value;  ///< none: the key must be given
    std::string_view meaning;
};

template <class P>
using ParameterTable = std::vector<Parameter<P>>;

}  // namespace plant_models
