#include "plant_models/supplies/grid.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "supplies/supply_bench.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Grid;
using plant_models::GridParameters;

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
    EXPECT_DOUBLE_EQ(grid.frequency_Hz(nullptr), 50.0);
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
    EXPECT_FALSE(grid.disconnected());
    EXPECT_TRUE(support::weak_grid().inconsistency().empty());
    EXPECT_EQ(grid.stored_energy_J(nullptr), 0.0);
}

TEST(Grid, StepBoundKeepsTheSineInsideTheReachOfItsPolynomials) {
    auto parameters = support::ideal_grid(230.0, 65.0);
    EXPECT_LT(2.0 * pi * 65.0 * Grid(parameters).largest_step_s(), 0.25);
}

GridParameters sagging_grid() {
    GridParameters parameters = support::ideal_grid(230.0, 50.0);
    parameters.phase_deg = 90.0;
    parameters.sag_begin_s = 0.1003;
    parameters.sag_fall_s = 0.0501;
    parameters.sag_length_s = 0.3007;
    parameters.sag_to_percent = 40.0;
    return parameters;
}

/// The trapezoid, from the clock.
double wanted_share(double time_s) {
    if (time_s < 0.1003 || time_s > 0.4010) {
        return 1.0;
    }
    return std::max(0.4, 1.0 - 0.6 * (time_s - 0.1003) / 0.0501);
}

TEST(GridSag, VoltageIsATrapezoidInTime) {
    support::SupplyBench<Grid> bench(sagging_grid());
    bench.connect(50.0, 10.0);
    bench.step_s = 10e-6;
    const double crest = 230.0 * std::sqrt(2.0);
    bench.run_for(0.6, [&] {
        const double wanted =
            crest * wanted_share(bench.time_s) * std::cos(2.0 * pi * 50.0 * bench.time_s);
        ASSERT_NEAR(bench.emf_V(), wanted, 1e-6) << bench.time_s;
    });
    EXPECT_EQ(bench.events, 3);
    EXPECT_LT(std::abs(bench.closure()), 1e-9);
}

TEST(GridSag, CornersAreEventsAtTheirInstants) {
    const GridParameters parameters = sagging_grid();
    Grid grid(parameters);
    std::array<double, Grid::guard_count> guard{};
    for (const double corner_s : {0.1003, 0.1504, 0.4010}) {
        grid.guards(nullptr, corner_s - 1e-3, {}, guard.data());
        EXPECT_NEAR(guard[0], 1e-3, 1e-12);
        grid.guards(nullptr, corner_s + 1e-3, {}, guard.data());
        EXPECT_NEAR(guard[0], -1e-3, 1e-12);
        grid.on_guard(0, nullptr);
    }
    grid.guards(nullptr, 100.0, {}, guard.data());
    EXPECT_GT(guard[0], 1.0);
}

TEST(GridSag, EmfNeverJumpsBetweenTwoEvents) {
    Grid grid(sagging_grid());
    grid.on_guard(0, nullptr);
    grid.on_guard(0, nullptr);
    // A step that looks beyond the return sees the low voltage until the event has been taken.
    grid.set_origin(0.42);
    const double low = grid.emf_V(nullptr, 0.42);
    grid.on_guard(0, nullptr);
    EXPECT_NEAR(grid.emf_V(nullptr, 0.42), low / 0.4, 1e-9);
}

TEST(GridSag, MayBeThereFromTheStartAndMayFallAtOnce) {
    GridParameters parameters = sagging_grid();
    parameters.sag_begin_s = 0.0;
    parameters.sag_fall_s = 0.0;
    support::SupplyBench<Grid> bench(parameters);
    bench.connect(50.0, 10.0);
    EXPECT_NEAR(bench.emf_V(), 0.4 * 230.0 * std::sqrt(2.0), 1e-9);
    bench.run_for(0.4);
    EXPECT_NEAR(bench.emf_V(), 230.0 * std::sqrt(2.0), 1e-9);
    EXPECT_EQ(bench.events, 1);
}

TEST(GridSag, WithoutOneTheEmfIsTheSineToTheLastBit) {
    GridParameters parameters = support::weak_grid();
    Grid grid(parameters);
    plant_models::SineReference sine(std::sqrt(2.0) * parameters.voltage_V, parameters.frequency_Hz,
                                     parameters.phase_deg);
    for (int k = 0; k < 1000; ++k) {
        const double time_s = 1e-4 * k;
        grid.set_origin(time_s);
        sine.set_origin(time_s);
        ASSERT_EQ(grid.emf_V(nullptr, time_s + 5e-5), sine.value(time_s + 5e-5));
    }
}

TEST(GridSag, HalfASagIsRefused) {
    EXPECT_TRUE(sagging_grid().inconsistency().empty());
    GridParameters parameters = sagging_grid();
    parameters.sag_to_percent = 100.0;
    EXPECT_EQ(parameters.inconsistency().substr(0, 14), "sag_to_percent");
    parameters = sagging_grid();
    parameters.sag_length_s = 0.0;
    EXPECT_EQ(parameters.inconsistency().substr(0, 12), "sag_length_s");
    parameters.sag_length_s = 0.05;
    EXPECT_EQ(parameters.inconsistency().substr(0, 12), "sag_length_s");
}

}  // namespace
