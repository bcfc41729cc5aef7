// Locked rotor of the project's invented reference motor. The numbers were computed by an
// independent phasor program (computed: a cross-check, not published), at 230 V on the terminals:
// the 0.08 ohm and 0.15 mH of the reference grid are not in them.
#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/motor/steady_state.hpp"
#include "printed_number.hpp"
#include "published_motors.hpp"

namespace {

using namespace published;

TEST(ReferenceCase, LockedRotorAtRatedVoltageMatchesTheCrossCheck) {
    const auto motor = reference_motor();
    const auto point = locked_rotor(motor, {230.0, 60.0, 0.0, 0.0}, run_connection(motor));
    EXPECT_TRUE(rounds_to(std::abs(point.line_current_A), 80.27, 2));
    EXPECT_TRUE(rounds_to(point.power_factor, 0.58, 2));
    EXPECT_TRUE(rounds_to(point.torque_Nm, 1.102, 3));
}

// Everything is linear: behind the grid's impedance the current falls with the terminal voltage
// and the torque with its square.
TEST(ReferenceCase, LockedRotorBehindTheGridScalesWithTheTerminalVoltage) {
    const auto motor = reference_motor();
    const auto grid = reference_grid();
    const auto stiff = locked_rotor(motor, {230.0, 60.0, 0.0, 0.0}, run_connection(motor));
    const auto point = locked_rotor(
        motor, {grid.voltage_V, grid.frequency_Hz, grid.resistance_ohm, grid.inductance_mH},
        run_connection(motor));
    const double fraction = std::abs(point.terminal_voltage_V) / 230.0;
    EXPECT_LT(fraction, 0.98);
    EXPECT_NEAR(std::abs(point.line_current_A), fraction * std::abs(stiff.line_current_A), 1e-9);
    EXPECT_NEAR(point.torque_Nm, fraction * fraction * stiff.torque_Nm, 1e-9);
    EXPECT_NEAR(point.power_factor, stiff.power_factor, 1e-12);
}

}  // namespace
