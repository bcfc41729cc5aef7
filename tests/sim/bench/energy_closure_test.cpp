// Every run's energy adds up: source = losses + work on the load + change of what is stored.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/actuators/power_stage.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/sensors/sensor_suite.hpp"

namespace {

/// The contract is 0.1 %. In the usual steps the integrator's own error is some millionths; in
/// finer ones it falls with the fourth power (tested below), so that a missing term would stay.
constexpr double contract = 1e-3;
constexpr double reached = 1e-5;
constexpr double reached_in_fine_steps = 2e-8;
constexpr sim::Instant fine_step{10'000};  // also finer than an inverter's own 16 us

/// The closure of the same run in steps of at most `largest_step`, in the bench's own step order.
double closure_in_steps(const sim::Scenario& scenario, sim::Instant largest_step) {
    sim::PlantDescription description = sim::describe_plant(scenario);
    description.largest_step = largest_step;
    const auto plant = sim::make_plant_run(description);
    const auto controller = sim::make_controller(scenario.limiter, scenario.motor);
    const sim::Instant end{static_cast<std::int64_t>(1e9 * scenario.run.duration_s)};
    const sim::Instant call_off{static_cast<std::int64_t>(1e9 * scenario.run.call_off_s)};
    firmware::ActuatorFrame answer;
    while (plant->now() < end) {
        const bool call = call_off.count() == 0 || plant->now() < call_off;
        const firmware::SensorFrame samples = sim::sample_sensors(plant->outputs(), call);
        sim::PowerCommands commands;
        commands.line_coil = call;
        plant->apply(controller ? sim::drive(answer, call) : commands);
        if (controller) {
            answer = controller->step(samples);
        }
        plant->advance_to(plant->now() + sim::tick_length);
    }
    return plant->energy().closure();
}

void expect_closed(sim::Scenario scenario, const std::string& what) {
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_LT(result.energy.closure(), contract) << scenario.name << ", " << what;
    EXPECT_LT(result.energy.closure(), reached) << scenario.name << ", " << what;
    EXPECT_GT(result.energy.source_J, 0.0) << scenario.name << ", " << what;
    // The closure as written in the contract, by hand.
    const plant_models::EnergyAudit& e = result.energy;
    const double missing = e.source_J -
                           (e.copper_J + e.wiring_J + e.switch_J + e.iron_J + e.friction_J) -
                           e.load_J - e.stored_J;
    EXPECT_LT(std::abs(missing), reached * e.source_J) << scenario.name << ", " << what;
    EXPECT_LT(closure_in_steps(scenario, fine_step), reached_in_fine_steps)
        << scenario.name << ", " << what;
}

/// The four ways to start one motor.
void expect_all_ways_closed(const sim::Scenario& limited, double small_inverter_A) {
    expect_closed(limited, "limited, grid");
    expect_closed(sim::without_limiter(limited), "direct, grid");
    const sim::Scenario on_inverter = sim_test::on_inverter(limited, small_inverter_A);
    expect_closed(on_inverter, "limited, inverter");
    expect_closed(sim::without_limiter(on_inverter), "direct, inverter");
}

TEST(EnergyClosure, HoldsForEveryBundledScenario) {
    for (const std::string& name : sim_test::bundled_names()) {
        sim::Scenario scenario = sim_test::bundled(name);
        // The fine steps cost a hundred times the run; what a long one shows again and again adds
        // nothing to them.
        scenario.run.duration_s = std::min(scenario.run.duration_s, 8.0);
        expect_closed(scenario, "as it is");
        expect_closed(sim::without_limiter(scenario), "direct");
    }
}

class EnergyClosureOf : public testing::TestWithParam<sim_test::InventedMotor> {};

TEST_P(EnergyClosureOf, HoldsDirectAndLimitedOnGridAndInverter) {
    sim::Scenario scenario = sim_test::limited_start(GetParam());
    scenario.run.duration_s = 1.5;
    expect_all_ways_closed(scenario, 0.9 * GetParam().locked_rotor_A);
}

INSTANTIATE_TEST_SUITE_P(InventedMotors, EnergyClosureOf,
                         testing::ValuesIn(sim_test::invented_motors()),
                         [](const auto& one) { return std::string(one.param.name); });

TEST(EnergyClosure, HoldsWhateverLossesAndPolesTheMotorHas) {
    for (const int poles : {2, 4, 6}) {
        for (const double loss_W : {0.0, 150.0}) {
            sim::Scenario scenario = sim_test::bundled("reference_limited");
            scenario.run.duration_s = 1.0;
            scenario.motor.poles = poles;
            scenario.motor.iron_loss_W = loss_W;
            scenario.motor.friction_loss_W = 0.5 * loss_W;
            scenario.motor.windage_loss_W = 0.3 * loss_W;
            scenario.motor.run_capacitor_esr_ohm = 0.4;
            expect_all_ways_closed(scenario, 60.0);
        }
    }
}

TEST(EnergyClosure, HoldsThroughBouncingContactsAndACallThatEnds) {
    sim::Scenario scenario = sim_test::bundled("reference_limited");
    sim_test::limiter_of(scenario).parts.contact_bounce_ms = 5.0;
    scenario.run.duration_s = 1.0;
    for (const double call_off_s : {0.15, 0.3, 0.6}) {
        scenario.run.call_off_s = call_off_s;
        expect_closed(scenario, "call off");
    }
}

TEST(EnergyClosure, HoldsWithTheRotorTurningBackwardsAtFirst) {
    for (const double speed_rpm : {-2500.0, -100.0, 900.0, 3550.0}) {
        sim::Scenario scenario = sim_test::bundled("reference_direct");
        scenario.run.duration_s = 1.0;
        scenario.run.initial_speed_rpm = speed_rpm;
        expect_closed(scenario, "initial speed");
    }
}

// Each of these needs a shorter step than the supply asks for.
double closure_of(const sim::Scenario& scenario) {
    return sim::run_start(scenario).energy.closure();
}

TEST(EnergyClosure, HoldsWithARunCapacitorThatRingsWithItsWinding) {
    sim::Scenario scenario = sim_test::bundled("reference_direct");
    scenario.run.duration_s = 0.5;
    scenario.motor.run_capacitor_uF = 0.5;
    EXPECT_LT(closure_of(scenario), contract);
}

TEST(EnergyClosure, HoldsWithManyPolesTurnedFarAboveTheirSpeed) {
    sim::Scenario scenario = sim_test::bundled("reference_direct");
    scenario.run.duration_s = 0.5;
    scenario.motor.poles = 16;
    scenario.run.initial_speed_rpm = 6000.0;
    EXPECT_LT(closure_of(scenario), reached);
}

TEST(EnergyClosure, HoldsWithADragThatBrakesWithinMilliseconds) {
    sim::Scenario scenario = sim_test::bundled("reference_direct");
    scenario.run.duration_s = 0.2;
    scenario.run.initial_speed_rpm = 3500.0;
    auto& load = std::get<plant_models::PolynomialLoadParameters>(scenario.load);
    load.square_torque_Nm = 100.0;
    load.reference_speed_rpm = 350.0;
    EXPECT_LT(closure_of(scenario), contract);
}

TEST(EnergyClosure, HoldsWithAnInverterWhoseInputEmptiesInTheMiddleOfAStart) {
    sim::Scenario scenario = sim_test::bundled("cabin_battery_trip");
    scenario.run.duration_s = 0.5;
    auto& inverter = std::get<plant_models::TransformerInverterParameters>(scenario.source);
    inverter.battery_resistance_ohm = 0.5;
    inverter.input_capacitance_uF = 3000.0;
    inverter.battery_current_A = 2000.0;
    inverter.battery_surge_current_A = 4000.0;
    inverter.battery_minimum_V = 1.0;
    EXPECT_LT(closure_of(scenario), contract);
}

TEST(EnergyClosure, IsNotMetBecauseEverythingIsZero) {
    sim::Scenario scenario = sim_test::limited_start(sim_test::invented_motors().front());
    const plant_models::EnergyAudit energy = sim::run_start(scenario).energy;
    for (const double part : {energy.copper_J, energy.wiring_J, energy.switch_J, energy.iron_J,
                              energy.friction_J, energy.load_J, energy.stored_J}) {
        EXPECT_GT(part, 1e-3);
    }
    EXPECT_NEAR(
        energy.loss_J(),
        energy.copper_J + energy.wiring_J + energy.switch_J + energy.iron_J + energy.friction_J,
        1e-9);
}

TEST(EnergyClosure, FallsWithTheFourthPowerOfTheStepWithEventsPresent) {
    for (const std::string name : {"reference_direct", "reference_limited", "dairy_50hz"}) {
        const sim::Scenario scenario = sim_test::bundled(name);
        const double at_200_us = closure_in_steps(scenario, sim::Instant{200'000});
        const double at_100_us = closure_in_steps(scenario, sim::Instant{100'000});
        const double at_50_us = closure_in_steps(scenario, sim::Instant{50'000});
        EXPECT_GT(at_200_us / at_100_us, 10.0) << name;
        EXPECT_GT(at_100_us / at_50_us, 10.0) << name;
    }
}

TEST(EnergyAudit, ShowsALeak) {
    plant_models::EnergyAudit audit;
    audit.source_J = 1000.0;
    audit.copper_J = 600.0;
    audit.load_J = 300.0;
    audit.stored_J = 100.0;
    EXPECT_EQ(audit.closure(), 0.0);
    audit.iron_J = 2.0;
    EXPECT_NEAR(audit.closure(), 0.002, 1e-12);
    audit.iron_J = -2.0;
    EXPECT_NEAR(audit.closure(), 0.002, 1e-12);
}

}  // namespace
