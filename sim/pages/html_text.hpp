// Text as HTML shows it, whatever it holds.
#pragma once

#include <string>
#include <string_view>

namespace sim {

/// For element content and for attribute values in quotes.
std::string html_text(std::string_view text);

}  // namespace sim
