// Phasor solution of the permanent-split-capacitor motor of A. E. Fitzgerald, C. Kingsley,
// S. D. Umans, "Electric Machinery", 6th ed., Example 9.5, p. 483.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "plant_models/motor/steady_state.hpp"
#include "printed_number.hpp"
#include "published_motors.hpp"

namespace {

using namespace published;
using plant_models::SteadyState;

const plant_models::SinusoidalSupply stiff{230.0, 60.0, 0.0, 0.0};

SteadyState at_speed(const plant_models::MotorParameters& motor, double speed_rpm) {
    return steady_state(motor, stiff, run_connection(motor), 1.0 - speed_rpm / 3600.0);
}

// Certainty: seen (a public re-run of the example; the print may round differently).
TEST(PermanentCapacitorMotor, OperatingPointAt3500RpmIsTheBooks) {
    const SteadyState point = at_speed(permanent_capacitor_motor(), 3500.0);
    EXPECT_TRUE(rounds_to(std::abs(point.main_current_A), 15.9, 1));
    EXPECT_TRUE(rounds_to(degrees(point.main_current_A), -37.6, 1));
    EXPECT_TRUE(rounds_to(std::abs(point.aux_current_A), 5.2, 1));
    // The book winds the auxiliary the other way round and prints -150.8 degrees.
    EXPECT_TRUE(rounds_to(degrees(point.aux_current_A), -150.8 + 180.0, 1));
    EXPECT_TRUE(rounds_to(std::abs(point.line_current_A), 18.5, 1));
    EXPECT_TRUE(rounds_to(degrees(point.line_current_A), -22.7, 1));
    EXPECT_TRUE(rounds_to(std::abs(point.capacitor_voltage_V), 394.0, 0));
    EXPECT_TRUE(rounds_to(point.torque_Nm, 9.75, 2));
    EXPECT_TRUE(rounds_to(point.shaft_power_W, 3532.0, 0));
    // The book's 105 W of core loss are in its input power but in none of its currents.
    const double input = point.input_power_W + 105.0;
    EXPECT_TRUE(rounds_to(input, 4041.0, 0));
    EXPECT_TRUE(rounds_to(100.0 * point.shaft_power_W / input, 87.4, 1));
}

// Same source and certainty. Here the core loss is the model's own: powers as in the book, and the
// line current has the in-phase part that the book leaves out.
TEST(PermanentCapacitorMotor, CoreLossInTheModelGivesTheBooksPowers) {
    auto motor = permanent_capacitor_motor();
    motor.iron_loss_W = 105.0;
    const SteadyState point = at_speed(motor, 3500.0);
    EXPECT_TRUE(rounds_to(point.shaft_power_W, 3532.0, 0));
    EXPECT_TRUE(rounds_to(point.input_power_W, 4041.0, 0));
    EXPECT_TRUE(rounds_to(100.0 * point.efficiency.value(), 87.4, 1));
    EXPECT_TRUE(rounds_to(std::abs(point.main_current_A + point.aux_current_A), 18.5, 1));
    EXPECT_NEAR(std::abs(point.line_current_A - 105.0 / 230.0), 18.5, 0.05);
}

// Certainty: computed from the book's parameters by another program; a cross-check, not published.
TEST(PermanentCapacitorMotor, SpeedSweepMatchesTheCrossCheck) {
    const auto motor = permanent_capacitor_motor();
    const SteadyState rest = at_speed(motor, 0.0);
    EXPECT_TRUE(rounds_to(rest.torque_Nm, 0.596, 3));
    EXPECT_TRUE(rounds_to(std::abs(rest.line_current_A), 76.06, 2));
    EXPECT_TRUE(rounds_to(rest.power_factor, 0.420, 3));
    struct Row {
        double speed_rpm, torque_Nm, line_current_A;
    };
    for (const Row& row :
         {Row{1800.0, 6.851, 73.73}, Row{3000.0, 17.139, 59.24}, Row{3550.0, 5.353, 10.62}}) {
        SCOPED_TRACE(row.speed_rpm);
        const SteadyState point = at_speed(motor, row.speed_rpm);
        EXPECT_TRUE(rounds_to(point.torque_Nm, row.torque_Nm, 3));
        EXPECT_TRUE(rounds_to(std::abs(point.line_current_A), row.line_current_A, 2));
    }
}

// Certainty: computed, as above. The maximum is flat: "near 3205 r/min" is read as within 5 r/min.
TEST(PermanentCapacitorMotor, LargestTorqueMatchesTheCrossCheck) {
    const auto motor = permanent_capacitor_motor();
    const auto curve = torque_speed_curve(motor, stiff, run_connection(motor), 3601);
    const auto largest = std::max_element(
        curve.begin(), curve.end(),
        [](const SteadyState& a, const SteadyState& b) { return a.torque_Nm < b.torque_Nm; });
    EXPECT_TRUE(rounds_to(largest->torque_Nm, 18.54, 2));
    EXPECT_NEAR((1.0 - largest->slip) * 3600.0, 3205.0, 5.0);
}

// Certainty: computed, as above.
TEST(PermanentCapacitorMotor, TorqueAtRestAgainstCapacitorMatchesTheCrossCheck) {
    struct Row {
        double capacitor_uF, torque_Nm;
        int decimals;
    };
    const auto motor = permanent_capacitor_motor();
    for (const Row& row :
         {Row{35.0, 0.596, 3}, Row{70.0, 1.544, 3}, Row{100.0, 2.763, 3}, Row{150.0, 5.962, 3},
          Row{200.0, 10.690, 3}, Row{300.0, 17.56, 2}, Row{400.0, 14.60, 2}}) {
        SCOPED_TRACE(row.capacitor_uF);
        // The whole capacitance in one branch, and split into a run and a start capacitor.
        const plant_models::AuxiliaryConnection one{
            plant_models::CapacitorBranch{row.capacitor_uF, 0.0}, {}};
        EXPECT_TRUE(
            rounds_to(locked_rotor(motor, stiff, one).torque_Nm, row.torque_Nm, row.decimals));
        if (row.capacitor_uF > 35.0) {
            auto split = run_connection(motor);
            split.start = plant_models::CapacitorBranch{row.capacitor_uF - 35.0, 0.0};
            EXPECT_TRUE(rounds_to(locked_rotor(motor, stiff, split).torque_Nm, row.torque_Nm,
                                  row.decimals));
        }
    }
}

}  // namespace
