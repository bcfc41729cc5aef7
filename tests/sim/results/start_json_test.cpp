// The contract "runup.start/1" as other tools read it.
#include "sim/results/start_json.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "results/sample_results.hpp"

namespace {

/// Through text and back, as a reader gets it.
nlohmann::ordered_json read_back(const sim::StartResult& result) {
    return nlohmann::ordered_json::parse(sim::start_json(result).dump(2));
}

std::vector<std::string> keys(const nlohmann::ordered_json& object) {
    std::vector<std::string> names;
    for (const auto& item : object.items()) {
        names.push_back(item.key());
    }
    return names;
}

using Names = std::vector<std::string>;

TEST(StartJson, HasTheKeysOfTheContractInItsOrder) {
    const auto json = read_back(sim_test::full_result());
    EXPECT_EQ(keys(json), (Names{"schema", "scenario", "outcome", "as_expected", "time_to_speed_s",
                                 "handover_s", "final_speed_rpm", "line_current", "line_voltage",
                                 "energy", "monitors", "cause", "warnings", "controller"}));
    EXPECT_EQ(keys(json["line_current"]), (Names{"peak_A", "half_cycle_rms_max_A",
                                                 "one_cycle_rms_max_A", "inrush_100ms_rms_A"}));
    EXPECT_EQ(keys(json["line_voltage"]), (Names{"half_cycle_rms_min_V", "one_cycle_rms_min_V"}));
    EXPECT_EQ(keys(json["energy"]),
              (Names{"source_J", "loss_J", "load_J", "stored_J", "closure", "losses"}));
}

TEST(StartJson, HoldsEveryFigureUnchanged) {
    const auto json = read_back(sim_test::full_result());
    EXPECT_EQ(json["schema"], "runup.start/1");
    EXPECT_EQ(json["scenario"], "cellar");
    EXPECT_EQ(json["outcome"], "running");
    EXPECT_EQ(json["as_expected"], true);
    EXPECT_EQ(json["time_to_speed_s"], 0.8125);
    EXPECT_EQ(json["handover_s"], 0.9375);
    EXPECT_EQ(json["final_speed_rpm"], 3507.5);
    EXPECT_EQ(json["line_current"]["peak_A"], 50.25);
    EXPECT_EQ(json["line_current"]["half_cycle_rms_max_A"], 33.5);
    EXPECT_EQ(json["line_current"]["one_cycle_rms_max_A"], 32.75);
    EXPECT_EQ(json["line_current"]["inrush_100ms_rms_A"], 27.625);
    EXPECT_EQ(json["line_voltage"]["half_cycle_rms_min_V"], 226.5);
    EXPECT_EQ(json["line_voltage"]["one_cycle_rms_min_V"], 227.25);
    EXPECT_EQ(json["energy"]["source_J"], 1000.0);
    EXPECT_EQ(json["energy"]["loss_J"], 392.0);
    EXPECT_EQ(json["energy"]["load_J"], 350.0);
    EXPECT_EQ(json["energy"]["stored_J"], 257.75);
    EXPECT_NEAR(json["energy"]["closure"].get<double>(), 0.25 / 1000.0, 1e-12);
    EXPECT_EQ(json["energy"]["losses"]["iron_J"], 15.0);
    EXPECT_EQ(json["cause"], nullptr);
    EXPECT_EQ(json["controller"][1]["state"], "climbing");
    EXPECT_EQ(json["controller"][1]["time_s"], 0.25);
    EXPECT_EQ(json["controller"][1]["stage"], 1);
}

TEST(StartJson, SaysNullAndNeverZeroWhereNothingExists) {
    const auto json = read_back(sim_test::empty_result());
    EXPECT_TRUE(json["time_to_speed_s"].is_null());
    EXPECT_TRUE(json["handover_s"].is_null());
    EXPECT_TRUE(json["line_current"]["half_cycle_rms_max_A"].is_null());
    EXPECT_TRUE(json["line_current"]["one_cycle_rms_max_A"].is_null());
    EXPECT_TRUE(json["line_current"]["inrush_100ms_rms_A"].is_null());
    EXPECT_TRUE(json["line_voltage"]["half_cycle_rms_min_V"].is_null());
    EXPECT_TRUE(json["line_voltage"]["one_cycle_rms_min_V"].is_null());
    EXPECT_EQ(json["cause"], "rotor_never_turned");
    EXPECT_EQ(json["outcome"], "stalled");
    EXPECT_FALSE(json.contains("controller"));
}

TEST(StartJson, ListsBrokenMonitorsWithWhatWasSeenAndAllowed) {
    sim::StartResult result = sim_test::full_result();
    EXPECT_TRUE(read_back(result)["monitors"].is_array());
    EXPECT_TRUE(read_back(result)["monitors"].empty());
    result.monitors = {{"retry_before_rest", {12.5, 2.0, 180.0, "s"}},
                       {"bypass_closed_below_speed", {0.5, 70.0, 85.0, "%"}}};
    const auto list = read_back(result)["monitors"];
    ASSERT_EQ(list.size(), 2U);
    EXPECT_EQ(list[0]["name"], "retry_before_rest");
    EXPECT_EQ(list[0]["time_s"], 12.5);
    EXPECT_EQ(list[0]["seen"], 2.0);
    EXPECT_EQ(list[0]["allowed"], 180.0);
    EXPECT_EQ(list[0]["unit"], "s");
    EXPECT_EQ(list[1]["name"], "bypass_closed_below_speed");
}

TEST(StartJson, WritesEveryOutcomeAsItsDocumentedWord) {
    sim::StartResult result = sim_test::full_result();
    for (const sim::OutcomeWord& row : sim::outcome_words()) {
        result.outcome = row.outcome;
        EXPECT_EQ(read_back(result)["outcome"], row.word);
    }
}

}  // namespace
