// Contacts that the unit moves by itself: contactor coil, potential relay, protector. Their
// decisions are located between the ticks, their contacts follow with travel and bounce, and with
// all of it fitted a run is as repeatable and as free of allocations as without.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "bench/cases.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/parameter_defaults.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/start_json.hpp"
#include "sim/timeline/plant_run.hpp"
#include "timeline/allocation_counter.hpp"
#include "timeline/output_digest.hpp"

namespace {

using plant_models::pi;
using plant_models::table_defaults;
using sim::Instant;
using sim_test::bundled;

constexpr Instant millisecond{1'000'000};

/// The reference motor with its rotor held, direct, on a grid without impedance.
sim::PlantDescription held_rotor() {
    sim::Scenario scenario = bundled("reference_direct");
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 500.0;
    auto& grid = std::get<plant_models::GridParameters>(scenario.source);
    grid.resistance_ohm = 0.0;
    grid.inductance_mH = 0.0;
    return sim::describe_plant(scenario);
}

sim::PlantDescription with_coil(double phase_deg) {
    sim::PlantDescription plant = held_rotor();
    std::get<plant_models::GridParameters>(plant.supply).phase_deg = phase_deg;
    plant.unit.contactor = table_defaults<plant_models::ContactorParameters>();
    return plant;
}

double channel(sim::PlantRun& plant, std::string_view name) {
    const auto& names = plant.channel_names();
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) {
        throw std::logic_error("no such channel: " + std::string(name));
    }
    return plant.outputs().model_channels[static_cast<std::size_t>(found - names.begin())];
}

sim::PowerCommands called() {
    sim::PowerCommands commands;
    commands.line_coil = true;
    return commands;
}

/// First instant, to the nanosecond, at which `happened` holds, in `low` (not yet) to `high`. Every
/// look is at a fresh plant that was advanced in one go.
Instant located(const sim::PlantDescription& description, Instant low, Instant high,
                const std::function<bool(sim::PlantRun&)>& happened) {
    while (high - low > Instant{1}) {
        const Instant middle = low + (high - low) / 2;
        const auto plant = sim::make_plant_run(description);
        plant->apply(called());
        plant->advance_to(middle);
        (happened(*plant) ? high : low) = middle;
    }
    return high;
}

/// tau dm/dt = (u / U)^2 - m from m = 0, with u = sqrt 2 U sin(w t + phase): closed form.
double coil_mean_square(double time_s, double phase_rad, double omega, double lag_s) {
    const double k = 2.0 * omega * lag_s;
    const auto forced = [&](double t) {
        const double angle = 2.0 * (omega * t + phase_rad);
        return 1.0 - (std::cos(angle) + k * std::sin(angle)) / (1.0 + k * k);
    };
    return forced(time_s) - forced(0.0) * std::exp(-time_s / lag_s);
}

double pull_in_s(double level, double phase_rad, double omega, double lag_s) {
    double before_s = 0.0;
    while (coil_mean_square(before_s + 1e-5, phase_rad, omega, lag_s) < level) {
        before_s += 1e-5;
    }
    double after_s = before_s + 1e-5;
    for (int k = 0; k < 40; ++k) {
        const double middle_s = 0.5 * (before_s + after_s);
        (coil_mean_square(middle_s, phase_rad, omega, lag_s) < level ? before_s : after_s) =
            middle_s;
    }
    return after_s;
}

bool is_connected(sim::PlantRun& plant) {
    return plant.outputs().line_connected;
}

TEST(ContactorCoil, TouchesAtThePullInOfItsOwnLawPlusTheTravel) {
    // Half of the rated voltage squared, with a lag of 20 ms at 60 Hz; 15 ms of travel.
    const double omega = 2.0 * pi * 60.0;
    for (const double phase_deg : {0.0, 37.0, 90.0, 151.0}) {
        const double decides_s = pull_in_s(0.25, phase_deg * pi / 180.0, omega, 0.02);
        const Instant touches =
            located(with_coil(phase_deg), 10 * millisecond, 40 * millisecond, is_connected);
        // An edge belongs to the interval that begins with it.
        const double expected_s = decides_s + 0.015;
        EXPECT_NEAR(plant_models::to_seconds(touches), expected_s, 50e-9) << phase_deg;
        // And so it is no multiple of a tick.
        EXPECT_GT(std::abs(std::remainder(expected_s, 1e-4)), 1e-6) << phase_deg;
    }
}

