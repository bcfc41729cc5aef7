#include "sim/comparing/comparison.hpp"

#include <algorithm>

#include "sim/comparing/figure_changes.hpp"
#include "sim/comparing/requirement_changes.hpp"
#include "sim/statistics/holm.hpp"

namespace sim {

namespace {

struct Scope {
    std::string block;
    std::vector<const CasePair*> pairs;
};

/// The whole suite, then each block if there are several.
std::vector<Scope> scopes_of(const CasePairs& pairs) {
    std::vector<Scope> scopes(1);
    for (const CasePair& pair : pairs.pairs) {
        scopes.front().pairs.push_back(&pair);
        const std::string& block = pair.new_case->place.block;
        auto found = std::find_if(scopes.begin() + 1, scopes.end(),
                                  [&block](const Scope& one) { return one.block == block; });
        if (found == scopes.end()) {
            scopes.push_back({block, {}});
            found = scopes.end() - 1;
        }
        found->pairs.push_back(&pair);
    }
    if (scopes.size() == 2) {
        scopes.pop_back();
    }
    return scopes;
}

/// Figures that both files have and this program knows; the names of the others go to `of_one`.
std::vector<FigurePlaces> common_figures(const CampaignResults& old_results,
                                         const CampaignResults& new_results,
                                         std::vector<std::string>& of_one) {
    std::vector<FigurePlaces> common;
    for (const Figure& figure : figure_list()) {
        const std::string name(figure.name);
        const auto in_old = old_results.place_of(name);
        const auto in_new = new_results.place_of(name);
        if (in_old && in_new) {
            common.push_back({&figure, *in_old, *in_new});
        }
    }
    for (const auto& [mine, other] :
         {std::make_pair(&old_results, &new_results), std::make_pair(&new_results, &old_results)}) {
        for (const std::string& name : mine->figures) {
            if (!other->place_of(name)) {
                of_one.push_back(name);
            }
        }
    }
    return common;
}

/// Those that cannot find anything (nothing moved, or judged without statistics) do not count among
/// the many tests.
void correct_for_many(Comparison& comparison) {
    std::vector<double> p_values;
    std::vector<double*> adjusted;
    for (RequirementChange& one : comparison.requirements) {
        if (!one.is_safety && one.cases.newly_failed + one.cases.newly_passed > 0) {
            p_values.push_back(one.p_value);
            adjusted.push_back(&one.adjusted_p);
        }
    }
    for (FigureChange& one : comparison.figures) {
        if (one.moved.positive + one.moved.negative > 0) {
            p_values.push_back(one.moved.p_value);
            adjusted.push_back(&one.adjusted_p);
        }
    }
    const std::vector<double> corrected = holm_adjusted(p_values);
    for (std::size_t k = 0; k < corrected.size(); ++k) {
        *adjusted[k] = corrected[k];
    }
}

}  // namespace

std::string_view word_of(Change change) {
    switch (change) {
        case Change::identical:
            return "identical";
        case Change::same:
            return "same";
        case Change::better:
            return "better";
        case Change::worse:
            return "worse";
        case Change::mixed:
            return "mixed";
        case Change::changed:
            return "changed";
        case Change::noise:
            return "noise";
    }
    return "";
}

bool Comparison::anything_worse() const {
    const auto is_worse = [](const auto& one) {
        return one.change == Change::worse || one.change == Change::mixed;
    };
    return std::any_of(requirements.begin(), requirements.end(), is_worse) ||
           std::any_of(figures.begin(), figures.end(), is_worse);
}

bool Comparison::all_identical() const {
    return std::all_of(requirements.begin(), requirements.end(),
                       [](const RequirementChange& one) { return one.change == Change::same; }) &&
           std::all_of(figures.begin(), figures.end(),
                       [](const FigureChange& one) { return one.change == Change::identical; });
}

Comparison compared(const CampaignResults& old_results, const CampaignResults& new_results,
                    const ComparisonRules& rules) {
    Comparison comparison;
    comparison.pairs = paired_cases(old_results, new_results);
    const std::vector<FigurePlaces> figures =
        common_figures(old_results, new_results, comparison.figures_of_one);
    for (const Scope& scope : scopes_of(comparison.pairs)) {
        for (RequirementChange& one : requirement_changes(scope.pairs, scope.block)) {
            comparison.requirements.push_back(std::move(one));
        }
        for (const FigurePlaces& places : figures) {
            if (auto one = figure_change(scope.pairs, scope.block, places, rules)) {
                comparison.figures.push_back(std::move(*one));
            }
        }
    }
    correct_for_many(comparison);
    for (RequirementChange& one : comparison.requirements) {
        one.change = judged(one, rules);
    }
    for (FigureChange& one : comparison.figures) {
        one.change = judged(one, rules);
    }
    return comparison;
}

}  // namespace sim
