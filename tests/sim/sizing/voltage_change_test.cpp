// By how much a start moves the voltage, by hand and against the simulated line.
#include "sim/sizing/voltage_change.hpp"

#include <gtest/gtest.h>

#include "sim/bench/start_run.hpp"
#include "sim/sizing/way.hpp"
#include "sizing/sizing_cases.hpp"

namespace {

/// The reference impedance of IEC 60725, 0.4 + j 0.25 ohm at 50 Hz (memory).
sim::SupplyAtHand reference_grid() {
    sim::SupplyAtHand grid = sim_test::supply("house_grid_230v_50hz");
    auto& source = std::get<plant_models::GridParameters>(grid.source);
    source.resistance_ohm = 0.4;
    source.inductance_mH = 0.25 / (2.0 * 3.14159265358979 * 50.0) * 1e3;
    return grid;
}

// By hand: the cold room's locked rotor has a power factor of about 0.75 (checked below), so 10 A
// change 230 V by 10 (0.4 x 0.75 + 0.25 x 0.66) / 230 = 2.0 %.
TEST(VoltageChange, AtTheReferenceImpedanceIsAsWorkedOutByHand) {
    const sim::Scenario unit =
        sim::on_supply(sim_test::library_unit("cold_room_230v_50hz"), reference_grid());
    const double change = sim::relative_voltage_change(unit, 10.0).value();
    EXPECT_NEAR(change, 0.0202, 0.001);
    EXPECT_NEAR(sim::relative_voltage_change(unit, 20.0).value(), 2.0 * change, 1e-12);
}

TEST(VoltageChange, IsThatOfTheSimulatedLineWithinATenth) {
    // Without a branch run the line's voltage is that of the household.
    sim::Scenario unit =
        sim::on_supply(sim_test::library_unit("cold_room_230v_50hz"), reference_grid());
    unit.run.duration_s = 1.0;
    const sim::StartResult result = sim::run_start(*sim::brought_up(unit, sim::Way::directly));
    const double seen = 1.0 - *result.figures.line_voltage_half_cycle_rms_min_V / 230.0;
    const double formula =
        sim::relative_voltage_change(unit, *result.figures.line_current_half_cycle_rms_max_A)
            .value();
    EXPECT_NEAR(formula, seen, 0.1 * seen);
}

TEST(VoltageChange, LeavesTheUnitsOwnBranchOut) {
    sim::Scenario unit =
        sim::on_supply(sim_test::library_unit("cold_room_230v_50hz"), reference_grid());
    const double before = sim::relative_voltage_change(unit, 10.0).value();
    unit.wiring.branch_size = "6 mm2";
    unit.wiring.branch_length_m = 40.0;
    EXPECT_EQ(sim::relative_voltage_change(unit, 10.0).value(), before);
    unit.wiring.service_size = "16 mm2";
    unit.wiring.service_length_m = 100.0;
    EXPECT_GT(sim::relative_voltage_change(unit, 10.0).value(), before);
}

TEST(VoltageChange, IsNotAskedOfAnInverter) {
    const sim::Scenario unit = sim::on_supply(sim_test::library_unit("cold_room_230v_50hz"),
                                              sim_test::supply("hut_inverter_3kva_230v_50hz"));
    EXPECT_FALSE(sim::relative_voltage_change(unit, 10.0));
}

}  // namespace
