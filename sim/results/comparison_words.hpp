// The words for a comparison that text and page share.
#pragma once

#include <string>
#include <vector>

#include "sim/comparing/comparison.hpp"

namespace sim {

/// Two campaigns and what came of comparing them.
struct ComparedCampaigns {
    std::string old_name;  ///< of the files, as the user gave them
    std::string new_name;
    const CampaignResults* old_results = nullptr;
    const CampaignResults* new_results = nullptr;
    ComparisonRules rules;
    Comparison comparison;
};

/// What it comes to, in a sentence.
std::string comparison_verdict(const Comparison& comparison);

/// What was paired, what could not be and why, and how the two differ otherwise; whole sentences.
std::vector<std::string> pairing_sentences(const ComparedCampaigns& compared);

/// How "noise" and the other words are meant; whole sentences.
std::vector<std::string> comparison_rules_sentences(const ComparisonRules& rules);

/// "12 of 200 moved, 9 up and 3 down".
std::string moved_words(const FigureChange& one);

/// "+0.52 (0.31 to 0.77)": the median difference over all pairs with its interval.
std::string difference_words(const FigureChange& one);

std::string p_words(double p_value);

/// Worth a row: something changed, or there is something to say.
bool is_worth_a_row(const RequirementChange& one);
bool is_worth_a_row(const FigureChange& one);

}  // namespace sim
