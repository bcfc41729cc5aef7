// Sentences broken into lines of at most 100 columns, for pages and for comments in files.
#pragma once

#include <string>
#include <string_view>

namespace sim {

/// The first line begins with `first`, the others with `others`; each ends in a newline. A word
/// that is too long for a line has one of its own. Columns are counted in bytes.
std::string wrapped(std::string_view first, std::string_view others, const std::string& sentence);

}  // namespace sim
