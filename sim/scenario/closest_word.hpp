// Finds the known word that a mistyped one was meant to be.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace sim {

/// Least number of letters to insert, delete or replace to make one word into the other
/// (Levenshtein distance). Works on bytes.
std::size_t edit_distance(std::string_view one, std::string_view other);

/// The candidate with the least edit distance to `word`, capitals counted as small letters, if that
/// is at most a third of the word's length (one letter for short words); else the first candidate
/// that `word` begins, which finds a key whose unit was left off; else none. The first of equal
/// candidates wins.
std::optional<std::string_view> closest_word(std::string_view word,
                                             const std::vector<std::string_view>& candidates);

}  // namespace sim
