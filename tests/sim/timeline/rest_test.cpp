// A rest taken at once, against the same rest integrated step by step with everything off: two
// plants that have lived through the same start, one of each kind of rest.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>

#include "bench/cases.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "timeline/bench_plant.hpp"

namespace {

using sim_test::Instant;
using sim_test::tick;

constexpr Instant one_second{1'000'000'000};

/// Coil and bypass on for a time, then everything off until the plant is at rest.
std::unique_ptr<sim::PlantRun> stopped(const sim::PlantDescription& description, double on_s,
                                       double latest_s = 30.0) {
    auto plant = sim::make_plant_run(description);
    sim::PowerCommands on = sim_test::line_only();
    on.bypass_coil = true;
    while (plant_models::to_seconds(plant->now()) < on_s) {
        tick(*plant, on);
    }
    while (plant_models::to_seconds(plant->now()) < latest_s) {
        tick(*plant, {});
        if (plant->at_rest()) {
            return plant;
        }
    }
    ADD_FAILURE() << "it never comes to rest";
    return nullptr;
}

/// How far apart two numbers may be: a few times what was seen, and a fraction of what a rest that
/// is one per cent too short would make of them.
double allowed(std::string_view name) {
    const auto ends_in = [name](std::string_view ending) {
        return name.size() >= ending.size() && name.substr(name.size() - ending.size()) == ending;
    };
    if (ends_in("_C")) {
        return 2e-4;  // a protector against a shell that is a chain of straight lines
    }
    // Pockets that rise with their suction; a bus whose ripple ends where the cycle does.
    return ends_in("_kPa") || name == "dc_bus_V" ? 3e-3 : 1e-5;
}

void expect_same(sim::PlantRun& rested, sim::PlantRun& ticked, const std::string& what) {
    EXPECT_EQ(rested.now(), ticked.now()) << what;
    EXPECT_TRUE(rested.at_rest()) << what;
    const plant_models::PlantOutputs& a = rested.outputs();
    const plant_models::PlantOutputs& b = ticked.outputs();
    // A generator's phase is the integral of its speed over the whole rest.
    EXPECT_NEAR(a.line_voltage_V, b.line_voltage_V, 1e-4) << what;
    EXPECT_NEAR(a.supply_frequency_Hz, b.supply_frequency_Hz, 1e-8) << what;
    EXPECT_NEAR(a.run_capacitor_voltage_V, b.run_capacitor_voltage_V, 1e-6) << what;
    EXPECT_NEAR(a.start_capacitor_voltage_V, b.start_capacitor_voltage_V, 1e-6) << what;
    EXPECT_EQ(a.speed_rad_per_s, b.speed_rad_per_s) << what;
    EXPECT_EQ(a.rotor_stuck, b.rotor_stuck) << what;
    EXPECT_EQ(a.unit_trip, b.unit_trip) << what;
    EXPECT_EQ(a.supply_trip, b.supply_trip) << what;
    EXPECT_EQ(a.contactor_drop_outs, b.contactor_drop_outs) << what;
    const auto& names = rested.channel_names();
    for (std::size_t k = 0; k < names.size(); ++k) {
        EXPECT_NEAR(a.model_channels[k], b.model_channels[k], allowed(names[k]))
            << what << ": " << names[k];
    }
}

void compare(const sim::PlantDescription& description, const std::string& what, double on_s,
             double rest_s) {
    const auto rested = stopped(description, on_s);
    const auto ticked = stopped(description, on_s);
    ASSERT_TRUE(rested && ticked) << what;
    const Instant duration(static_cast<std::int64_t>(1e9 * rest_s));
    rested->rest(duration);
    ticked->advance_to(ticked->now() + duration);
    expect_same(*rested, *ticked, what);
}

/// Directly, where the closed main path discharges the run capacitor, and through an open limiter,
/// where it keeps its charge.
void compare(const sim::Scenario& scenario, double on_s, double rest_s) {
    sim::PlantDescription description = sim::describe_plant(sim::without_limiter(scenario));
    compare(description, scenario.name + " direct", on_s, rest_s);
    description.connection = sim::Connection::through_limiter;
    description.limiter = {};
    description.limiter.contact_close_ms = 10.0;
    description.limiter.contact_open_ms = 10.0;
    compare(description, scenario.name + " through the limiter", on_s, rest_s);
}

TEST(Rest, OfHalfAMinuteEndsWhereTicksEnd) {
    for (const std::string name :
         {"reference_direct", "bakery_short_rest", "shop_protector", "refrigerator_hot_restart"}) {
        compare(sim_test::bundled(name), 2.0, 30.0);
    }
}

TEST(Rest, OfALoadThatTurnsBackOrAGeneratorEndsWhereTicksEnd) {
    for (const std::string name :
         {"boat_shed_cold_morning", "vaccine_fridge", "clinic_power_cut", "camp_generator"}) {
        compare(sim_test::bundled(name), 1.0, 10.0);
    }
}

TEST(Rest, OnAnInverterTakesUpItsHumWhereItWas) {
    for (const std::string name : {"hut_inverter", "cabin_battery_trip", "hut_module_misjudges"}) {
        compare(sim_test::bundled(name), 1.2, 7.3123);
    }
}

TEST(Rest, OfFiveMinutesEndsWhereTicksEnd) {
    compare(sim::describe_plant(sim_test::bundled("bakery_short_rest")), "bakery_short_rest", 1.0,
            300.0);
}

TEST(Rest, IsRefusedBeforeThePlantIsAtRest) {
    const sim::PlantDescription description =
        sim::describe_plant(sim::without_limiter(sim_test::bundled("reference_limited")));
    const auto plant = sim::make_plant_run(description);
    EXPECT_TRUE(plant->at_rest());
    tick(*plant, sim_test::line_only());
    EXPECT_FALSE(plant->at_rest()) << "the contact travels";
    EXPECT_THROW(plant->rest(one_second), std::logic_error);
    plant->apply(sim_test::line_only());
    plant->advance_to(one_second);
    EXPECT_FALSE(plant->at_rest()) << "it runs";
    EXPECT_THROW(plant->rest(one_second), std::logic_error);
    plant->apply({});
    plant->advance_to(plant->now() + Instant{30'000'000});
    EXPECT_FALSE(plant->outputs().line_connected);
    EXPECT_FALSE(plant->at_rest()) << "it coasts";
    EXPECT_THROW(plant->rest(one_second), std::logic_error);
}

TEST(Rest, StartsTheAuditAnewOnlyWhenAsked) {
    const sim::PlantDescription description =
        sim::describe_plant(sim::without_limiter(sim_test::bundled("reference_limited")));
    const auto plant = stopped(description, 1.0);
    ASSERT_TRUE(plant);
    const double before_J = plant->energy().source_J;
    EXPECT_GT(before_J, 100.0);
    // This plant takes nothing from its grid at rest, so that its audit closes even across one.
    plant->rest(one_second);
    EXPECT_EQ(plant->energy().source_J, before_J);
    EXPECT_LT(plant->energy().closure(), 1e-5);
    plant->restart_audit();
    EXPECT_EQ(plant->energy().source_J, 0.0);
    EXPECT_EQ(plant->energy().loss_J(), 0.0);
    EXPECT_EQ(plant->energy().stored_J, 0.0);
}

TEST(Rest, ForNoTimeChangesNothing) {
    const sim::PlantDescription description =
        sim::describe_plant(sim_test::bundled("hut_inverter"));
    const auto rested = stopped(description, 1.0);
    const auto plain = stopped(description, 1.0);
    ASSERT_TRUE(rested && plain);
    rested->rest(Instant{0});
    expect_same(*rested, *plain, "no time");
}

}  // namespace
