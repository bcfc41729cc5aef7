#include "sim/results/campaign_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

namespace sim {

namespace {

/// Every name that any case has drawn, in the order in which they first come.
std::vector<std::string> drawn_names(const CampaignResults& results) {
    std::vector<std::string> names;
    std::map<std::string, bool> seen;
    for (const CaseRecord& one : results.cases) {
        for (const DrawnInput& input : one.inputs) {
            if (!seen[input.name]) {
                seen[input.name] = true;
                names.push_back(input.name);
            }
        }
    }
    return names;
}

std::string row_of(const std::vector<std::string>& fields) {
    std::string row;
    for (std::size_t k = 0; k < fields.size(); ++k) {
        row += (k == 0 ? "" : ",") + csv_field(fields[k]);
    }
    return row + "\r\n";
}

std::vector<std::string> header_of(const CampaignResults& results,
                                   const std::vector<std::string>& drawn) {
    std::vector<std::string> header = {"case", "start"};
    for (const MatrixSide& side : matrix_sides()) {
        header.emplace_back(side.name);
    }
    header.insert(header.end(), {"seed", "scenario_hash", "settings_hash", "outcome", "cause",
                                 "expected", "passed", "broken"});
    for (const std::string& name : drawn) {
        header.push_back("drawn:" + name);
    }
    header.insert(header.end(), results.figures.begin(), results.figures.end());
    return header;
}

std::string broken_names(const StartRow& start) {
    std::string names;
    for (const BrokenRequirement& one : start.broken) {
        names += (names.empty() ? "" : " ") + one.requirement;
    }
    return names;
}

std::string drawn_value(const CaseRecord& one, const std::string& name) {
    const auto found =
        std::find_if(one.inputs.begin(), one.inputs.end(),
                     [&name](const DrawnInput& input) { return input.name == name; });
    return found == one.inputs.end() ? "" : fmt::format("{}", found->value);
}

}  // namespace

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) {
        return text;
    }
    std::string quoted = "\"";
    for (const char letter : text) {
        quoted += letter == '"' ? "\"\"" : std::string(1, letter);
    }
    return quoted + "\"";
}

std::string campaign_csv(const CampaignResults& results) {
    const std::vector<std::string> drawn = drawn_names(results);
    std::string text = row_of(header_of(results, drawn));
    for (const CaseRecord& one : results.cases) {
        for (const StartRow& start : one.starts) {
            std::vector<std::string> row = {fmt::format("{}", one.id),
                                            fmt::format("{}", start.start)};
            for (const MatrixSide& side : matrix_sides()) {
                row.push_back(one.place.*side.member);
            }
            row.insert(row.end(), {fmt::format("{}", one.seed), one.scenario_hash,
                                   one.settings_hash, start.outcome, start.cause, start.expected,
                                   start.passed ? "1" : "0", broken_names(start)});
            for (const std::string& name : drawn) {
                row.push_back(drawn_value(one, name));
            }
            for (std::size_t k = 0; k < results.figures.size(); ++k) {
                const std::optional<double> figure = figure_of(start, k);
                row.push_back(figure ? fmt::format("{}", *figure) : "");
            }
            text += row_of(row);
        }
    }
    return text;
}

}  // namespace sim