TEST(ContactorCoil, DecidesAtTheSameInstantHoweverTheTimelineIsCut) {
    const sim::PlantDescription description = with_coil(20.0);
    const Instant whole = located(description, 10 * millisecond, 40 * millisecond, is_connected);
    for (const long cut_us : {100L, 70L, 330L}) {
        const auto plant = sim::make_plant_run(description);
        plant->apply(called());
        while (plant->now() + Instant{1000 * cut_us} < whole - Instant{200}) {
            plant->advance_to(plant->now() + Instant{1000 * cut_us});
            EXPECT_FALSE(plant->outputs().line_connected);
        }
        plant->advance_to(whole - Instant{200});
        EXPECT_FALSE(plant->outputs().line_connected) << cut_us;
        plant->advance_to(whole + Instant{200});
        EXPECT_TRUE(plant->outputs().line_connected) << cut_us;
    }
}

TEST(ContactorCoil, LetsGoByCommandWhenItsForceHasDecayedAndPartsAtACurrentZeroAfterTheTravel) {
    const auto plant = sim::make_plant_run(with_coil(0.0));
    plant->apply(called());
    plant->advance_to(120 * millisecond);
    ASSERT_TRUE(plant->outputs().line_connected);
    const double force = std::pow(channel(*plant, "coil_V") / 230.0, 2.0);
    plant->apply({});
    // Drop-out 45 %, lag 20 ms, then 10 ms to part.
    const double parts_s = 0.120 + 0.020 * std::log(force / (0.45 * 0.45)) + 0.010;
    double sign = 0.0;
    double zero_s = 0.0;  // the first change of the current's sign after the contacts have parted
    while (plant->outputs().line_connected) {
        plant->advance_to(plant->now() + Instant{10'000});
        const double now_s = plant_models::to_seconds(plant->now());
        const double current_A = plant->outputs().line_current_A;
        if (now_s > parts_s && zero_s == 0.0 && (sign * current_A < 0.0 || current_A == 0.0)) {
            zero_s = now_s;
        }
        sign = current_A > 0.0 ? 1.0 : -1.0;
        ASSERT_LT(now_s, 0.2);
    }
    const double opened_s = plant_models::to_seconds(plant->now());
    EXPECT_GT(opened_s, parts_s);
    EXPECT_LT(opened_s, parts_s + 0.5 / 60.0);
    EXPECT_NEAR(opened_s, zero_s, 20e-6);
    EXPECT_EQ(plant->outputs().contactor_drop_outs, 0);
    EXPECT_EQ(plant->outputs().line_current_A, 0.0);
}

TEST(ContactorCoil, CountsADropOutAtTheInstantAtWhichAnOutageHasTakenItsForce) {
    sim::PlantDescription description = with_coil(0.0);
    auto& grid = std::get<plant_models::GridParameters>(description.supply);
    grid.sag_begin_s = 0.1;
    grid.sag_length_s = 1.0;
    grid.sag_to_percent = 0.0;
    const auto before = sim::make_plant_run(description);
    before->apply(called());
    before->advance_to(100 * millisecond);
    const double force = std::pow(channel(*before, "coil_V") / 230.0, 2.0);
    EXPECT_NEAR(force, coil_mean_square(0.1, 0.0, 2.0 * pi * 60.0, 0.02), 1e-6);
    const double lets_go_s = 0.1 + 0.02 * std::log(force / (0.45 * 0.45));
    const Instant counted =
        located(description, 100 * millisecond, 160 * millisecond,
                [](sim::PlantRun& plant) { return plant.outputs().contactor_drop_outs > 0; });
    EXPECT_NEAR(plant_models::to_seconds(counted), lets_go_s, 100e-9);
}

/// Of the reference motor: what it takes to come up, direct, with a start capacitor and its relay.
sim::PlantDescription with_relay() {
    sim::Scenario scenario = bundled("reference_direct");
    auto relay = table_defaults<plant_models::PotentialRelayParameters>();
    relay.start_capacitor_uF = 130.0;
    scenario.unit.start_aid = relay;
    return sim::describe_plant(scenario);
}

TEST(PotentialRelay, TakesTheStartCapacitorOutAtACurrentZeroAfterItsPickUpAndTravel) {
    const sim::PlantDescription description = with_relay();
    const double pick_up_V =
        std::get<plant_models::PotentialRelayParameters>(description.unit.start_aid)
            .completed(description.motor)
            .pick_up_V;
    const auto plant = sim::make_plant_run(description);
    EXPECT_TRUE(plant->outputs().start_capacitor_in);  // its contact is closed at rest
    plant->apply(called());
    while (channel(*plant, "relay_coil_V") < pick_up_V) {
        ASSERT_TRUE(plant->outputs().start_capacitor_in);
        plant->advance_to(plant->now() + Instant{20'000});
        ASSERT_LT(plant->now(), 1000 * millisecond);
    }
    const Instant picked_up = plant->now();
    EXPECT_GT(plant->outputs().speed_rad_per_s, 100.0);
    // 8 ms to part: still in just before, with whatever current flows.
    plant->advance_to(picked_up + 8 * millisecond - Instant{40'000});
    EXPECT_TRUE(plant->outputs().start_capacitor_in);
    double last_A = plant->outputs().start_capacitor_current_A;
    double swing_A = 0.0;
    while (plant->outputs().start_capacitor_in) {
        last_A = plant->outputs().start_capacitor_current_A;
        swing_A = std::max(swing_A, std::abs(last_A));
        plant->advance_to(plant->now() + Instant{10'000});
        ASSERT_LT(plant->now(), picked_up + 17 * millisecond);
    }
    EXPECT_LT(std::abs(last_A), 0.05 * swing_A + 0.5);
    EXPECT_EQ(plant->outputs().start_capacitor_current_A, 0.0);
    // It stays out, and holds the charge that it was left with.
    const double left_V = plant->outputs().start_capacitor_voltage_V;
    plant->advance_to(plant->now() + 100 * millisecond);
    EXPECT_FALSE(plant->outputs().start_capacitor_in);
    EXPECT_NEAR(plant->outputs().start_capacitor_voltage_V,
                left_V * std::exp(-0.1 / (15000.0 * 130e-6)), 1e-6 * std::abs(left_V));
}

TEST(PotentialRelay, IgnoresTheCommandForAStartCapacitor) {
    // No limiter is there that could have one; the relay alone moves it.
    const auto plant = sim::make_plant_run(with_relay());
    sim::PowerCommands commands = called();
    commands.start_capacitor_coil = true;
    plant->apply(commands);
    plant->advance_to(1000 * millisecond);
    EXPECT_FALSE(plant->outputs().start_capacitor_in);
}

sim::PlantDescription with_protector() {
    sim::PlantDescription plant = held_rotor();
    auto protector = table_defaults<plant_models::LineBreakParameters>();
    protector.ultimate_trip_A = 12.0;
    protector.trip_current_A = 80.0;
    protector.trip_time_s = 0.2;
    plant.unit.protector = protector;
    return plant;
}

TEST(Protector, OpensAtTheInstantAtWhichItsDiscIsHotAndBreaksTheCurrentAtItsNextZero) {
    const sim::PlantDescription description = with_protector();
    const auto has_opened = [](sim::PlantRun& plant) { return !plant.outputs().unit_trip.empty(); };
    const Instant opens = located(description, 50 * millisecond, 400 * millisecond, has_opened);
    const auto plant = sim::make_plant_run(description);
    plant->apply(called());
    plant->advance_to(opens - Instant{100});
    EXPECT_LT(channel(*plant, "protector_C"), 107.0);
    EXPECT_NEAR(channel(*plant, "protector_C"), 107.0, 1e-3);
    EXPECT_EQ(plant->outputs().unit_trip, "");
    const double before_A = plant->outputs().line_current_A;
    plant->advance_to(opens);
    EXPECT_EQ(plant->outputs().unit_trip, "protector_opened");
    EXPECT_NEAR(channel(*plant, "protector_C"), 107.0, 1e-3);
    // The current burns on in its direction, and is not chopped.
    EXPECT_NEAR(plant->outputs().line_current_A, before_A, 0.1);
    while (plant->outputs().line_connected) {
        EXPECT_GE(before_A * plant->outputs().line_current_A, 0.0);
        plant->advance_to(plant->now() + Instant{20'000});
        ASSERT_LT(plant->now(), opens + 9 * millisecond);
    }
    EXPECT_EQ(plant->outputs().line_current_A, 0.0);
    // Not a multiple of the tick, as a rounded instant would be.
    EXPECT_NE(opens.count() % 100'000, 0);
}

TEST(Module, OpensTheContactorThroughItsOwnTravel) {
    // Module and coil in series: the coil loses its voltage as the module decides.
    sim::PlantDescription description = with_coil(0.0);
    auto module = table_defaults<plant_models::ProtectionModuleParameters>();
    module.expected_start_current_A = 40.0;
    module.running_current_A = 20.0;
    module.start_time_s = 0.2;
    description.unit.protection_module = module;
    const auto decided =
        located(description, 100 * millisecond, 500 * millisecond,
                [](sim::PlantRun& plant) { return !plant.outputs().unit_trip.empty(); });
    const auto plant = sim::make_plant_run(description);
    plant->apply(called());
    plant->advance_to(decided);
    EXPECT_EQ(plant->outputs().unit_trip, "module_saw_locked_rotor");
    EXPECT_TRUE(plant->outputs().line_connected);
    const double force = std::pow(channel(*plant, "coil_V") / 230.0, 2.0);
    const Instant parts = decided +
                          plant_models::instant_at_or_after(0.020 * std::log(force / 0.2025)) +
                          10 * millisecond;
    plant->advance_to(parts - Instant{2000});
    EXPECT_TRUE(plant->outputs().line_connected);
    plant->advance_to(parts + Instant{8'400'000});
    EXPECT_FALSE(plant->outputs().line_connected);
    // It was told to: no drop-out.
    EXPECT_EQ(plant->outputs().contactor_drop_outs, 0);
}

TEST(EqualTimes, TheUnitsContactorComesBeforeTheGate) {
    // As with a contactor that is commanded: if the gate came first it would find no voltage, and
    // the firing would have to be located as an event of its own.
    sim::Scenario scenario = bundled("reference_limited");
    std::get<plant_models::PolynomialLoadParameters>(scenario.load).breakaway_torque_Nm = 500.0;
    scenario.unit.contactor = table_defaults<plant_models::ContactorParameters>();
    sim::PlantDescription description = sim::describe_plant(scenario);
    Instant touches{0};
    // A phase at which it touches well away from a zero of the voltage.
    for (double phase_deg = 0.0; phase_deg < 180.0; phase_deg += 15.0) {
        std::get<plant_models::GridParameters>(description.supply).phase_deg = phase_deg;
        touches = located(description, 10 * millisecond, 40 * millisecond, is_connected);
        const auto there = sim::make_plant_run(description);
        there->apply(called());
        there->advance_to(touches);
        if (std::abs(there->outputs().line_voltage_V) > 200.0) {
            break;
        }
    }
    // `touches` is the end of the first nanosecond in which it touched.
    const Instant edge = touches - Instant{1};
    const Instant tick_begins{edge.count() / 100'000 * 100'000};
    const auto plant = sim::make_plant_run(description);
    plant->apply(called());
    plant->advance_to(tick_begins);
    const auto events_before = plant->events();
    sim::PowerCommands commands = called();
    commands.gate_on = edge - tick_begins;
    commands.gate_off = commands.gate_on + Instant{50'000};
    plant->apply(commands);
    plant->advance_to(edge);
    EXPECT_FALSE(plant->outputs().line_connected);
    EXPECT_FALSE(plant->outputs().gate_on);
    plant->advance_to(edge + Instant{1});
    EXPECT_TRUE(plant->outputs().line_connected);
    EXPECT_TRUE(plant->outputs().gate_on);
    EXPECT_TRUE(plant->outputs().thyristor_conducting);
    EXPECT_EQ(plant->events(), events_before);
}

/// Everything fitted at once, on each kind of supply, direct and limited.
std::vector<sim::Scenario> fitted_scenarios() {
    std::vector<sim::Scenario> list;
    for (const std::string name : {"reference_direct", "reference_limited", "hut_inverter",
                                   "hut_inverter_direct", "camp_generator", "cabin_battery_trip"}) {
        sim::Scenario scenario = bundled(name);
        scenario.name = name + "_fitted";
        scenario.unit.heat = table_defaults<plant_models::HeatParameters>();
        auto protector = table_defaults<plant_models::LineBreakParameters>();
        protector.ultimate_trip_A = 20.0;
        protector.trip_current_A = 60.0;
        protector.trip_time_s = 0.9;
        scenario.unit.protector = protector;
        auto module = table_defaults<plant_models::ProtectionModuleParameters>();
        module.expected_start_current_A = 15.0;
        module.running_current_A = 10.0;
        scenario.unit.protection_module = module;
        scenario.unit.contactor = table_defaults<plant_models::ContactorParameters>();
        scenario.run.duration_s = 1.2;
        list.push_back(scenario);
        if (std::holds_alternative<sim::NoLimiter>(scenario.limiter)) {
            auto relay = table_defaults<plant_models::PotentialRelayParameters>();
            relay.start_capacitor_uF = 100.0;
            scenario.unit.start_aid = relay;
            list.push_back(scenario);
            auto thermistor = table_defaults<plant_models::ThermistorParameters>();
            thermistor.cold_resistance_ohm = 20.0;
            scenario.unit.start_aid = thermistor;
            list.push_back(scenario);
        }
    }
    return list;
}

struct Bits {
    std::string json;
    std::uint64_t digest = 0;
};

Bits bits_of(const sim::Scenario& scenario) {
    sim_test::DigestObserver observer;
    const sim::StartResult result = sim::run_start(scenario, &observer);
    return {sim::start_json(result).dump(), observer.value()};
}

TEST(FittedRun, GivesTheSameBytesTwiceAloneAndBesideOthers) {
    const std::vector<sim::Scenario> list = fitted_scenarios();
    std::vector<Bits> alone;
    for (const sim::Scenario& scenario : list) {
        ASSERT_FALSE(scenario.unit.is_bare());
        alone.push_back(bits_of(scenario));
    }
    std::vector<Bits> together(list.size());
    std::vector<std::thread> threads;
    for (std::size_t k = 0; k < list.size(); ++k) {
        threads.emplace_back([&, k] { together[k] = bits_of(list[k]); });
    }
    for (std::thread& thread : threads) {
        thread.join();
    }
    for (std::size_t k = 0; k < list.size(); ++k) {
        EXPECT_EQ(together[k].digest, alone[k].digest) << list[k].name;
        EXPECT_EQ(together[k].json, alone[k].json) << list[k].name;
    }
}

TEST(FittedRun, DiffersInTheLastDigitIfAFittingDoes) {
    sim::Scenario scenario = fitted_scenarios().front();
    scenario.run.duration_s = 0.4;
    const Bits before = bits_of(scenario);
    std::get<plant_models::LineBreakParameters>(scenario.unit.protector).ultimate_trip_A *=
        1.0 + 4e-16;
    EXPECT_NE(bits_of(scenario).digest, before.digest);
}

class AllocationsBetweenTicks final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& /*view*/) override {
        const long now = sim_test::allocations();
        if (last_ >= 0) {
            most_ = std::max(most_, now - last_);
        }
        last_ = now;
    }
    long most() const { return most_; }

  private:
    long last_ = -1;
    long most_ = 0;
};

TEST(FittedRun, AllocatesNothingBetweenItsTicks) {
    for (const sim::Scenario& scenario : fitted_scenarios()) {
        AllocationsBetweenTicks counter;
        sim::run_start(scenario, &counter);
        EXPECT_EQ(counter.most(), 0) << scenario.name;
    }
}

TEST(FittedRun, ClosesItsEnergyAndReachesWhatItsFittingsAreFor) {
    // Otherwise the runs above would prove little.
    int trips = 0;
    int up = 0;
    for (const sim::Scenario& scenario : fitted_scenarios()) {
        const sim::StartResult result = sim::run_start(scenario);
        EXPECT_LT(result.energy.closure(), 1e-3) << scenario.name;
        trips += result.outcome == sim::Outcome::protector_open ? 1 : 0;
        up += result.outcome == sim::Outcome::running ? 1 : 0;
    }
    EXPECT_GE(trips, 1);
    EXPECT_GE(up, 2);
}

}  // namespace
