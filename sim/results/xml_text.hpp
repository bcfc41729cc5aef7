// Text as XML 1.0 can hold it, whatever it is: what has a meaning is escaped, and what XML forbids
// even escaped (control characters, bytes that are not UTF-8) is shown as \xNN.
#pragma once

#include <string>
#include <string_view>

namespace sim {

/// For element content and for attribute values in double quotes. In an attribute, line ends and
/// tabs survive as character references.
std::string xml_text(std::string_view text);

}  // namespace sim
