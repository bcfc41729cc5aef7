#include "sim/scenario/outcome.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string_view>

namespace {

TEST(Outcome, EveryWordLeadsBackToItsOutcome) {
    std::set<std::string_view> words;
    for (const sim::OutcomeWord& row : sim::outcome_words()) {
        EXPECT_EQ(sim::word_of(row.outcome), row.word);
        EXPECT_EQ(sim::outcome_from_word(row.word), row.outcome);
        EXPECT_FALSE(row.meaning.empty());
        words.insert(row.word);
    }
    EXPECT_EQ(words.size(), sim::outcome_words().size());
}

TEST(Outcome, AWordOutsideTheListIsNone) {
    EXPECT_EQ(sim::outcome_from_word("fine"), std::nullopt);
    EXPECT_EQ(sim::outcome_from_word(""), std::nullopt);
}

}  // namespace
