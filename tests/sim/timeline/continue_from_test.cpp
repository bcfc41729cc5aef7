// A plant that goes on as another one: with the same numbers nobody may see the difference.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <typeinfo>

#include "bench/cases.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

using sim::Instant;
using PlantPointer = std::unique_ptr<sim::PlantRun>;

constexpr Instant tick{100'000};

sim::Scenario direct(const std::string& compressor, const std::string& supply) {
    return sim::parse_scenario("[library]\ncompressor = \"" + compressor + "\"\nsupply = \"" +
                                   supply + "\"\n[limiter]\nkind = \"none\"\n",
                               "cellar.toml");
}

void advance(sim::PlantRun& run, double duration_s, bool line_coil) {
    sim::PowerCommands commands;
    commands.line_coil = line_coil;
    const Instant end = run.now() + Instant(std::llround(1e9 * duration_s));
    while (run.now() < end) {
        run.apply(commands);
        run.advance_to(run.now() + tick);
    }
}

/// The plant after a start that was cut off, as soon as only slow states move.
PlantPointer left_at_rest(const sim::Scenario& scenario, double run_s) {
    PlantPointer run = sim::make_plant_run(sim::describe_plant(scenario));
    advance(*run, run_s, true);
    for (int k = 0; !run->at_rest(); ++k) {
        EXPECT_LT(k, 200000);
        advance(*run, 1e-4, false);
    }
    return run;
}

PlantPointer continued(const sim::Scenario& scenario, const sim::PlantRun& before,
                       const sim::KeptParts& kept = {}) {
    PlantPointer run = sim::make_plant_run(sim::describe_plant(scenario));
    run->continue_from(before, kept);
    return run;
}

void expect_same(sim::PlantRun& one, sim::PlantRun& other, const std::string& what) {
    const plant_models::PlantOutputs& a = one.outputs();
    const plant_models::PlantOutputs& b = other.outputs();
    ASSERT_EQ(one.now(), other.now()) << what;
    ASSERT_EQ(a.unit_trip, b.unit_trip) << what;
    ASSERT_EQ(a.supply_trip, b.supply_trip) << what;
    ASSERT_NEAR(a.line_current_A, b.line_current_A, 2e-3) << what;
    ASSERT_NEAR(a.line_voltage_V, b.line_voltage_V, 2e-2) << what;
    ASSERT_NEAR(a.speed_rad_per_s, b.speed_rad_per_s, 1e-3) << what;
    ASSERT_NEAR(a.run_capacitor_voltage_V, b.run_capacitor_voltage_V, 1e-1) << what;
    for (std::size_t k = 0; k < one.channel_names().size(); ++k) {
        ASSERT_NEAR(a.model_channels.at(k), b.model_channels.at(k),
                    1e-3 * std::abs(a.model_channels.at(k)) + 1e-3)
            << what << ": " << one.channel_names()[k] << " at " << a.time_s;
    }
}

/// Both rest, are started again, and are looked at all the while.
void expect_same_afterwards(const sim::Scenario& scenario, double run_s, double rest_s,
                            const std::string& what) {
    const PlantPointer before = left_at_rest(scenario, run_s);
    const PlantPointer after = continued(scenario, *before);
    ASSERT_NO_FATAL_FAILURE(expect_same(*before, *after, what));
    ASSERT_TRUE(after->at_rest()) << what;
    before->rest(Instant(std::llround(1e9 * rest_s)));
    after->rest(Instant(std::llround(1e9 * rest_s)));
    const std::int64_t events_before = before->events();
    const std::int64_t events_after = after->events();
    for (int k = 0; k < 60; ++k) {
        ASSERT_NO_FATAL_FAILURE(expect_same(*before, *after, what));
        advance(*before, 5e-3, true);
        advance(*after, 5e-3, true);
    }
    // What had to be found out again would have been an event.
    EXPECT_EQ(before->events() - events_before, after->events() - events_after) << what;
}

TEST(ContinueFrom, CarriesACompressorWhereverItsCrankHasStopped) {
    for (const std::string compressor :
         {"cold_room_230v_50hz", "split_unit_230v_50hz", "split_unit_twin_rotary_230v_50hz",
          "heat_pump_scroll_230v_50hz"}) {
        for (int k = 0; k < 12; ++k) {
            expect_same_afterwards(
                direct(compressor, "house_grid_230v_50hz"), 0.4 + 0.013 * k, 2.0,
                compressor + " stopped after " + std::to_string(0.4 + 0.013 * k));
        }
    }
}

TEST(ContinueFrom, CarriesAProtectorThatHasTripped) {
    const sim::Scenario scenario = sim_test::bundled("shop_protector");
    sim::PlantDescription description = sim::describe_plant(scenario);
    const PlantPointer before = sim::make_plant_run(description);
    for (int k = 0; before->outputs().unit_trip.empty(); ++k) {
        ASSERT_LT(k, 300);
        advance(*before, 0.1, true);
    }
    while (!before->at_rest()) {
        advance(*before, 1e-4, false);
    }
    ASSERT_FALSE(before->outputs().unit_trip.empty());
    const PlantPointer after = continued(scenario, *before);
    for (int k = 0; k < 200; ++k) {
        expect_same(*before, *after, "tripped");
        before->rest(Instant{1'000'000'000});
        after->rest(Instant{1'000'000'000});
    }
    EXPECT_TRUE(after->outputs().unit_trip.empty()) << "closed again, at the same time";
}

TEST(ContinueFrom, CarriesAThermistorThatIsStillHot) {
    const sim::Scenario scenario = direct("small_refrigerator_230v_50hz", "house_grid_230v_50hz");
    for (const double rest_s : {0.5, 20.0, 90.0}) {
        expect_same_afterwards(scenario, 3.0, rest_s, "hot, rested " + std::to_string(rest_s));
    }
}

TEST(ContinueFrom, CarriesEverySupply) {
    for (const std::string name : {"camp_generator", "cabin_battery_trip", "hut_inverter_direct",
                                   "vaccine_fridge", "clinic_power_cut"}) {
        sim::Scenario scenario = sim::without_limiter(sim_test::bundled(name));
        scenario.limiter = sim::NoLimiter{};
        expect_same_afterwards(scenario, 0.6, 1.0, name);
    }
}

TEST(ContinueFrom, WithoutTheUnitIsAUnitAsARunBeginsOnTheSupplyThatWas) {
    const sim::Scenario scenario = direct("cold_room_230v_50hz", "hut_inverter_3kva_230v_50hz");
    const sim::Scenario other = direct("split_unit_230v_50hz", "hut_inverter_3kva_230v_50hz");
    const PlantPointer before = left_at_rest(scenario, 0.8);
    const PlantPointer after = continued(other, *before, {true, false});
    const PlantPointer fresh = sim::make_plant_run(sim::describe_plant(other));
    EXPECT_EQ(after->now(), before->now());
    EXPECT_NEAR(after->outputs().line_voltage_V, before->outputs().line_voltage_V, 0.01);
    EXPECT_TRUE(after->at_rest());
    EXPECT_EQ(after->channel_names(), fresh->channel_names());
    const auto channel = [&after](sim::PlantRun& run, std::string_view name) {
        const auto& names = after->channel_names();
        const auto at = std::find(names.begin(), names.end(), name);
        return run.outputs().model_channels.at(static_cast<std::size_t>(at - names.begin()));
    };
    for (const std::string_view name : {"suction_pressure_kPa", "discharge_pressure_kPa"}) {
        EXPECT_EQ(channel(*after, name), channel(*fresh, name)) << name;
    }
}

TEST(ContinueFrom, AnotherKindOfUnitIsRefused) {
    const PlantPointer before = sim::make_plant_run(
        sim::describe_plant(direct("cold_room_230v_50hz", "house_grid_230v_50hz")));
    const PlantPointer other = sim::make_plant_run(
        sim::describe_plant(direct("split_unit_230v_50hz", "house_grid_230v_50hz")));
    EXPECT_THROW(other->continue_from(*before, {true, true}), std::bad_cast);
    EXPECT_NO_THROW(other->continue_from(*before, {true, false}));
}

TEST(ContinueFrom, AnAmbientMovesTheChargeToItsOwnPressure) {
    sim::Scenario scenario = direct("cold_room_230v_50hz", "house_grid_230v_50hz");
    const PlantPointer before = left_at_rest(scenario, 0.5);
    before->rest(Instant{3'600'000'000'000});
    scenario.conditions.ambient_C = 40.0;
    const PlantPointer warm = continued(scenario, *before);
    scenario.conditions.rest_s = 1e6;
    const PlantPointer always = sim::make_plant_run(sim::describe_plant(scenario));
    const auto& names = warm->channel_names();
    for (std::size_t k = 0; k < names.size(); ++k) {
        if (names[k] == "suction_pressure_kPa" || names[k] == "discharge_pressure_kPa") {
            EXPECT_NEAR(warm->outputs().model_channels.at(k),
                        always->outputs().model_channels.at(k),
                        1e-4 * always->outputs().model_channels.at(k));
            EXPECT_GT(warm->outputs().model_channels.at(k),
                      1.2 * before->outputs().model_channels.at(k));
        }
    }
}

}  // namespace
