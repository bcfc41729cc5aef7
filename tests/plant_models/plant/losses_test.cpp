// Each loss has the size that its parameter promises, and a run accounts for all of them.
#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Grid;
using plant_models::LimiterParameters;
using plant_models::PolynomialLoad;
using plant_models::PolynomialLoadParameters;
using support::LivePlant;
using Live = LivePlant<Grid, PolynomialLoad>;
using P = Live::Plant;

constexpr double synchronous = 157.07963267948966;  // four poles, 50 Hz

Live lossy_plant(double voltage_V, double speed_rad_per_s) {
    PolynomialLoadParameters no_load;
    no_load.reference_speed_rpm = 1500.0;
    return Live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
                Grid(support::ideal_grid(voltage_V, 50.0)), PolynomialLoad(no_load),
                speed_rad_per_s);
}

double mean_iron_loss_W(double voltage_V) {
    Live live = lossy_plant(voltage_V, 0.0);
    live.line(true);
    double sum = 0.0;
    constexpr int samples = 40;
    for (int k = 0; k < samples; ++k) {
        live.time_s = 0.02 * k / samples;
        live.refresh();
        sum += live.rate[P::iron_energy];
    }
    return sum / samples;
}

TEST(Losses, IronLossIsTheRatedOneAtRatedVoltageAndGrowsWithTheSquare) {
    EXPECT_NEAR(mean_iron_loss_W(230.0), 55.0, 1e-9);
    EXPECT_NEAR(mean_iron_loss_W(115.0), 55.0 / 4.0, 1e-9);
    EXPECT_NEAR(mean_iron_loss_W(253.0), 55.0 * 1.21, 1e-9);
}

TEST(Losses, FrictionAndWindageAreTheRatedOnesAtSynchronousSpeed) {
    for (const double direction : {1.0, -1.0}) {
        EXPECT_NEAR(lossy_plant(230.0, direction * synchronous).rate[P::friction_energy],
                    12.0 + 9.0, 1e-9);
        EXPECT_NEAR(lossy_plant(230.0, direction * 0.5 * synchronous).rate[P::friction_energy],
                    12.0 / 2.0 + 9.0 / 8.0, 1e-9);
    }
    EXPECT_EQ(lossy_plant(230.0, 0.0).rate[P::friction_energy], 0.0);
}

TEST(Losses, WiringLossIsInTheSupplyAndInTheCapacitors) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()));
    live.line(true);
    live.bypass(true);
    live.x[P::main_current] = 10.0;
    live.x[P::aux_current] = -4.0;
    live.refresh();
    EXPECT_NEAR(live.rate[P::wiring_energy], 1.3 * 36.0 + 0.4 * 16.0, 1e-10);
    EXPECT_NEAR(live.rate[P::switch_energy], 0.002 * 100.0, 1e-12);
    EXPECT_NEAR(live.rate[P::copper_energy], 2.4 * 100.0 + 5.2 * 16.0, 1e-10);
}

TEST(Losses, NothingHappensBeforeAnythingIsSwitchedOn) {
    Live live = lossy_plant(230.0, 0.0);
    live.run_until(0.1);
    const auto energy = live.energy();
    EXPECT_EQ(energy.source_J, 0.0);
    EXPECT_EQ(energy.loss_J(), 0.0);
    EXPECT_EQ(energy.stored_J, 0.0);
    EXPECT_EQ(energy.closure(), 0.0);
    EXPECT_EQ(live.outputs().line_current_A, 0.0);
    EXPECT_EQ(live.outputs().supply_frequency_Hz, 50.0);
}

// At no load near synchronous speed, over one second: iron, friction and windage are what they are
// rated at; what is left of the input is copper and the capacitor.
TEST(Losses, NoLoadRunSpendsItsInputAsTheParametersSay) {
    Live live = lossy_plant(230.0, 0.99 * synchronous);
    live.line(true);
    live.bypass(true);
    live.run_until(1.0);
    const auto before = live.energy();
    live.run_until(2.0);
    const auto after = live.energy();
    EXPECT_NEAR(after.iron_J - before.iron_J, 55.0, 0.01);
    // The speed pulsates: the mean over a cycle.
    double mechanical_W = 0.0;
    double mean_ratio = 0.0;
    constexpr int samples = 100;
    for (int k = 1; k <= samples; ++k) {
        live.run_until(2.0 + 0.02 * k / samples);
        const double ratio = live.x[P::speed] / synchronous;
        mean_ratio += ratio / samples;
        mechanical_W += (12.0 * ratio + 9.0 * ratio * ratio * ratio) / samples;
    }
    EXPECT_GT(mean_ratio, 0.98);
    EXPECT_LT(mean_ratio, 1.0);
    EXPECT_NEAR(after.friction_J - before.friction_J, mechanical_W, 1e-3);
    EXPECT_EQ(after.load_J, 0.0);
    EXPECT_GT(after.copper_J - before.copper_J, 5.0);
    EXPECT_GT(after.wiring_J - before.wiring_J, 0.05);
    EXPECT_GT(after.switch_J - before.switch_J, 1e-3);
    EXPECT_LT(after.closure(), 1e-7);
}

TEST(Losses, DirectStartUnderLoadAccountsForItsEnergy) {
    Live live(support::lossy_motor(), support::table_defaults<LimiterParameters>(),
              Grid(support::weak_grid()), PolynomialLoad(support::fan()));
    live.line(true);
    live.bypass(true);
    live.start(true);
    // Guards by hand: rest until breakaway, then turning.
    ASSERT_TRUE(live.run_to_zero(P::breakaway, 0.1));
    live.fire(P::breakaway);
    live.run_until(live.time_s + 1.0);
    EXPECT_GT(live.x[P::speed], 0.8 * synchronous);
    const auto energy = live.energy();
    EXPECT_GT(energy.load_J, 50.0);
    EXPECT_GT(energy.source_J, energy.load_J + energy.copper_J);
    EXPECT_LT(energy.closure(), 1e-6);
}

}  // namespace
