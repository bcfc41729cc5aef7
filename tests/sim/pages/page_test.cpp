// The shell of every page.
#include "sim/pages/page.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace {

constexpr const char* nasty = "<script>alert('&\"')</script>{{script}}";

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++found;
    }
    return found;
}

sim::Plot plot_named(const std::string& name) {
    sim::Series series;
    series.name = name;
    series.unit = name;
    series.x = {0.0, 1.0, 2.0};
    series.y = {1.0, 2.0, 4.0};
    sim::Panel panel;
    panel.title = name;
    panel.unit = name;
    panel.series = {series};
    panel.words = {{1.0, name}};
    sim::Plot plot;
    plot.title = name;
    plot.x_name = name;
    plot.stretch = sim::Plot::Stretch{name, 0.0, 1.0};
    plot.panels = {panel};
    return plot;
}

sim::Page page_named(const std::string& name) {
    return {
        name,
        name,
        {{name,
          {sim::Paragraph{name}, sim::Notice{name}, sim::Table{name, {name}, {{name, name}}},
           sim::Link{name, name, name}, sim::Listing{name}, plot_named(name),
           sim::HeatMap{name, name, name, name, {name}, {name}, {{{1.0, name, name}}}, {}, {}, {}},
           sim::Histograms{name, name, {{name, name, 0.0, 1.0, {{1, 1}}}}}},
          name}}};
}

TEST(Page, OfTheSameContentHasTheSameBytes) {
    EXPECT_EQ(sim::render(page_named("cellar")), sim::render(page_named("cellar")));
    EXPECT_NE(sim::render(page_named("cellar")), sim::render(page_named("attic")));
}

TEST(Page, ShowsMarkupInNamesAsText) {
    const std::string plain = sim::render(page_named("cellar"));
    const std::string odd = sim::render(page_named(nasty));
    // As many elements begin as with a harmless name.
    EXPECT_EQ(count(odd, "<script"), count(plain, "<script"));
    EXPECT_EQ(count(odd, "</script"), count(plain, "</script"));
    EXPECT_EQ(count(odd, "<"), count(plain, "<"));
    EXPECT_NE(odd.find("<h1>&lt;script&gt;alert(&#39;&amp;&quot;&#39;)"), std::string::npos);
}

TEST(Page, FillsNothingIntoWhatIsFilledIn) {
    const std::string odd = sim::render(page_named(nasty));
    EXPECT_GE(count(odd, "{{script}}"), 10U);
    EXPECT_EQ(count(odd, "uPlot=function"), count(sim::render(page_named("a")), "uPlot=function"));
}

TEST(Page, NamesNoAddressAndAsksForNothing) {
    const std::string page = sim::render(page_named("cellar"));
    for (const std::string asking :
         {"http://", "https://", " src=", "url(", "@import", "fetch(", "XMLHttpRequest",
          "WebSocket", "sendBeacon", "<iframe", "<img", "<object", "import("}) {
        EXPECT_EQ(count(page, asking), 0U) << asking;
    }
    EXPECT_NE(page.find("default-src 'none'"), std::string::npos);
    EXPECT_NE(page.find("<link rel=\"icon\" href=\"data:,\">"), std::string::npos);
    EXPECT_EQ(count(page, "<link"), 1U);
    EXPECT_EQ(count(page, "unsafe"), 0U);
}

TEST(Page, HoldsTheLicenceOfThePlottingLibrary) {
    const std::string page = sim::render(page_named("cellar"));
    EXPECT_NE(page.find("The MIT License"), std::string::npos);
    EXPECT_NE(page.find("Permission is hereby granted"), std::string::npos);
}

TEST(Page, EndsInTheElectricalCautions) {
    const std::string page = sim::render(page_named("cellar"));
    const std::size_t footer = page.find("<footer>");
    ASSERT_NE(footer, std::string::npos);
    EXPECT_NE(page.find("isolate and prove dead", footer), std::string::npos);
    EXPECT_GT(footer, page.find("</main>"));
}

TEST(Page, FoldsAwayOnlyWhatHasWordsToStandInFront) {
    sim::Page page;
    page.sections = {{"open", {sim::Paragraph{"told openly"}}, ""},
                     {"folded", {sim::Paragraph{"kept for later"}}, "Show it"}};
    const std::string text = sim::render(page);
    const std::size_t details = text.find("<details>");
    EXPECT_EQ(count(text, "<details>"), 1U);
    EXPECT_LT(text.find("told openly"), details);
    EXPECT_GT(text.find("kept for later"), details);
    EXPECT_NE(text.find("<summary>Show it</summary>"), std::string::npos);
}

TEST(Plot, LeavesOutPointsThatAreNotFinite) {
    sim::Page with;
    with.sections = {{"", {plot_named("a")}, ""}};
    sim::Plot holed = plot_named("a");
    sim::Series& series = holed.panels.front().series.front();
    series.x = {0.0, 0.5, 1.0, 1.5, 2.0, NAN};
    series.y = {1.0, NAN, 2.0, HUGE_VAL, 4.0, 1.0};
    sim::Page without;
    without.sections = {{"", {holed}, ""}};
    EXPECT_EQ(sim::render(with), sim::render(without));
}

}  // namespace
