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

/// One parameter that is a word of a list. A struct that has such parameters offers
/// `static const WordTable<P>& word_table()` beside `table()`; the member views one of `words`.
template <class P>
struct WordParameter {
    std::string_view key;
    std::string_view P::*member;
    std::vector<std::string_view> words;
    std::optional<std::string_view> default_word;  ///< none: the key must be given
    std::string_view meaning;                      ///< further lines, one a word, explain the words
};

template <class P>
using WordTable = std::vector<WordParameter<P>>;

}  // namespace plant_models
