// Why a controller did something, as a sentence says it.
#pragma once

#include <string_view>

#include "firmware/sequence/state.hpp"

namespace sim {

/// "no half cycle of the line has been tracked yet"; empty for `none`.
std::string_view reason_words(firmware::Reason reason);

}  // namespace sim
