#include "sim/scenario/closest_word.hpp"

#include <algorithm>
#include <numeric>
#include <string>

namespace sim {

namespace {
// No key of ours comes near; longer words are not mistyped keys and not worth the time.
constexpr std::size_t longest_word = 80;
constexpr std::size_t shortest_beginning = 3;
}  // namespace

std::size_t edit_distance(std::string_view one, std::string_view other) {
    // One row of the usual table at a time: row[j] is the distance between the part of `one` seen
    // so far and the first j letters of `other`.
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < one.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < other.size(); ++j) {
            const std::size_t replaced = diagonal + (one[i] == other[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({replaced, row[j] + 1, diagonal + 1});
        }
    }
    return row.back();
}

namespace {

std::string lower_case(std::string_view word) {
    std::string lower(word);
    std::transform(lower.begin(), lower.end(), lower.begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    return lower;
}

}  // namespace

std::optional<std::string_view> closest_word(std::string_view word,
                                             const std::vector<std::string_view>& candidates) {
    if (word.empty() || word.size() > longest_word) {
        return std::nullopt;
    }
    std::optional<std::string_view> best;
    std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (const std::string_view candidate : candidates) {
        const std::size_t distance = edit_distance(lower_case(word), lower_case(candidate));
        // A word that shares no letter with the candidate is no slip of the finger.
        if (distance < best_distance && distance < candidate.size()) {
            best = candidate;
            best_distance = distance;
        }
    }
    if (!best && word.size() >= shortest_beginning) {
        for (const std::string_view candidate : candidates) {
            if (candidate.substr(0, word.size()) == word) {
                return candidate;
            }
        }
    }
    return best;
}

}  // namespace sim
