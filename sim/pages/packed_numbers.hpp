// Many numbers in few letters, for a page: each a whole multiple of 10^-decimals, as its difference
// from the one before, zigzag (sign in the lowest bit), in groups of seven bits with the lowest
// first (LEB128), all of it in base64 (RFC 4648). The reader is browser/packed_numbers.js.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sim {

/// Every value must be finite, and less than 9e15 after scaling.
std::string pack_numbers(const std::vector<double>& values, int decimals);

std::string base64(std::string_view bytes);

}  // namespace sim
