#include "sim/results/text_chart.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {

TEST(TextChart, ShowsFullScaleAsAFullBlockAndNothingAsABlank) {
    EXPECT_EQ(sim::text_chart({{0.25, 0.0}, {0.5, 8.0}, {0.75, 4.0}, {1.0, 1.0}}, 1.0, 8.0, 4),
              " █▄▁");
}

TEST(TextChart, NeverLeavesASmallValueBlank) {
    EXPECT_EQ(sim::text_chart({{1.0, 0.01}}, 1.0, 1.0, 1), "▁");
}

TEST(TextChart, ShowsADashWhereTheRotorTurnsBackwards) {
    EXPECT_EQ(
        sim::text_chart({{1.0, 100.0}, {2.0, -4.0}, {3.0, -6.0}, {4.0, -100.0}}, 4.0, 100.0, 4),
        "█ --");
    // Both ways within one column: what it does forwards is shown.
    EXPECT_EQ(sim::text_chart({{0.5, -50.0}, {1.0, 50.0}}, 1.0, 100.0, 1), "▄");
}

TEST(TextChart, ShowsTheLargestValueOfEachColumn) {
    std::vector<sim::TimedValue> values;
    for (int k = 1; k <= 100; ++k) {
        values.push_back({0.01 * k, k == 37 ? 1.0 : 0.125});
    }
    EXPECT_EQ(sim::text_chart(values, 1.0, 1.0, 10), "▁▁▁█▁▁▁▁▁▁");
}

TEST(TextChart, PutsAValueIntoTheColumnInWhichItsIntervalEnds) {
    // Exactly on the border between two columns: it belongs to the first.
    EXPECT_EQ(sim::text_chart({{0.5, 1.0}}, 1.0, 1.0, 2), "█ ");
    EXPECT_EQ(sim::text_chart({{0.51, 1.0}}, 1.0, 1.0, 2), " █");
}

TEST(TextChart, DropsWhatLiesBeyondItsSpanAndCutsWhatIsTooLarge) {
    EXPECT_EQ(sim::text_chart({{1.0, 99.0}, {1.5, 1.0}}, 1.0, 1.0, 2), " █");
}

TEST(TextChart, OfNothingIsBlank) {
    EXPECT_EQ(sim::text_chart({}, 1.0, 1.0, 3), "   ");
    EXPECT_EQ(sim::text_chart({{1.0, 0.0}}, 1.0, 0.0, 3), "   ");
}

}  // namespace
