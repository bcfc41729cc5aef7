// One key of a scenario file, whatever it is stored in: what it accepts, its default, and what it
// is. Every table of a scenario is a list of these; the reader, the reference text and the tests
// walk the same list, so none of them can know a key that the others do not.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace sim {

/// A number; both bounds are included.
struct NumberRule {
    double lowest = 0.0;
    double highest = 0.0;
    bool is_whole = false;  ///< written as a TOML integer
    bool is_even = false;
};

/// A list of numbers of one kind.
struct NumberListRule {
    NumberRule each;
    std::size_t fewest = 0;
    std::size_t most = 0;
};

/// One word of a list.
struct WordRule {
    std::vector<std::string_view> words;
};

/// A line of free text without control characters.
struct TextRule {
    std::size_t most_bytes = 0;
};

/// A list of names, each a line of free text; a name alone is a list of one.
struct NameListRule {
    std::size_t most = 0;
    std::size_t most_bytes = 0;  ///< of each
};

using Rule = std::variant<NumberRule, NumberListRule, WordRule, TextRule, NameListRule>;
using KeyValue = std::variant<double, std::vector<double>, std::string, std::vector<std::string>>;

struct Key {
    std::string name;  ///< ends in its unit, if it has one
    Rule rule;
    /// As shown to a reader; none: the key must be given. The default itself already stands in the
    /// place that `store` writes to.
    std::optional<std::string> default_text;
    std::string meaning;  ///< in words; further lines explain the words of a WordRule
    /// Called with a value that the rule accepts: a number for NumberRule, a list of them for
    /// NumberListRule, a list of strings for NameListRule, a string for the other two.
    std::function<void(const KeyValue&)> store;
};

using Keys = std::vector<Key>;

/// What the rule accepts, to follow the word "give": `an even whole number from 2 to 16`.
std::string accepted_by(const Rule& rule);

/// Shortest text that reads back as the same number.
std::string number_text(double number);

}  // namespace sim
