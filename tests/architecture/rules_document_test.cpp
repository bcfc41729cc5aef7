// firmware/RULES.md names for each rule what checks it. Here each of those checks is looked up: a
// flag that is set, a clang-tidy check that is on, a test that exists, a script that is run.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "source_tree.hpp"

namespace {

std::string text_of(const std::string& path) {
    std::ifstream file(architecture_test::source_folder() / path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

struct Rule {
    std::string text;
    std::vector<std::string> checks;
};

std::vector<Rule> rules_of(const std::string& document) {
    // A row of three cells; not the heading and not the line below it.
    const std::regex row(R"(^\| (.*) \| (.*) \| (.*) \|$)");
    const std::regex quoted("`([^`]+)`");
    std::vector<Rule> rules;
    std::istringstream lines(document);
    std::string line;
    while (std::getline(lines, line)) {
        std::smatch cells;
        if (!std::regex_match(line, cells, row) || cells[1] == "rule" || cells[1] == "---") {
            continue;
        }
        Rule rule{cells[1], {}};
        const std::string last = cells[3];
        for (std::sregex_iterator found(last.begin(), last.end(), quoted), end; found != end;
             ++found) {
            rule.checks.push_back((*found)[1]);
        }
        rules.push_back(rule);
    }
    return rules;
}

bool has_word(const std::string& text, const std::string& word) {
    const std::size_t at = text.find(word);
    if (at == std::string::npos) {
        return false;
    }
    const std::size_t behind = at + word.size();
    const bool ends =
        behind == text.size() ||
        (std::isalnum(static_cast<unsigned char>(text[behind])) == 0 && text[behind] != '-');
    return ends || has_word(text.substr(behind), word);
}

// Scripts that continuous integration runs, by themselves or from another one of them.
std::set<std::string> scripts_run() {
    const std::regex script(R"(scripts/\w+)");
    std::set<std::string> run;
    std::vector<std::string> to_read = {".ci/run"};
    while (!to_read.empty()) {
        const std::string text = text_of(to_read.back());
        to_read.pop_back();
        for (std::sregex_iterator found(text.begin(), text.end(), script), end; found != end;
             ++found) {
            if (run.insert(found->str()).second) {
                to_read.push_back(found->str());
            }
        }
    }
    return run;
}

bool names_a_test(const std::string& check) {
    const std::size_t point = check.find('.');
    const std::string begin = R"(TEST(_F|_P)?\()" + check.substr(0, point) + R"(,\s*)";
    const std::regex test(begin + check.substr(point + 1) + R"(\))");
    for (const auto& file : architecture_test::sources_of("tests")) {
        if (std::regex_search(file.text, test)) {
            return true;
        }
    }
    return false;
}

bool is_in_force(const std::string& check) {
    static const std::set<std::string> scripts = scripts_run();
    static const std::string flags = text_of("CMakeLists.txt") + text_of("firmware/CMakeLists.txt");
    static const std::string tidy = text_of(".clang-tidy") + text_of("firmware/.clang-tidy");
    if (check[0] == '-') {
        return has_word(flags, check);
    }
    if (check.rfind("scripts/", 0) == 0) {
        return scripts.count(check) == 1;
    }
    return check.find('.') != std::string::npos ? names_a_test(check) : has_word(tidy, check);
}

TEST(Rules, OfTheControllerAreEachCheckedBySomethingThatIsInForce) {
    const std::vector<Rule> rules = rules_of(text_of("firmware/RULES.md"));
    EXPECT_GT(rules.size(), 15U);
    for (const Rule& rule : rules) {
        EXPECT_FALSE(rule.checks.empty()) << rule.text;
        for (const std::string& check : rule.checks) {
            EXPECT_TRUE(is_in_force(check)) << check << " (" << rule.text << ")";
        }
    }
}

TEST(Rules, AreNotCheckedByWhatIsNotThere) {
    for (const char* absent :
         {"-Wno-such-flag", "-Wswitch", "scripts/no_such_script", "Firmware.DoesNotExist",
          "Firmware", "cppcoreguidelines-no-such-check", "misc-no"}) {
        EXPECT_FALSE(is_in_force(absent)) << absent;
    }
}

}  // namespace
