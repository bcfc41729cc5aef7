// How text that came from outside is shown in a message: on one line, without anything that a
// terminal would obey, and never more than a few words of it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace sim {

/// Control characters, DEL, and bytes that are not valid UTF-8 become \xNN; the rest is kept.
std::string escaped(std::string_view text);

/// As `escaped`, cut to at most `most_bytes` of the original (never inside a character), with "…"
/// where something was left off.
std::string shortened(std::string_view text, std::size_t most_bytes);

/// A value in a message: shortened to 40 bytes and between double quotes.
std::string quoted(std::string_view text);

/// A word of a command line that a shell takes as it is: between single quotes where it must be.
std::string shell_word(std::string_view text);

}  // namespace sim
