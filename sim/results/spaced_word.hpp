// A word of an outcome or a cause as people read it.
#pragma once

#include <algorithm>
#include <string>

namespace sim {

inline std::string spaced(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

}  // namespace sim
