#include "sim/scenario/toml_root.hpp"

#include <cstddef>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"

namespace sim {

namespace {
// The longest reason that the parser gives by itself is shorter; what is cut is quoted input.
constexpr std::size_t most_reason_bytes = 160;
}  // namespace

toml::table toml_root(std::string_view text, const std::string& file, std::string_view under) {
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        // The parser quotes what it stumbled over, which may be anything.
        throw InputError(file, static_cast<int>(error.source().begin.line), "",
                         "this is not valid TOML (" +
                             shortened(error.description(), most_reason_bytes) +
                             "); give each key once, as key = value, under " + std::string(under));
    }
}

}  // namespace sim
