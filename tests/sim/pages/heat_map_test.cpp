// A heat map and histograms as HTML.
#include <gtest/gtest.h>

#include <string>

#include "sim/pages/heat_map_html.hpp"
#include "sim/pages/histogram_html.hpp"

namespace {

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++found;
    }
    return found;
}

sim::HeatMap map_of(const std::vector<double>& values) {
    sim::HeatMap map;
    map.caption = "caption";
    map.unit = "A";
    map.rows = {"row"};
    map.cells.emplace_back();
    for (const double value : values) {
        map.columns.push_back("column");
        map.cells.back().push_back({value, "n" + std::to_string(static_cast<int>(value)), ""});
    }
    return map;
}

std::string cell(int step, int value) {
    return "<td class=\"heat-" + std::to_string(step) + "\"><b>n" + std::to_string(value) + "</b>";
}

TEST(HeatMap, IsDeepestWhereItIsWorst) {
    sim::HeatMap map = map_of({0.0, 50.0, 100.0});
    const std::string high_is_worse = sim::heat_map_html(map);
    EXPECT_NE(high_is_worse.find(cell(0, 0)), std::string::npos);
    EXPECT_NE(high_is_worse.find(cell(3, 50)), std::string::npos);
    EXPECT_NE(high_is_worse.find(cell(6, 100)), std::string::npos);
    map.deepest = sim::Deepest::lowest;
    const std::string low_is_worse = sim::heat_map_html(map);
    EXPECT_NE(low_is_worse.find(cell(6, 0)), std::string::npos);
    EXPECT_NE(low_is_worse.find(cell(0, 100)), std::string::npos);
}

TEST(HeatMap, KeepsToTheScaleThatItIsGiven) {
    sim::HeatMap map = map_of({98.0, 99.0});
    map.deepest = sim::Deepest::lowest;
    map.scale_from = 0.0;
    map.scale_to = 100.0;
    EXPECT_EQ(count(sim::heat_map_html(map), "<td class=\"heat-0\""), 2U);
}

TEST(HeatMap, IsPaleAndWithoutAScaleIfAllCellsAreEqual) {
    const std::string html = sim::heat_map_html(map_of({7.0, 7.0}));
    EXPECT_EQ(count(html, "<td class=\"heat-0\""), 2U);
    EXPECT_EQ(count(html, "heat-scale"), 0U);
}

TEST(HeatMap, IsATableThatAKeyboardReachesAndAReaderUnderstands) {
    sim::HeatMap map = map_of({1.0, 2.0});
    map.cells[0][1].value.reset();
    const std::string html = sim::heat_map_html(map);
    EXPECT_EQ(count(html, "tabindex=\"0\" role=\"region\" aria-label=\"caption\""), 1U);
    EXPECT_EQ(count(html, "<th scope=\"col\">"), 3U);
    EXPECT_EQ(count(html, "<th scope=\"row\">"), 1U);
    EXPECT_EQ(count(html, "<td>-</td>"), 1U);
    EXPECT_EQ(count(html, "style="), 0U);
}

TEST(Histograms, DrawEveryCountAndNothingWhereThereIsNone) {
    sim::Histogram one;
    one.title = "title";
    one.words = "words";
    one.from = 10.0;
    one.width = 5.0;
    one.bars = {{10, 0}, {0, 0}, {5, 5}, {0, 1}};
    const std::string html = sim::histograms_html({"passed", "failed", {one}});
    // One of each is in the legend.
    EXPECT_EQ(count(html, "<rect class=\"below\""), 3U);
    EXPECT_EQ(count(html, "<rect class=\"above\""), 3U);
    EXPECT_NE(html.find("<rect class=\"below\" x=\"0.0\" y=\"0.0\" width=\"74.0\" height=\"90.0\""),
              std::string::npos);
    EXPECT_NE(
        html.find("<rect class=\"above\" x=\"150.0\" y=\"0.0\" width=\"74.0\" height=\"45.0\""),
        std::string::npos);
    EXPECT_NE(html.find("<span>10</span> <span>30</span>"), std::string::npos);
}

}  // namespace
