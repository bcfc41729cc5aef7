#include "loops.hpp"

#include <algorithm>
#include <cctype>
#include <regex>

namespace architecture_test {

namespace {

bool is_word(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}

std::string trimmed(const std::string& text) {
    const std::size_t from = text.find_first_not_of(" \t\n");
    if (from == std::string::npos) {
        return "";
    }
    return text.substr(from, text.find_last_not_of(" \t\n") - from + 1);
}

// From an opening bracket to behind its partner; the end of the code without one.
std::size_t behind_partner(const std::string& code, std::size_t open) {
    int depth = 0;
    for (std::size_t k = open; k < code.size(); ++k) {
        depth += code[k] == '(' || code[k] == '{' || code[k] == '[' ? 1 : 0;
        depth -= code[k] == ')' || code[k] == '}' || code[k] == ']' ? 1 : 0;
        if (depth == 0) {
            return k + 1;
        }
    }
    return code.size();
}

// Parts between separators that stand in no brackets.
std::vector<std::string> parts_of(const std::string& text, const std::string& separator) {
    std::vector<std::string> parts(1);
    for (std::size_t k = 0; k < text.size();) {
        if (text[k] == '(' || text[k] == '{' || text[k] == '[') {
            const std::size_t end = behind_partner(text, k);
            parts.back() += text.substr(k, end - k);
            k = end;
        } else if (text.compare(k, separator.size(), separator) == 0) {
            parts.emplace_back();
            k += separator.size();
        } else {
            parts.back() += text[k++];
        }
    }
    std::transform(parts.begin(), parts.end(), parts.begin(), trimmed);
    return parts;
}

bool is_constant(const std::string& expression, const std::set<std::string>& constants) {
    // A cast to a type of fixed width, and the size of an array, change nothing.
    static const std::regex cast(R"(static_cast<[\w:]+>)");
    static const std::regex size(R"([\w.]+\.size\(\))");
    static const std::regex number(R"(\b\d[\w']*)");
    std::string rest = std::regex_replace(expression, cast, "");
    rest = std::regex_replace(rest, size, "");
    rest = std::regex_replace(rest, number, "");
    static const std::regex name(R"([A-Za-z_]\w*(::[A-Za-z_]\w*)*)");
    for (std::sregex_iterator found(rest.begin(), rest.end(), name), end; found != end; ++found) {
        const std::string whole = found->str();
        const std::size_t colon = whole.rfind(':');
        if (constants.count(colon == std::string::npos ? whole : whole.substr(colon + 1)) == 0) {
            return false;
        }
    }
    return std::regex_replace(rest, name, "").find_first_not_of(" ()+-*/") == std::string::npos;
}

bool changes(const std::string& body, const std::string& variable) {
    const std::string changed = R"((\+\+|--|&)\s*)" + variable + R"(\b(?!\s*[.\[(])|\b)" +
                                variable + R"(\s*(\+\+|--|(<<|>>|[-+*/%&|^])?=(?!=)))";
    // `a && i` is no address.
    return std::regex_search(std::regex_replace(body, std::regex("&&"), " and "),
                             std::regex(changed));
}

std::string fault_of_for(const Loop& loop, const std::set<std::string>& constants) {
    const std::vector<std::string> parts = parts_of(loop.header, ";");
    if (parts.size() == 1) {
        static const std::regex range(R"([^:]:[^:])");
        return std::regex_search(loop.header, range) ? "" : "no condition";
    }
    if (parts.size() != 3) {
        return "not of three parts";
    }
    static const std::regex up(R"(\+\+\s*(\w+)|(\w+)\s*\+=\s*[1-9]\d*)");
    static const std::regex down(R"(--\s*(\w+))");
    static const std::regex halving(R"((\w+)\s*>>=\s*[1-9]\d*)");
    std::smatch update;
    std::string bound;
    if (std::regex_match(parts[2], update, up)) {
        bound = R"(\s*<=?\s*([^<=].*))";
    } else if (std::regex_match(parts[2], update, down)) {
        bound = R"(\s*>\s*(\d+))";
    } else if (std::regex_match(parts[2], update, halving)) {
        bound = R"(\s*!=\s*(0))";
    } else {
        return "its variable does not move by a fixed step";
    }
    const std::string variable = update.size() > 2 && !update[1].matched ? update[2] : update[1];
    if (changes(loop.body, variable)) {
        return "its body changes " + variable;
    }
    const std::vector<std::string> conditions = parts_of(parts[1], "&&");
    const bool bounded =
        std::any_of(conditions.begin(), conditions.end(), [&](const std::string& condition) {
            std::smatch found;
            return std::regex_match(condition, found, std::regex(variable + bound)) &&
                   parts_of(condition, "||").size() == 1 && is_constant(found[1], constants);
        });
    return bounded ? "" : "no bound that is known when it is compiled";
}

}  // namespace

std::vector<Loop> loops_of(const std::string& code) {
    std::vector<Loop> loops;
    std::size_t line = 1;
    for (std::size_t k = 0; k < code.size();) {
        if (code[k] == '\n') {
            ++line;
        }
        if (!is_word(code[k])) {
            ++k;
            continue;
        }
        const std::size_t end = static_cast<std::size_t>(
            std::find_if_not(code.begin() + static_cast<std::ptrdiff_t>(k), code.end(), is_word) -
            code.begin());
        Loop loop;
        loop.keyword = code.substr(k, end - k);
        loop.line = line;
        k = end;
        if (loop.keyword == "for" || loop.keyword == "while") {
            const std::size_t open = code.find('(', end);
            const std::size_t behind = behind_partner(code, open);
            loop.header = code.substr(open + 1, behind - open - 2);
            const std::size_t body = code.find_first_not_of(" \t\n", behind);
            if (body != std::string::npos && code[body] == '{') {
                loop.body = code.substr(body, behind_partner(code, body) - body);
            } else if (body != std::string::npos) {
                loop.body = code.substr(body, code.find(';', body) - body + 1);
            }
            loops.push_back(loop);
        } else if (loop.keyword == "do" || loop.keyword == "goto") {
            loops.push_back(loop);
        }
    }
    return loops;
}

std::set<std::string> constants_of(const std::string& code) {
    static const std::regex constant(R"(\bconstexpr\s+[\w:]+\s+(\w+)\s*[={])");
    std::set<std::string> names;
    for (std::sregex_iterator found(code.begin(), code.end(), constant), end; found != end;
         ++found) {
        names.insert((*found)[1]);
    }
    return names;
}

std::string fault_of(const Loop& loop, const std::set<std::string>& constants) {
    return loop.keyword == "for" ? fault_of_for(loop, constants) : "is a " + loop.keyword;
}

}  // namespace architecture_test
