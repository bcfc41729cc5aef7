#include "sim/explaining/explanation.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>

#include "bench/cases.hpp"
#include "explaining/explained_cases.hpp"
#include "sim/explaining/change_list.hpp"
#include "sim/results/explain_json.hpp"

namespace {

using sim_test::bundled;
using sim_test::milk_cooler_with_faults;
using sim_test::way_of;
using sim_test::with_threads;

std::vector<std::string> names_that_turn(const sim::Explanation& explanation) {
    std::vector<std::string> names;
    for (const sim::WayOfChange& way : explanation.ways) {
        if (way.turn) {
            names.push_back(way.change.name);
        }
    }
    return names;
}

TEST(Explanation, TheHutsDirectStartIsCuredByALimiterOrALargerInverter) {
    const sim::Explanation explanation =
        sim::explain(bundled("hut_inverter_direct"), with_threads(2));
    EXPECT_FALSE(explanation.comes_up);
    EXPECT_EQ(explanation.start.cause, "inverter_overload");
    const sim::WayOfChange& limiter = way_of(explanation, "limiter");
    ASSERT_TRUE(limiter.turn);
    EXPECT_TRUE(std::all_of(limiter.tried.begin(), limiter.tried.end(),
                            [](const sim::TriedValue& one) { return one.comes_up; }));
    EXPECT_TRUE(way_of(explanation, "larger_inverter").turn);
    // Not its timer, nor its bus: what it may carry at once.
    EXPECT_FALSE(way_of(explanation, "longer_overload_time").turn);
    EXPECT_FALSE(way_of(explanation, "more_bus_storage").turn);
    EXPECT_FALSE(explanation.together) << "a single change suffices";
}

TEST(Explanation, TheLargerInverterOfTheHutIsOneOfAPeakLimitThatAFileMayGive) {
    // The file's peak limit takes every rating that is not given along with it.
    const sim::Explanation explanation =
        sim::explain(bundled("hut_inverter_direct"), with_threads(2));
    const sim::WayOfChange& way = way_of(explanation, "larger_inverter");
    ASSERT_TRUE(way.turn);
    const auto peak_A = [&](double rated_VA) { return 60.0 * rated_VA / way.change.given; };
    EXPECT_FALSE(sim::comes_up(sim::run_start(sim_test::bundled_with(
        "hut_inverter_direct", "peak_current_limit_A", std::to_string(peak_A(way.turn->before))))));
    EXPECT_TRUE(sim::comes_up(sim::run_start(sim_test::bundled_with(
        "hut_inverter_direct", "peak_current_limit_A", std::to_string(peak_A(way.turn->after))))));
}

TEST(Explanation, AFaultThatIsTheOnlyCauseIsTheOnlyCure) {
    const sim::Explanation explanation =
        sim::explain(bundled("farm_run_capacitor_open"), with_threads(2));
    EXPECT_EQ(names_that_turn(explanation),
              std::vector<std::string>{"no_fault_run_capacitor_open"});
}

TEST(Explanation, AHealthyStartHasLimitsToWhatItBears) {
    const sim::Explanation explanation =
        sim::explain(bundled("reference_limited"), with_threads(2));
    EXPECT_TRUE(explanation.comes_up);
    for (const char* name : {"lower_line_voltage", "gentler_ladder", "tighter_compressor"}) {
        const sim::WayOfChange& way = way_of(explanation, name);
        EXPECT_TRUE(way.begins_up) << name;
        ASSERT_TRUE(way.turn) << name;
        EXPECT_TRUE(sim::comes_up(sim::run_start(
            sim::with_change(bundled("reference_limited"), way.change, way.turn->before))))
            << name;
        EXPECT_FALSE(sim::comes_up(sim::run_start(
            sim::with_change(bundled("reference_limited"), way.change, way.turn->after))))
            << name;
    }
    EXPECT_FALSE(explanation.together);
}

TEST(Explanation, TwoCausesAreFoundAsAPair) {
    const sim::Explanation explanation = sim::explain(
        milk_cooler_with_faults({"run_capacitor_open", "thyristor_shorted"}), with_threads(2));
    EXPECT_FALSE(explanation.comes_up);
    EXPECT_TRUE(names_that_turn(explanation).empty());
    ASSERT_TRUE(explanation.together);
    ASSERT_EQ(explanation.together->pairs.size(), 1U);
    const auto& parts = explanation.together->pairs.front().parts;
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_EQ(parts[0].change.name, "no_fault_run_capacitor_open");
    EXPECT_EQ(parts[1].change.name, "no_fault_thyristor_shorted");
    EXPECT_GT(explanation.together->pairs_tried, 20);
}

TEST(Explanation, ThreeCausesAreFoundAsASetFromWhichNothingCanBeLeftOut) {
    const sim::Explanation explanation = sim::explain(
        milk_cooler_with_faults({"run_capacitor_open", "thyristor_shorted", "rotor_seized"}),
        with_threads(2));
    ASSERT_TRUE(explanation.together);
    EXPECT_TRUE(explanation.together->pairs.empty());
    ASSERT_TRUE(explanation.together->minimal_set);
    std::vector<std::string> names;
    for (const auto& part : explanation.together->minimal_set->parts) {
        names.push_back(part.change.name);
    }
    EXPECT_EQ(names,
              (std::vector<std::string>{"no_fault_run_capacitor_open", "no_fault_thyristor_shorted",
                                        "no_fault_rotor_seized"}));
}

TEST(Explanation, APairComesUpAtTheShareItReportsAndNotMuchBefore) {
    // The hut's direct start on a smaller inverter, and with a compressor that is hard to turn.
    sim::Scenario scenario = bundled("hut_inverter_direct");
    std::get<plant_models::InverterParameters>(scenario.source).peak_current_limit_A = 45.0;
    scenario.run.duration_s = 3.0;
    const sim::Changes changes{sim::larger_run_capacitor(scenario).front(),
                               sim::larger_inverter(scenario).front()};
    const auto search = sim::search_together(scenario, changes, {2, {}, [] { return false; }});
    ASSERT_TRUE(search);
    ASSERT_EQ(search->pairs.size(), 1U);
    const sim::ChangedTogether& pair = search->pairs.front();
    const auto comes_up_at = [&](double share) {
        sim::Scenario changed = scenario;
        for (const sim::Change& change : changes) {
            change.set(changed, sim::value_at(change, share));
        }
        return sim::comes_up(sim::run_start(changed));
    };
    EXPECT_LT(pair.share, 1.0);
    EXPECT_TRUE(comes_up_at(pair.share));
    EXPECT_FALSE(comes_up_at(pair.share - 0.05));
}

TEST(Explanation, IsTheSameAtAnyNumberOfThreads) {
    for (const char* name : {"bakery_short_rest", "reference_limited"}) {
        const std::string alone = explain_json(sim::explain(bundled(name), with_threads(1))).dump();
        EXPECT_EQ(explain_json(sim::explain(bundled(name), with_threads(3))).dump(), alone) << name;
    }
    const sim::Scenario two_faults =
        milk_cooler_with_faults({"run_capacitor_open", "thyristor_shorted"});
    EXPECT_EQ(explain_json(sim::explain(two_faults, with_threads(3))).dump(),
              explain_json(sim::explain(two_faults, with_threads(1))).dump());
}

TEST(Explanation, AnInterruptionKeepsWhatIsKnown) {
    std::atomic<int> finished{0};
    sim::SearchControl control = with_threads(2);
    control.progress = [&finished](int done, int) { finished = done; };
    control.interrupted = [&finished] { return finished >= 3; };
    const sim::Explanation explanation = sim::explain(bundled("bakery_short_rest"), control);
    EXPECT_TRUE(explanation.was_interrupted);
    EXPECT_GE(explanation.ways.size(), 3U);
    EXPECT_GT(explanation.ways_not_tried, 0);
    EXPECT_FALSE(explanation.story.empty());
    EXPECT_EQ(explanation.ways.size() + static_cast<std::size_t>(explanation.ways_not_tried),
              sim::remedies_for(bundled("bakery_short_rest")).size());
}

}  // namespace
