// The sum of what a way costs, against one worked out by hand.
#include "sim/sizing/costs.hpp"

#include <gtest/gtest.h>

#include "sizing/sizing_cases.hpp"

namespace {

using sim::Way;

// By hand: 60 W all day are 60 x 24 x 365 / 1000 = 525.6 kWh a year. A day's 1.44 kWh at 4 sun
// hours and 75 % yield take 1.44 / (4 x 0.75) = 0.48 kWp; 16 dark hours of 60 W are 0.96 kWh,
// which is 80 % of a battery of 1.2 kWh. At 800 per kWp and 400 per kWh: 384 + 480 = 864.
TEST(Costs, OfAnIdleDrawAreAsWorkedOutByHand) {
    const sim::IdleCost idle = sim::idle_cost(60.0, sim::example_costs());
    EXPECT_NEAR(idle.energy_kWh_per_year, 525.6, 1e-9);
    EXPECT_NEAR(idle.panel_kWp, 0.48, 1e-12);
    EXPECT_NEAR(idle.storage_kWh, 1.2, 1e-12);
    EXPECT_NEAR(idle.price, 864.0, 1e-9);
}

// By hand: 525.6 kWh a year x 0.30 x 10 years = 1576.80, and neither panel nor battery.
TEST(Costs, OfAnIdleDrawThatIsBoughtGoByTheKilowattHour) {
    sim::CostAssumptions costs = sim::example_costs();
    costs.idle_energy = "bought";
    const sim::IdleCost idle = sim::idle_cost(60.0, costs);
    EXPECT_NEAR(idle.price, 1576.8, 1e-9);
    EXPECT_EQ(idle.panel_kWp, 0.0);
    EXPECT_EQ(idle.storage_kWh, 0.0);
}

// By hand: 6 kVA x 350 = 2100, limiter 300, idle 864: 3264.
TEST(Costs, OfALimiterOnAHouseInverterAddUp) {
    const sim::WayCost cost = sim::cost_of(
        Way::limiter, sim_test::supply("house_inverter_6kva_240v_60hz"), sim::example_costs());
    EXPECT_NEAR(cost.supply, 2100.0, 1e-9);
    EXPECT_NEAR(cost.start_aid, 300.0, 1e-9);
    EXPECT_NEAR(cost.total(), 3264.0, 1e-9);
    EXPECT_FALSE(cost.idle.draw_is_assumed);
}

TEST(Costs, OfAUtilityAreOnlyThoseOfTheStartAid) {
    const sim::SupplyAtHand grid = sim_test::supply("house_grid_230v_50hz");
    EXPECT_EQ(sim::cost_of(Way::directly, grid, sim::example_costs()).total(), 0.0);
    EXPECT_EQ(sim::cost_of(Way::thermistor, grid, sim::example_costs()).total(), 25.0);
}

TEST(Costs, OfAGeneratorHaveNoIdleDraw) {
    const sim::WayCost cost = sim::cost_of(
        Way::directly, sim_test::supply("generator_7kva_240v_60hz"), sim::example_costs());
    EXPECT_NEAR(cost.total(), 7.0 * 200.0, 1e-9);
}

TEST(Costs, TakeASuppliesOwnPriceOverTheOnePerKilovoltampere) {
    sim::CostAssumptions costs = sim::example_costs();
    costs.supply_prices["house_inverter_6kva_240v_60hz"] = 1234.0;
    EXPECT_EQ(sim::cost_of(Way::directly, sim_test::supply("house_inverter_6kva_240v_60hz"), costs)
                  .supply,
              1234.0);
}

TEST(Costs, AssumeAnIdleDrawWhereTheInverterDoesNotSayItsOwn) {
    sim::SupplyAtHand silent = sim_test::supply("house_inverter_6kva_240v_60hz");
    std::get<plant_models::InverterParameters>(silent.source).idle_draw_W = 0.0;
    const sim::WayCost cost = sim::cost_of(Way::directly, silent, sim::example_costs());
    EXPECT_TRUE(cost.idle.draw_is_assumed);
    EXPECT_NEAR(cost.idle.draw_W, 60.0, 1e-9);  // 1 % of 6 kVA
}

}  // namespace
