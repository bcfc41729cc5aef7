// The scenarios that come with the program.
#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <variant>

#include "sim/scenario/scenario_reader.hpp"

namespace {

std::filesystem::path folder() {
    return std::filesystem::path(RUNUP_SOURCE_FOLDER) / "sim/scenarios";
}

sim::Scenario bundled(const std::string& name) {
    return sim::read_scenario((folder() / (name + ".toml")).string());
}

template <class P>
void expect_same(const P& one, const P& other) {
    for (const auto& row : P::table()) {
        std::visit([&](auto member) { EXPECT_EQ(one.*member, other.*member) << row.key; },
                   row.member);
    }
}

TEST(BundledScenarios, AreAllReadAndHaveATitle) {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder())) {
        SCOPED_TRACE(entry.path().string());
        const sim::Scenario scenario = sim::read_scenario(entry.path().string());
        EXPECT_EQ(scenario.name, entry.path().stem().string());
        EXPECT_NE(scenario.title, scenario.name);
        ++count;
    }
    EXPECT_GE(count, 6);
}

TEST(BundledScenarios, TheReferenceIsTheDesignCaseExactly) {
    const sim::Scenario reference = bundled("reference_direct");
    const plant_models::MotorParameters& motor = reference.motor;
    EXPECT_EQ(motor.poles, 2);
    EXPECT_EQ(motor.rated_voltage_V, 230.0);
    EXPECT_EQ(motor.rated_frequency_Hz, 60.0);
    EXPECT_EQ(motor.main_resistance_ohm, 0.55);
    EXPECT_EQ(motor.main_leakage_reactance_ohm, 1.05);
    EXPECT_EQ(motor.aux_resistance_ohm, 1.6);
    EXPECT_EQ(motor.aux_leakage_reactance_ohm, 1.35);
    EXPECT_EQ(motor.turns_ratio, 1.15);
    EXPECT_EQ(motor.rotor_resistance_ohm, 1.05);
    EXPECT_EQ(motor.rotor_leakage_reactance_ohm, 1.25);
    EXPECT_EQ(motor.magnetizing_reactance_ohm, 52.0);
    EXPECT_EQ(motor.inertia_kg_m2, 0.0045);
    EXPECT_EQ(motor.run_capacitor_uF, 40.0);
    EXPECT_EQ(motor.run_capacitor_esr_ohm, 0.0);
    EXPECT_EQ(motor.iron_loss_W, 0.0);
    EXPECT_EQ(motor.friction_loss_W, 0.0);
    EXPECT_EQ(motor.windage_loss_W, 0.0);
    const auto& load = std::get<plant_models::PolynomialLoadParameters>(reference.load);
    EXPECT_EQ(load.breakaway_torque_Nm, 0.6);
    EXPECT_EQ(load.constant_torque_Nm, 0.6);
    EXPECT_EQ(load.square_torque_Nm, 5.5);
    EXPECT_EQ(load.reference_speed_rpm, 3447.0);
    const auto& grid = std::get<plant_models::GridParameters>(reference.source);
    EXPECT_EQ(grid.voltage_V, 230.0);
    EXPECT_EQ(grid.frequency_Hz, 60.0);
    EXPECT_EQ(grid.resistance_ohm, 0.08);
    EXPECT_EQ(grid.inductance_mH, 0.15);
    EXPECT_EQ(grid.phase_deg, 0.0);
    EXPECT_TRUE(std::holds_alternative<sim::NoLimiter>(reference.limiter));
}

TEST(BundledScenarios, OfOneStoryDifferOnlyInWhatTheStoryCompares) {
    const sim::Scenario reference = bundled("reference_direct");
    const sim::Scenario limited = bundled("reference_limited");
    const sim::Scenario hut = bundled("hut_inverter");
    const sim::Scenario hut_direct = bundled("hut_inverter_direct");
    for (const sim::Scenario* other : {&limited, &hut, &hut_direct}) {
        expect_same(reference.motor, other->motor);
        expect_same(std::get<0>(reference.load), std::get<0>(other->load));
    }
    expect_same(std::get<plant_models::GridParameters>(reference.source),
                std::get<plant_models::GridParameters>(limited.source));
    expect_same(std::get<plant_models::InverterParameters>(hut.source),
                std::get<plant_models::InverterParameters>(hut_direct.source));
    EXPECT_EQ(std::get<plant_models::InverterParameters>(hut.source).peak_current_limit_A, 60.0);
    for (const sim::Scenario* other : {&limited, &hut}) {
        const auto& limiter = std::get<sim::BuiltinLimiter>(other->limiter);
        EXPECT_EQ(limiter.parts.start_capacitor_uF, 130.0);
        EXPECT_EQ(limiter.parts.start_capacitor_esr_ohm, 0.15);
    }
    EXPECT_TRUE(std::holds_alternative<sim::NoLimiter>(hut_direct.limiter));
}

}  // namespace
