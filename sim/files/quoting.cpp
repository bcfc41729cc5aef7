#include "sim/files/quoting.hpp"

namespace sim {

namespace {

bool is_continuation(unsigned char byte) {
    return (byte & 0xC0U) == 0x80U;
}

/// Bytes of the valid, printable UTF-8 character at the front of `text`; 0 if there is none.
std::size_t printable_length(std::string_view text) {
    const auto byte_at = [text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte_at(0);
    if (lead < 0x80U) {
        return lead >= 0x20U && lead != 0x7FU ? 1 : 0;
    }
    const std::size_t length = lead < 0xC2U ? 0 : lead < 0xE0U ? 2 : lead < 0xF0U ? 3 : 4;
    if (lead > 0xF4U || length == 0 || text.size() < length) {
        return 0;
    }
    for (std::size_t i = 1; i < length; ++i) {
        if (!is_continuation(byte_at(i))) {
            return 0;
        }
    }
    // The C1 controls, the overlong three- and four-byte forms, the surrogates, and what lies
    // beyond the last code point.
    const unsigned char second = byte_at(1);
    const bool forbidden = (lead == 0xC2U && second < 0xA0U) || (lead == 0xE0U && second < 0xA0U) ||
                           (lead == 0xEDU && second >= 0xA0U) ||
                           (lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second >= 0x90U);
    return forbidden ? 0 : length;
}

}  // namespace

std::string escaped(std::string_view text) {
    constexpr char digits[] = "0123456789abcdef";
    std::string shown;
    while (!text.empty()) {
        const std::size_t length = printable_length(text);
        if (length > 0) {
            shown += text.substr(0, length);
            text.remove_prefix(length);
            continue;
        }
        const auto byte = static_cast<unsigned char>(text.front());
        shown += "\\x";
        shown += digits[byte >> 4U];
        shown += digits[byte & 0x0FU];
        text.remove_prefix(1);
    }
    return shown;
}

std::string shortened(std::string_view text, std::size_t most_bytes) {
    if (text.size() <= most_bytes) {
        return escaped(text);
    }
    // Back to the start of the character that the cut would split; broken UTF-8 has no such start.
    std::size_t end = most_bytes;
    while (end > 0 && most_bytes - end < 3 &&
           is_continuation(static_cast<unsigned char>(text[end]))) {
        --end;
    }
    return escaped(text.substr(0, end)) + "…";
}

std::string quoted(std::string_view text) {
    return "\"" + shortened(text, 40) + "\"";
}

std::string shell_word(std::string_view text) {
    constexpr std::string_view harmless =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./:=+,%@#";
    if (!text.empty() && text.front() != '#' &&
        text.find_first_not_of(harmless) == std::string_view::npos) {
        return std::string(text);
    }
    std::string word = "'";
    for (const char letter : text) {
        word += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    }
    return word + "'";
}

}  // namespace sim
