#include "sim/replay/recorded_settings.hpp"

#include <gtest/gtest.h>

#include <cstring>

#include "bench/cases.hpp"
#include "sim/files/input_error.hpp"

namespace {

using Json = nlohmann::ordered_json;

std::string refusal(const Json& json) {
    try {
        sim::settings_from_json(json, "a.rec");
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(RecordedSettings, ComeBackToTheLastCount) {
    for (const std::string& name : sim_test::bundled_names()) {
        const sim::Scenario scenario = sim_test::bundled(name);
        const firmware::Settings* settings = sim::settings_of(scenario.limiter);
        if (settings == nullptr) {
            continue;
        }
        const Json json = sim::settings_json(*settings);
        EXPECT_EQ(sim::settings_json(sim::settings_from_json(Json::parse(json.dump()), "a.rec")),
                  json)
            << name;
    }
    firmware::Settings odd;
    odd.learning_law = firmware::LearningLawKind::none;
    odd.run_capacitor_fitted = 0;
    odd.rated_voltage_V = 115;
    odd.line_frequency_min_mHz = 46123;
    odd.full_conduction_angle_mdeg = 8111;
    odd.sag_limit_permille = 657;
    odd.stage_count = 3;
    odd.stages = {};
    odd.stages[0] = {301, 333};
    odd.stages[1] = {507, 444};
    odd.stages[2] = {999, 555};
    const firmware::Settings back =
        sim::settings_from_json(Json::parse(sim::settings_json(odd).dump()), "a.rec");
    // Plain integers without padding between them.
    EXPECT_EQ(std::memcmp(&back, &odd, sizeof odd), 0);
}

TEST(RecordedSettings, ThatAreMissingAreTheDefaults) {
    const firmware::Settings defaults;
    const firmware::Settings back = sim::settings_from_json(Json::object(), "a.rec");
    EXPECT_EQ(sim::settings_json(back), sim::settings_json(defaults));
}

TEST(RecordedSettings, ThatThisBuildDoesNotAcceptAreRefusedInOneSentence) {
    EXPECT_EQ(refusal({{"tries", 0}}),
              "a.rec:1: settings.tries: 0 is not accepted; give a whole number from 1 to 20");
    EXPECT_EQ(refusal({{"triess", 3}}),
              "a.rec:1: settings.triess: this build's controller has no such setting; did you mean "
              "tries?");
    EXPECT_EQ(refusal({{"learning_law", "magic"}}).rfind("a.rec:1: settings.learning_law: ", 0),
              0U);
    EXPECT_EQ(refusal({{"tries", {{"a", 1}}}}).rfind("a.rec:1: settings.tries: ", 0), 0U);
    EXPECT_EQ(refusal({{"line_voltage_min_V", 290}}),
              "a.rec:1: settings.line_voltage_min_V: must be below line_voltage_max_V");
}

}  // namespace
