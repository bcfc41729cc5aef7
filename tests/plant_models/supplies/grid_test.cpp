#include "plant_models/supplies/grid.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/machines.hpp"

namespace {

using plant_models::Grid;

constexpr double pi = 3.14159265358979323846;

TEST(Grid, VoltageIsGivenAsRmsAndPhaseAsThatOfItsSine) {
    const auto emf_at = [](double phase_deg, double time_s) {
        auto parameters = support::ideal_grid(230.0, 50.0);
        parameters.phase_deg = phase_deg;
        Grid grid(parameters);
        grid.set_origin(time_s);
        return grid.emf_V(nullptr, time_s);
    };
    const double crest = 230.0 * std::sqrt(2.0);
    EXPECT_NEAR(emf_at(0.0, 0.0), 0.0, 1e-10);
    EXPECT_NEAR(emf_at(0.0, 0.005), crest, 1e-10);
    EXPECT_NEAR(emf_at(90.0, 0.0), crest, 1e-10);
    EXPECT_NEAR(emf_at(-90.0, 0.0), -crest, 1e-10);
    EXPECT_NEAR(emf_at(30.0, 0.02), 0.5 * crest, 1e-10);
}

TEST(Grid, ImpedanceIsTheOneGiven) {
    const Grid grid(support::weak_grid());
    EXPECT_DOUBLE_EQ(grid.series_resistance_ohm(), 1.3);
    EXPECT_DOUBLE_EQ(grid.series_inductance_H(), 2e-3);
    EXPECT_DOUBLE_EQ(grid.frequency_Hz(), 50.0);
}

TEST(Grid, SourcePowerIsEmfTimesWindingCurrentPlusTerminalVoltageTimesIronCurrent) {
    auto parameters = support::weak_grid();
    parameters.phase_deg = 90.0;
    const Grid grid(parameters);
    const auto power = grid.derivatives(nullptr, nullptr, 0.0, {10.0, 0.25, 300.0});
    EXPECT_NEAR(power.source_W, 230.0 * std::sqrt(2.0) * 10.0 + 75.0, 1e-9);
    EXPECT_EQ(power.loss_W, 0.0);
    const auto returned = grid.derivatives(nullptr, nullptr, 0.0, {-10.0, 0.25, 300.0});
    EXPECT_NEAR(returned.source_W, -230.0 * std::sqrt(2.0) * 10.0 + 75.0, 1e-9);
}

TEST(Grid, NeverTripsAndIsAlwaysConsistent) {
    const Grid grid(support::weak_grid());
    EXPECT_TRUE(grid.trip_cause().empty());
    EXPECT_TRUE(support::weak_grid().inconsistency().empty());
    EXPECT_EQ(grid.stored_energy_J(nullptr), 0.0);
}

TEST(Grid, StepBoundKeepsTheSineInsideTheReachOfItsPolynomials) {
    auto parameters = support::ideal_grid(230.0, 65.0);
    EXPECT_LT(2.0 * pi * 65.0 * Grid(parameters).largest_step_s(), 0.25);
}

}  // namespace
