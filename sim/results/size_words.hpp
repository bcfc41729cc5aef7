// The words of an answer of runup size, for the page in text and the one in HTML.
#pragma once

#include <string>
#include <vector>

#include "sim/sizing/size_report.hpp"

namespace sim {

/// The answer, a sentence for each kind of supply.
std::vector<std::string> answer_sentences(const SizeReport& report);

/// Of a supply, in a few words.
std::string words_for(const SupplyDecision& decision);

/// How the normal day went: "up, 26 A", or in at most thirteen letters why it did not come up.
std::string normal_day_words(const WayOnSupply& way);
/// Per cent: "98 (95-99)"; empty without bad days.
std::string bad_days_words(const WayOnSupply& way);

/// How far the voltage falls on the normal day: "93 %"; empty if it does not come up.
std::string voltage_words(const SupplyAtHand& supply, const WayOnSupply& way);

/// Bad days that were lost, a row for each supply and way that lost some.
struct LostDays {
    std::string supply;
    std::string way;
    std::string words;  ///< how many, and how most of them ended
};
std::vector<LostDays> lost_days(const SizeReport& report);

/// What must not be overlooked; empty if nothing.
std::vector<std::string> size_warnings(const SizeReport& report);

/// What the figures mean and what a bad day is, as sentences.
std::vector<std::string> rule_sentences(const SizeReport& report);

}  // namespace sim
