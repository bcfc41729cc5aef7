#include "firmware/learning/learning_laws.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

constexpr MilliAmperes motor{40000};

Permille first_target(const LearningLaws& laws, bool line_lifted) {
    return laws.ladder_for(motor, line_lifted).stages[0].target;
}

LearningLaws having_learned(Permille level) {
    LearningLaws laws{Settings{}};
    Learned learned = Easing::fresh();
    learned.locked_rotor = motor;
    learned.level = level;
    learned.good = level;
    laws.remember(learned);
    return laws;
}

// Covers: LRN-12
TEST(LearningLaws, ALineThatTheStartCapacitorLiftsIsMetWithNoEasedLadder) {
    const Permille as_set = factory_ladder(Settings{}).stages[0].target;
    const LearningLaws eased = having_learned(Permille{700});
    EXPECT_LT(first_target(eased, false), as_set);
    EXPECT_EQ(first_target(eased, true), as_set);
    const LearningLaws raised = having_learned(Permille{1300});
    EXPECT_GT(first_target(raised, false), as_set);
    EXPECT_EQ(first_target(raised, true), first_target(raised, false)) << "it draws the line down";
}

}  // namespace
