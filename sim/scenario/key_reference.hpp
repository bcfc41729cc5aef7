// The reference of scenario files, made from the same tables that the reader walks.
#pragma once

#include <string>

namespace sim {

/// Every table, kind and key with what it accepts, its default and its meaning; plain text of lines
/// that end in a newline.
std::string describe_keys();

}  // namespace sim
