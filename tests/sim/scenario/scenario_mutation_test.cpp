// Thousands of damaged scenarios: each is either read, and then is in bounds, or is refused with
// one printable sentence. The damage is the same in every run.
#include <gtest/gtest.h>

#include <cstdint>
#include <random>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "scenario/scenario_text.hpp"

namespace {

/// std::mt19937 gives the same numbers everywhere; the distributions of the standard library do
/// not.
class Damage {
  public:
    explicit Damage(std::uint32_t seed) : random_(seed) {}

    std::string on(std::string text) {
        const std::size_t wounds = 1 + below(3);
        for (std::size_t i = 0; i < wounds && !text.empty(); ++i) {
            wound(text);
        }
        return text;
    }

  private:
    std::size_t below(std::size_t bound) { return random_() % bound; }

    void wound(std::string& text) {
        static const std::vector<std::string_view> tokens = {"nan",
                                                             "-inf",
                                                             "1e999",
                                                             "-1",
                                                             "0",
                                                             "0x7fffffffffffffff",
                                                             "\"",
                                                             "'''",
                                                             "[",
                                                             "]",
                                                             "[[",
                                                             "{",
                                                             "}",
                                                             "=",
                                                             "\n",
                                                             "#",
                                                             ".",
                                                             "\\u0000",
                                                             "kind = \"builtin\"",
                                                             "[motor]",
                                                             "true",
                                                             "1979-05-27T07:32:00Z",
                                                             "\xff\xfe",
                                                             "\xef\xbb\xbf",
                                                             "99999999999999999999",
                                                             "_",
                                                             "-0.0"};
        const std::size_t at = below(text.size());
        const std::size_t length = 1 + below(std::min<std::size_t>(text.size() - at, 30));
        switch (below(8)) {
            case 0:
                text[at] = static_cast<char>(below(256));
                break;
            case 1:
                text.erase(at, length);
                break;
            case 2:
                text.insert(below(text.size()), text.substr(at, length));
                break;
            case 3:
                text.insert(at, tokens[below(tokens.size())]);
                break;
            case 4:
                text.replace(at, length, tokens[below(tokens.size())]);
                break;
            case 5:
                replace_value(text, at, tokens[below(tokens.size())]);
                break;
            default:
                replace_digit(text, at);
                break;
        }
    }

    /// Damage that usually leaves the TOML right, and often the scenario.
    void replace_digit(std::string& text, std::size_t at) {
        const std::size_t digit = text.find_first_of("0123456789", at);
        if (digit != std::string::npos) {
            text[digit] = static_cast<char>('0' + below(10));
        }
    }

    static void replace_value(std::string& text, std::size_t at, std::string_view token) {
        const std::size_t start = text.find("= ", at);
        const std::size_t end = text.find('\n', start);
        if (start != std::string::npos && end != std::string::npos) {
            text.replace(start + 2, end - start - 2, token);
        }
    }

    std::mt19937 random_;
};

template <class P>
void expect_in_bounds(const P& parameters) {
    for (const auto& row : P::table()) {
        std::visit(
            [&](auto member) {
                EXPECT_GE(static_cast<double>(parameters.*member), row.lowest) << row.key;
                EXPECT_LE(static_cast<double>(parameters.*member), row.highest) << row.key;
            },
            row.member);
    }
}

void expect_in_bounds(const sim::Scenario& scenario) {
    expect_in_bounds(scenario.motor);
    EXPECT_EQ(scenario.motor.poles % 2, 0);
    std::visit([](const auto& load) { expect_in_bounds(load); }, scenario.load);
    std::visit([](const auto& source) { expect_in_bounds(source); }, scenario.source);
    expect_in_bounds(scenario.run);
    expect_in_bounds(scenario.limits);
    if (const auto* limiter = std::get_if<sim::BuiltinLimiter>(&scenario.limiter)) {
        expect_in_bounds(limiter->parts);
        EXPECT_EQ(firmware::check(limiter->settings), firmware::SettingsProblem::none);
    }
}

TEST(ScenarioMutation, EveryDamagedScenarioIsReadOrRefusedInOneSentence) {
    const std::string whole =
        sim_test::replaced(sim_test::right_scenario(), "kind = \"none\"\n",
                           "kind = \"builtin\"\nstart_capacitor_uF = 100\ntries = 2\n"
                           "stage_percent = [30, 40, 50, 60]\n") +
        "[run]\nduration_s = 4\nseed = 7\n[expect]\noutcome = \"running\"\n"
        "[limits]\nminimum_rest_s = 200\n[scenario]\ntitle = \"cellar\"\n";
    ASSERT_EQ(sim_test::fault_of(whole), "was read");
    Damage damage(20240527);
    int read = 0;
    for (int i = 0; i < 5000; ++i) {
        const std::string text = damage.on(whole);
        try {
            expect_in_bounds(sim::parse_scenario(text, "cellar.toml"));
            ++read;
        } catch (const sim::InputError& error) {
            const std::string sentence = error.what();
            EXPECT_EQ(sentence.substr(0, 12), "cellar.toml:");
            EXPECT_LT(sentence.size(), 2000U);
            for (const char letter : sentence) {
                EXPECT_FALSE(static_cast<unsigned char>(letter) < 0x20U || letter == 0x7f);
            }
        }
        if (HasFailure()) {
            FAIL() << "mutation " << i << ":\n" << text;
        }
    }
    // Damage that nothing survives, or that harms nothing, would test nothing.
    EXPECT_GT(read, 250);
    EXPECT_LT(read, 4000);
}

}  // namespace
