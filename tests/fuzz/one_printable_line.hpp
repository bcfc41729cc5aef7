// What every refusal must be, whatever was read.
#pragma once

#include <cstdlib>
#include <string_view>

#include "sim/files/input_error.hpp"

namespace sim_fuzz {

/// Ends the program for a message that a terminal would obey, or that has more than one line.
inline void expect_one_printable_line(const sim::InputError& error) {
    for (const char letter : std::string_view(error.what())) {
        if (static_cast<unsigned char>(letter) < 0x20U || letter == 0x7f) {
            std::abort();
        }
    }
}

}  // namespace sim_fuzz
