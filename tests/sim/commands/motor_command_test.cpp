// runup motor and runup keys, end to end.
#include <gtest/gtest.h>

#include <complex>
#include <nlohmann/json.hpp>
#include <string>

#include "bench/cases.hpp"
#include "commands/program.hpp"
#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"
#include "sim/scenario/scenario_tables.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::line_count;
using sim_test::run_program;

TEST(MotorCommand, AgreesWithTheSteadyStateSolution) {
    for (const std::string& name : sim_test::bundled_names()) {
        const sim_test::Outcome run = run_program({"motor", bundled_path(name), "--json", "-"});
        EXPECT_EQ(run.exit_code, 0);
        EXPECT_EQ(run.errors, "");
        const auto json = nlohmann::json::parse(run.output);
        const plant_models::MotorParameters motor = sim_test::bundled(name).motor;
        const plant_models::SinusoidalSupply supply{motor.rated_voltage_V, motor.rated_frequency_Hz,
                                                    0.0, 0.0};
        const auto connection = plant_models::run_connection(motor);
        const auto locked = plant_models::locked_rotor(motor, supply, connection);
        EXPECT_DOUBLE_EQ(json["locked_rotor"]["line_current_A"], std::abs(locked.line_current_A));
        EXPECT_DOUBLE_EQ(json["locked_rotor"]["power_factor"], locked.power_factor);
        EXPECT_DOUBLE_EQ(json["locked_rotor"]["torque_Nm"], locked.torque_Nm);
        for (const auto& row : json["curve"]) {
            const auto expected =
                plant_models::steady_state(motor, supply, connection, row["slip"].get<double>());
            EXPECT_DOUBLE_EQ(row["speed_rpm"],
                             plant_models::rad_per_s_to_rpm(expected.speed_rad_per_s));
            EXPECT_DOUBLE_EQ(row["torque_Nm"], expected.torque_Nm);
            EXPECT_DOUBLE_EQ(row["line_current_A"], std::abs(expected.line_current_A));
            EXPECT_DOUBLE_EQ(row["main_current_A"], std::abs(expected.main_current_A));
            EXPECT_DOUBLE_EQ(row["aux_current_A"], std::abs(expected.aux_current_A));
            EXPECT_DOUBLE_EQ(row["power_factor"], expected.power_factor);
            EXPECT_DOUBLE_EQ(row["shaft_power_W"], expected.shaft_power_W);
        }
    }
}

TEST(MotorCommand, GivesTheReferencesLockedRotor) {
    const sim_test::Outcome run =
        run_program({"motor", bundled_path("reference_direct"), "--json", "-"});
    const auto locked = nlohmann::json::parse(run.output)["locked_rotor"];
    EXPECT_NEAR(locked["line_current_A"].get<double>(), 80.3, 0.05);
    EXPECT_NEAR(locked["power_factor"].get<double>(), 0.58, 0.005);
    EXPECT_NEAR(locked["torque_Nm"].get<double>(), 1.10, 0.005);
}

std::size_t rows_at(const std::string& json, double slip) {
    std::size_t rows = 0;
    const auto result = nlohmann::json::parse(json);
    for (const auto& row : result["curve"]) {
        rows += row["slip"] == slip ? 1 : 0;
    }
    return rows;
}

TEST(MotorCommand, AddsARowForEachSlipThatIsAskedFor) {
    const std::string file = bundled_path("reference_direct");
    const std::string usual = run_program({"motor", file, "--json", "-"}).output;
    EXPECT_EQ(rows_at(usual, 0.0437), 0U);
    const std::string more =
        run_program({"motor", "--slip", "0.0437", "--slip", "1.25", file, "--json", "-"}).output;
    EXPECT_EQ(rows_at(more, 0.0437), 1U);
    EXPECT_EQ(rows_at(more, 1.25), 1U);
    EXPECT_EQ(nlohmann::json::parse(more)["curve"].size(),
              nlohmann::json::parse(usual)["curve"].size() + 2);
}

TEST(MotorCommand, RefusesASlipOutOfRangeOrNotANumber) {
    for (const std::string slip : {"7", "-5", "nan", "inf", "abc", "0.1x"}) {
        const sim_test::Outcome run =
            run_program({"motor", bundled_path("reference_direct"), "--slip", slip});
        EXPECT_EQ(run.exit_code, 2) << slip;
        EXPECT_EQ(run.output, "") << slip;
        EXPECT_EQ(line_count(run.errors), 1) << slip << ": " << run.errors;
    }
}

TEST(MotorCommand, PrintsOneLineWhenQuiet) {
    const sim_test::Outcome run =
        run_program({"motor", bundled_path("reference_direct"), "--quiet"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output, "locked rotor: 80.3 A, power factor 0.58, 1.10 N m\n");
}

TEST(KeysCommand, PrintsEveryTableKindAndKey) {
    const sim_test::Outcome run = run_program({"keys"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.errors, "");
    sim::Scenario scenario;
    int keys = 0;
    for (const sim::ScenarioTable& table : sim::scenario_tables(scenario)) {
        EXPECT_NE(run.output.find("[" + std::string(table.name) + "]"), std::string::npos)
            << table.name;
        for (const sim::TableKind& kind : table.kinds) {
            EXPECT_NE(run.output.find(kind.kind), std::string::npos) << kind.kind;
            for (const sim::Key& key : kind.begin().keys) {
                EXPECT_NE(run.output.find(key.name), std::string::npos) << key.name;
                EXPECT_FALSE(key.meaning.empty()) << key.name;
                ++keys;
            }
        }
    }
    EXPECT_GT(keys, 80);
}

TEST(KeysCommand, PrintsOneTableOrSaysThatThereIsNone) {
    const sim_test::Outcome source = run_program({"keys", "source"});
    EXPECT_EQ(source.exit_code, 0);
    EXPECT_EQ(source.output.rfind("[source] ", 0), 0U);
    EXPECT_EQ(source.output.find("[motor]"), std::string::npos);
    const sim_test::Outcome wrong = run_program({"keys", "sorce"});
    EXPECT_EQ(wrong.exit_code, 2);
    EXPECT_EQ(wrong.output, "");
    EXPECT_EQ(wrong.errors, "keys: sorce: a scenario has no such table; did you mean source?\n");
}

}  // namespace
