#include "sim/results/wrapped_text.hpp"

#include <sstream>

namespace sim {

std::string wrapped(std::string_view first, std::string_view others, const std::string& sentence) {
    constexpr std::size_t most_columns = 100;
    std::string text;
    std::string line(first);
    bool line_has_words = false;
    std::istringstream words(sentence);
    for (std::string word; words >> word;) {
        if (line_has_words && line.size() + 1 + word.size() > most_columns) {
            text += line + "\n";
            line = others;
            line_has_words = false;
        }
        line += (line_has_words ? " " : "") + word;
        line_has_words = true;
    }
    return text + line + "\n";
}

}  // namespace sim
