// The plant hands its supply's guards on to the supply, and says when it has tripped.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>

#include "plant_models/loads/polynomial.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "support/live_plant.hpp"
#include "support/machines.hpp"

namespace {

using plant_models::Grid;
using plant_models::Inverter;
using plant_models::LimiterParameters;
using plant_models::PolynomialLoad;
using support::LivePlant;
using OnInverter = LivePlant<Inverter, PolynomialLoad>;
using Q = OnInverter::Plant;

constexpr std::size_t supply_guard(Inverter::GuardIndex guard) {
    return Q::first_supply_guard + static_cast<std::size_t>(guard);
}

TEST(SupplyTrip, ReachesTheSupplyAndStopsTheMotor) {
    OnInverter live(support::two_pole_motor(), support::table_defaults<LimiterParameters>(),
                    Inverter(support::small_inverter()), PolynomialLoad(support::fan()), 350.0);
    live.line(true);
    live.bypass(true);
    live.run_until(0.3, 10e-6);
    EXPECT_TRUE(live.outputs().supply_trip.empty());
    EXPECT_GT(live.guard(supply_guard(Inverter::bus_too_low)), 0.0);
    const auto before = live.x;
    live.fire(supply_guard(Inverter::bus_too_low));
    EXPECT_EQ(live.x, before);
    EXPECT_EQ(live.outputs().supply_trip, "dc_bus_low");
    const double speed = live.x[Q::speed];
    live.run_until(live.time_s + 0.2, 10e-6);
    EXPECT_LT(live.x[Q::speed], 0.9 * speed);
    EXPECT_LT(std::abs(live.outputs().model_channels[0]), 1e-3);  // inverter_current_A
    EXPECT_LT(live.energy().closure(), 1e-6);
}

TEST(SupplyTrip, KinksOfTheSupplyAreKinksOfThePlantAndNoOtherGuardIs) {
    for (std::size_t guard = 0; guard < Q::guard_count; ++guard) {
        const bool kink = guard >= supply_guard(Inverter::current_limit_positive) &&
                          guard <= supply_guard(Inverter::rating_passed);
        EXPECT_EQ(Q::guard_is_kink(guard), kink) << guard;
    }
}

TEST(SupplyTrip, GridHasNoGuardButItsSagsCornerAndNoChannels) {
    using P = LivePlant<Grid, PolynomialLoad>::Plant;
    EXPECT_EQ(Grid::guard_count, 1U);
    EXPECT_EQ(P::guard_count, static_cast<std::size_t>(P::first_supply_guard) + 1U);
    EXPECT_TRUE(P::supply_channel_names().empty());
    EXPECT_EQ(Q::supply_channel_names().size(), Inverter::channel_count);
}

}  // namespace
