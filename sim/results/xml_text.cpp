#include "sim/results/xml_text.hpp"

#include "sim/files/quoting.hpp"

namespace sim {

namespace {

std::string_view reference_for(char letter) {
    switch (letter) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&apos;";
        case '\n':
            return "&#10;";
        case '\r':
            return "&#13;";
        case '\t':
            return "&#9;";
        default:
            return {};
    }
}

/// UTF-8 knows the two non-characters U+FFFE and U+FFFF; XML does not.
bool begins_with_non_character(std::string_view text) {
    const std::string_view first = text.substr(0, 3);
    return first == "\xEF\xBF\xBE" || first == "\xEF\xBF\xBF";
}

}  // namespace

std::string xml_text(std::string_view text) {
    std::string result;
    std::string_view plain = text.substr(0, 0);
    const auto finish_plain = [&result, &plain] {
        result += escaped(plain);
        plain = {};
    };
    while (!text.empty()) {
        const std::string_view reference = reference_for(text.front());
        if (!reference.empty()) {
            finish_plain();
            result += reference;
            text.remove_prefix(1);
        } else if (begins_with_non_character(text)) {
            finish_plain();
            result += text[2] == '\xBE' ? "\\xef\\xbf\\xbe" : "\\xef\\xbf\\xbf";
            text.remove_prefix(3);
        } else {
            plain = std::string_view(plain.empty() ? text.data() : plain.data(), plain.size() + 1);
            text.remove_prefix(1);
        }
    }
    finish_plain();
    return result;
}

}  // namespace sim
