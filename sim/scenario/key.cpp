#include "sim/scenario/key.hpp"

#include <fmt/format.h>

#include <cmath>

namespace sim {

namespace {

std::string bounds(const NumberRule& rule) {
    return " from " + number_text(rule.lowest) + " to " + number_text(rule.highest);
}

std::string number_noun(const NumberRule& rule) {
    return std::string(rule.is_even ? "even " : "") + (rule.is_whole ? "whole number" : "number");
}

std::string words_text(const std::vector<std::string_view>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) {
            text += i + 1 == words.size() ? " or " : ", ";
        }
        text += '"' + std::string(words[i]) + '"';
    }
    return text;
}

struct Describe {
    std::string operator()(const NumberRule& rule) const {
        return (rule.is_even ? "an " : "a ") + number_noun(rule) + bounds(rule);
    }
    std::string operator()(const NumberListRule& rule) const {
        const std::string count = rule.fewest == rule.most ? std::to_string(rule.most)
                                                           : std::to_string(rule.fewest) + " to " +
                                                                 std::to_string(rule.most);
        return "a list of " + count + " " + number_noun(rule.each) + "s" + bounds(rule.each);
    }
    std::string operator()(const WordRule& rule) const { return words_text(rule.words); }
    std::string operator()(const TextRule& rule) const {
        return "one line of text of at most " + std::to_string(rule.most_bytes) + " bytes";
    }
    std::string operator()(const NameListRule& rule) const {
        return "a name or a list of 1 to " + std::to_string(rule.most) +
               " names, each one line of text of at most " + std::to_string(rule.most_bytes) +
               " bytes";
    }
};

}  // namespace

std::string accepted_by(const Rule& rule) {
    return std::visit(Describe{}, rule);
}

std::string number_text(double number) {
    // A whole number reads better without an exponent, up to where every digit is exact.
    if (std::abs(number) < 1e15 && std::floor(number) == number) {
        return fmt::format("{:.0f}", number);
    }
    return fmt::format("{}", number);
}

}  // namespace sim
