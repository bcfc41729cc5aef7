// Which program this is: its version, and a hash of everything that its results follow from.
#pragma once

#include <string_view>

namespace sim {

/// As in "0.1.0+3f2a91bc77e1". The hash covers the sources of firmware/, plant_models/ and sim/,
/// and the compiler with its options; it is taken when the program is built, needs no version
/// control, and is the same for the same sources in any folder.
std::string_view build_identity();

}  // namespace sim
