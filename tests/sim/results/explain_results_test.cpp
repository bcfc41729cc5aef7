// An explanation as text and as JSON.
#include <gtest/gtest.h>

#include <sstream>
#include <string>

#include "bench/cases.hpp"
#include "explaining/explained_cases.hpp"
#include "sim/results/explain_json.hpp"
#include "sim/results/explain_text.hpp"
#include "sim/results/explain_words.hpp"

namespace {

using sim_test::bundled;
using sim_test::with_threads;

TEST(ExplainJson, HasItsSchemaAndItsKeys) {
    const auto json = explain_json(sim::explain(bundled("bakery_short_rest"), with_threads(2)));
    EXPECT_EQ(json["schema"], "runup.explain/1");
    EXPECT_EQ(json["scenario"], "bakery_short_rest");
    EXPECT_EQ(json["outcome"], "stalled");
    EXPECT_EQ(json["as_expected"], true);
    EXPECT_EQ(json["comes_up"], false);
    EXPECT_EQ(json["cause"], "rotor_stayed_slow");
    EXPECT_TRUE(json["time_to_speed_s"].is_null());
    EXPECT_TRUE(json["together"].is_null());
    EXPECT_EQ(json["interrupted"], false);
    EXPECT_EQ(json["changes_not_tried"], 0);
    ASSERT_FALSE(json["story"].empty());
    for (const auto& sentence : json["story"]) {
        EXPECT_TRUE(sentence["time_s"].is_number());
        EXPECT_TRUE(sentence["text"].is_string());
        EXPECT_TRUE(sentence["figures"].is_object());
    }
}

TEST(ExplainJson, ALimitHasTwoSidesAndEveryOtherChangeHasNulls) {
    const auto json = explain_json(sim::explain(bundled("bakery_short_rest"), with_threads(2)));
    int limits = 0;
    for (const auto& change : json["changes"]) {
        const bool has_limit = change["comes_up_at"].is_number();
        EXPECT_EQ(change["fails_at"].is_number(), has_limit) << change["name"];
        EXPECT_FALSE(has_limit && !change["makes_the_difference"].get<bool>()) << change["name"];
        limits += has_limit ? 1 : 0;
        bool seen_up = false;
        for (const auto& tried : change["tried"]) {
            seen_up = seen_up || tried["comes_up"].get<bool>();
        }
        EXPECT_EQ(seen_up, change["makes_the_difference"].get<bool>()) << change["name"];
    }
    EXPECT_GE(limits, 1);
}

TEST(ExplainJson, OfAStartThatComesUpTheSidesAreTheOtherWayRound) {
    const auto json = explain_json(sim::explain(bundled("reference_limited"), with_threads(2)));
    EXPECT_EQ(json["comes_up"], true);
    EXPECT_TRUE(json["cause"].is_null());
    EXPECT_TRUE(json["time_to_speed_s"].is_number());
    for (const auto& change : json["changes"]) {
        if (change["name"] == "lower_line_voltage") {
            EXPECT_GT(change["comes_up_at"].get<double>(), change["fails_at"].get<double>());
            return;
        }
    }
    FAIL() << "no lower_line_voltage";
}

TEST(ExplainJson, PairsNameBothChanges) {
    const auto json = explain_json(
        sim::explain(sim_test::milk_cooler_with_faults({"run_capacitor_open", "thyristor_shorted"}),
                     with_threads(2)));
    ASSERT_EQ(json["together"]["pairs"].size(), 1U);
    EXPECT_EQ(json["together"]["pairs"][0]["changes"].size(), 2U);
    EXPECT_TRUE(json["together"]["pairs"][0]["changes"][0]["value"].is_null());
    EXPECT_TRUE(json["together"]["minimal_set"].is_null());
}

TEST(ExplainText, TellsStoryCuresAndWhatIsInVainWithinAHundredColumns) {
    const std::string text =
        explain_text(sim::explain(bundled("hut_inverter_direct"), with_threads(2)));
    for (const char* words :
         {"What happened", "What brings it up, one thing changed at a time",
          "What alone does not, as far as tried", "a limiter, with a start capacitor: ",
          "a longer overload time of the inverter: to 15 s (given 5 s)",
          "isolate and prove dead"}) {
        EXPECT_NE(text.find(words), std::string::npos) << words << "\n" << text;
    }
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
}

TEST(ExplainText, ALimitIsGivenWithBothSidesAndTheGivenValue) {
    const sim::Explanation explanation =
        sim::explain(bundled("bakery_short_rest"), with_threads(2));
    const sim::WayOfChange& way = sim_test::way_of(explanation, "longer_rest");
    ASSERT_TRUE(way.turn);
    std::ostringstream expected;
    expected << "from " << way.turn->after << " s; " << way.turn->before
             << " s does not do (given 20 s)";
    EXPECT_EQ(what_came_of(way, explanation), expected.str());
}

TEST(ExplainText, SaysWhenItWasInterrupted) {
    sim::SearchControl control = with_threads(1);
    control.interrupted = [] { return true; };
    const sim::Explanation explanation = sim::explain(bundled("bakery_short_rest"), control);
    EXPECT_NE(explain_text(explanation).find("Interrupted: "), std::string::npos);
    EXPECT_NE(explain_verdict(explanation).find(", interrupted"), std::string::npos);
}

TEST(ExplainText, TheVerdictIsOneLineWithTheNamesOfTheCures) {
    const std::string line =
        explain_verdict(sim::explain(bundled("farm_run_capacitor_open"), with_threads(2)));
    EXPECT_EQ(line,
              "farm_run_capacitor_open: resting (run capacitor open); comes up with "
              "no_fault_run_capacitor_open\n");
}

}  // namespace
