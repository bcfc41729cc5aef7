// A phrase as the beginning of a sentence.
#pragma once

#include <cctype>
#include <string>

namespace sim {

inline std::string capitalized(std::string text) {
    if (!text.empty()) {
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    }
    return text;
}

}  // namespace sim
