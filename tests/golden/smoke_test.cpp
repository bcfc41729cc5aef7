// Did it change? The smoke suite against what it came to when smoke.csv was last renewed. That says
// nothing about whether either is right: tests/published does. If a change is meant, look at what
// `runup compare` says of it, then
//
//   scripts/renew_golden
//
// and commit the difference with the change.
#include <gtest/gtest.h>
#include <stdlib.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <system_error>
#include <vector>

namespace {

using Row = std::vector<std::string>;

/// The fields of one line as RFC 4180 quotes them: a comma between quotes belongs to its field.
Row fields_of(const std::string& line) {
    Row fields(1);
    bool is_quoted = false;
    for (const char letter : line) {
        if (letter == '"') {
            is_quoted = !is_quoted;
        } else if (letter == ',' && !is_quoted) {
            fields.emplace_back();
        } else {
            fields.back().push_back(letter);
        }
    }
    return fields;
}

std::vector<Row> rows_of(const std::string& path) {
    std::ifstream file(path);
    std::vector<Row> rows;
    for (std::string line; std::getline(file, line);) {
        if (!line.empty() && line.back() == '\r') {
            line.pop_back();
        }
        rows.push_back(fields_of(line));
    }
    return rows;
}

std::optional<double> number_in(const std::string& text) {
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    return !text.empty() && end == text.c_str() + text.size() ? std::optional<double>(value)
                                                              : std::nullopt;
}

/// Another compiler or another mathematics library may end in other last digits, which a start
/// carries on; what somebody changed shows in more than a millionth.
bool is_the_same(const std::string& now, const std::string& before) {
    if (now == before) {
        return true;
    }
    const auto a = number_in(now);
    const auto b = number_in(before);
    constexpr double millionth = 1e-6;
    return a && b && std::abs(*a - *b) <= millionth * std::max(std::abs(*a), std::abs(*b));
}

/// The energy balance's rest is made of last digits.
bool is_made_of_rounding(const std::string& column) {
    return column == "energy_closure_percent";
}

TEST(Golden, TheSmokeSuiteCameToWhatItIsNow) {
    std::string folder = (std::filesystem::temp_directory_path() / "runup-golden-XXXXXX").string();
    ASSERT_NE(::mkdtemp(folder.data()), nullptr);
    const std::string command = std::string(RUNUP_PROGRAM) + " regress smoke --quiet --results " +
                                folder + "/smoke.results --csv " + folder + "/smoke.csv";
    EXPECT_EQ(std::system(command.c_str()), 0);
    const std::vector<Row> now = rows_of(folder + "/smoke.csv");
    const std::vector<Row> before = rows_of(RUNUP_SOURCE_FOLDER "/tests/golden/smoke.csv");
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);

    ASSERT_FALSE(before.empty())
        << "tests/golden/smoke.csv is missing; scripts/renew_golden makes it";
    ASSERT_EQ(now.size(), before.size());
    ASSERT_EQ(now.front(), before.front());
    for (std::size_t row = 1; row < now.size(); ++row) {
        ASSERT_EQ(now[row].size(), now.front().size()) << "case " << now[row][0];
        ASSERT_EQ(before[row].size(), now.front().size()) << "case " << before[row][0];
        for (std::size_t k = 0; k < now[row].size(); ++k) {
            if (!is_made_of_rounding(now.front()[k])) {
                EXPECT_TRUE(is_the_same(now[row][k], before[row][k]))
                    << "case " << now[row][0] << ", " << now.front()[k] << ": " << now[row][k]
                    << ", was " << before[row][k];
            }
        }
    }
}

}  // namespace
