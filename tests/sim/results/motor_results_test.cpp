// The phasor solution as JSON and as text.
#include <gtest/gtest.h>

#include <complex>
#include <set>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/motor_curves.hpp"
#include "sim/results/motor_json.hpp"
#include "sim/results/motor_text.hpp"

namespace {

sim::MotorCurves curves(const std::vector<double>& slips = {}) {
    return sim::motor_curves(sim_test::bundled("dairy_50hz"), slips);
}

TEST(MotorJson, HasTheKeysOfTheContract) {
    const auto json = nlohmann::ordered_json::parse(sim::motor_json(curves()).dump());
    EXPECT_EQ(json["schema"], "runup.motor/1");
    EXPECT_EQ(json["scenario"], "dairy_50hz");
    for (const char* key : {"line_current_A", "power_factor", "torque_Nm"}) {
        EXPECT_TRUE(json["locked_rotor"][key].is_number()) << key;
    }
    ASSERT_GT(json["curve"].size(), 20U);
    for (const auto& row : json["curve"]) {
        std::vector<std::string> names;
        for (const auto& item : row.items()) {
            names.push_back(item.key());
        }
        ASSERT_EQ(names, (std::vector<std::string>{
                             "slip", "speed_rpm", "torque_Nm", "line_current_A", "main_current_A",
                             "aux_current_A", "power_factor", "shaft_power_W", "efficiency"}));
    }
}

TEST(MotorJson, SaysNullForAnEfficiencyThatDoesNotExist) {
    const auto json = sim::motor_json(curves());
    EXPECT_TRUE(json["curve"].back()["efficiency"].is_null());  // synchronous: the shaft is driven
    EXPECT_EQ(json["curve"].front()["efficiency"], 0.0);        // standing: power in, none out
    EXPECT_GT(json["curve"][38]["efficiency"], 0.5);
}

TEST(MotorCurves, RunFromRestToSynchronousSpeedByFallingSlip) {
    const sim::MotorCurves motor = curves();
    EXPECT_EQ(motor.curve.front().slip, 1.0);
    EXPECT_NEAR(motor.curve.back().slip, 0.0, 1e-12);
    for (std::size_t k = 1; k < motor.curve.size(); ++k) {
        EXPECT_LT(motor.curve[k].slip, motor.curve[k - 1].slip);
    }
}

TEST(MotorCurves, AddAskedForSlipsInTheirPlaceAndOnce) {
    const std::size_t usual = curves().curve.size();
    const sim::MotorCurves motor = curves({0.0333, 1.0, 0.0333, 1.7});
    EXPECT_EQ(motor.curve.size(), usual + 2);
    std::multiset<double> slips;
    double last = 99.0;
    for (const plant_models::SteadyState& row : motor.curve) {
        EXPECT_LT(row.slip, last);
        last = row.slip;
        slips.insert(row.slip);
    }
    EXPECT_EQ(slips.count(0.0333), 1U);
    EXPECT_EQ(slips.count(1.0), 1U);
    EXPECT_EQ(motor.curve.front().slip, 1.7);
}

TEST(MotorCurves, AgreeWithTheSteadyStateAtRatedVoltageAndFrequency) {
    const sim::Scenario scenario = sim_test::bundled("dairy_50hz");
    for (const plant_models::SteadyState& row : curves({0.04}).curve) {
        const plant_models::SteadyState expected =
            plant_models::steady_state(scenario.motor, {230.0, 50.0, 0.0, 0.0},
                                       plant_models::run_connection(scenario.motor), row.slip);
        EXPECT_EQ(row.torque_Nm, expected.torque_Nm);
        EXPECT_EQ(std::abs(row.line_current_A), std::abs(expected.line_current_A));
    }
}

TEST(MotorText, HasARowPerSlipUnderItsHeading) {
    const sim::MotorCurves motor = curves({0.0333});
    const std::string text = sim::motor_text(motor);
    EXPECT_NE(text.find("Farm's milk cooler"), std::string::npos);
    EXPECT_NE(text.find("locked rotor:"), std::string::npos);
    EXPECT_NE(text.find("at 230 V, 50 Hz"), std::string::npos);
    EXPECT_NE(text.find(" 0.0333 "), std::string::npos);
    std::size_t rows = 0;
    for (std::size_t at = text.find(" Nm "); at != std::string::npos;
         at = text.find(" Nm ", at + 1)) {
        ++rows;
    }
    EXPECT_EQ(rows, motor.curve.size());
}

}  // namespace
