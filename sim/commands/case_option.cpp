#include "sim/commands/case_option.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <fstream>
#include <memory>
#include <string_view>
#include <utility>

#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/results/wrapped_text.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/suites/case_judgement.hpp"

namespace sim {

namespace {

/// With which every file of results begins, as every SQLite 3 file.
constexpr std::string_view results_begin = "SQLite format 3";

bool is_results_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::array<char, results_begin.size()> begin{};
    file.read(begin.data(), begin.size());
    return file && std::string_view(begin.data(), begin.size()) == results_begin;
}

std::unique_ptr<Suite> suite_of(const std::string& name) {
    if (is_results_file(name)) {
        const ResultsReader results(name);
        return suite_from_text(results.campaign().suite_text, results.campaign().suite);
    }
    return read_suite(name);
}

std::int64_t number_in(const std::string& option, std::size_t begin) {
    std::int64_t id = -1;
    const char* first = option.data() + begin;
    const char* last = option.data() + option.size();
    const auto [end, error] = std::from_chars(first, last, id);
    if (error != std::errc() || end != last || id < 0) {
        throw InputError(
            "suites", 0, "--case",
            sim::quoted(option) + " is not accepted; give a suite and a number, as smoke#17");
    }
    return id;
}

std::string drawn_words(const SuiteCase& one) {
    std::string words;
    for (const DrawnInput& input : one.drawn) {
        words += fmt::format("{}{} {:.5g}", words.empty() ? "" : ", ", input.name, input.value);
    }
    return words.empty() ? "nothing drawn" : words;
}

std::array<std::pair<const char*, const std::string*>, 6> sides(const CasePlace& place) {
    return {{{"block", &place.block},
             {"compressor", &place.compressor},
             {"supply", &place.supply},
             {"condition", &place.condition},
             {"fault", &place.fault},
             {"setting", &place.setting}}};
}

}  // namespace

void add_case_option(CLI::App& verb, CaseOption& option) {
    CLI::Option_group* what = verb.add_option_group("What to run", "one of the two");
    what->add_option("FILE", option.file, "scenario file (TOML), - for standard input");
    what->add_option("--case", option.suite_case,
                     "a single case of a suite, to the bit as in its campaign; SUITE is a suite's "
                     "file, a bundled suite, or a file of results")
        ->type_name("SUITE#ID");
    what->require_option(1);
}

ChosenScenario chosen_scenario(const CaseOption& option, bool takes_series) {
    if (option.suite_case.empty()) {
        return {read_scenario(option.file), "", std::nullopt};
    }
    const std::size_t mark = option.suite_case.rfind('#');
    const std::int64_t id = number_in(
        option.suite_case, mark == std::string::npos ? option.suite_case.size() : mark + 1);
    const std::string name = option.suite_case.substr(0, mark);
    SuiteCase one = suite_of(name)->case_at(id);
    const bool is_series = one.series.starts > 1;
    if (is_series != takes_series) {
        throw InputError(name, 0, "--case",
                         fmt::format("case {} is {}; give it to runup {}", id,
                                     is_series ? "a series of starts" : "a single start",
                                     is_series ? "repeat" : "start"));
    }
    Scenario scenario = one.scenario;
    return {std::move(scenario), name, std::move(one)};
}

void judge_case(const ChosenScenario& chosen, StartResult& start) {
    if (!chosen.one) {
        return;
    }
    const std::vector<Outcome>& accepted = chosen.one->accepted;
    if (std::find(accepted.begin(), accepted.end(), start.outcome) != accepted.end()) {
        start.expected = start.outcome;
    }
    start.as_expected = broken_requirements(*chosen.one, start).empty();
}

std::string case_lines(const ChosenScenario& chosen, const std::vector<StartResult>& starts) {
    if (!chosen.one) {
        return {};
    }
    const SuiteCase& one = *chosen.one;
    std::string heading = fmt::format("Case {} of {}:", one.id, chosen.suite);
    for (const auto& [side, name] : sides(one.place)) {
        if (!name->empty()) {
            heading += fmt::format(" {} {};", side, *name);
        }
    }
    std::string text = wrapped("  ", "    ", heading + " " + drawn_words(one));
    bool passed = true;
    for (std::size_t k = 0; k < starts.size(); ++k) {
        for (const BrokenRequirement& broken : broken_requirements(one, starts[k])) {
            passed = false;
            text += starts.size() > 1 ? fmt::format("  Start {}, {}: {}\n", k + 1,
                                                    broken.requirement, broken.words)
                                      : fmt::format("  {}: {}\n", broken.requirement, broken.words);
        }
    }
    return text + (passed ? "  As the suite wants it.\n" : "  Not as the suite wants it.\n");
}

nlohmann::ordered_json case_json(const ChosenScenario& chosen,
                                 const std::vector<StartResult>& starts) {
    using Json = nlohmann::ordered_json;
    const SuiteCase& one = chosen.one.value();
    Json json;
    json["suite"] = chosen.suite;
    json["id"] = one.id;
    for (const auto& [side, name] : sides(one.place)) {
        json[side] = name->empty() ? Json(nullptr) : Json(*name);
    }
    json["seed"] = one.seed;
    json["drawn"] = Json::object();
    for (const DrawnInput& input : one.drawn) {
        json["drawn"][input.name] = input.value;
    }
    json["accepted"] = Json::array();
    for (const Outcome outcome : one.accepted) {
        json["accepted"].push_back(word_of(outcome));
    }
    json["broken"] = Json::array();
    for (std::size_t k = 0; k < starts.size(); ++k) {
        for (const BrokenRequirement& broken : broken_requirements(one, starts[k])) {
            json["broken"].push_back(
                {{"start", k + 1}, {"requirement", broken.requirement}, {"words", broken.words}});
        }
    }
    return json;
}

}  // namespace sim
