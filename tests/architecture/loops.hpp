// The loops of a source, and whether each has a bound that is known when it is compiled.
//
// Accepted are, with the variable left alone in the body:
//
//     for (const T& x : array)                    over an array: there are no other ranges here
//     for (...; i < bound [&& ...]; ++i)          or i += a number; <= too
//     for (...; i > number [&& ...]; --i)
//     for (...; i != 0 [&& ...]; i >>= number)    at most as often as the type has bits
//
// where a bound is made of numbers, names of constexpr values and sizes of arrays. `while`, `do`
// and `goto` are refused altogether: what they say can be said as above, and then it shows.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace architecture_test {

struct Loop {
    std::string keyword;  ///< for, while, do or goto
    std::string header;   ///< what stands between its parentheses
    std::string body;
    std::size_t line = 0;
};

/// Of code without comments (code_only()).
std::vector<Loop> loops_of(const std::string& code);

/// Names of constexpr values in code without comments.
std::set<std::string> constants_of(const std::string& code);

/// Empty when the loop is bounded, else what is missing.
std::string fault_of(const Loop& loop, const std::set<std::string>& constants);

}  // namespace architecture_test
