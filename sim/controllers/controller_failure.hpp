// A controller outside this program that gave no proper answer.
#pragma once

#include <string>

namespace sim {

struct ControllerFailure {
    std::string cause;  ///< one word, such as "crashed"
    std::string words;  ///< a sentence for people
};

}  // namespace sim
