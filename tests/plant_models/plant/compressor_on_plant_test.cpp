// Compressors as loads of the plant: their gas drives the rotor and is driven by it, their events
// are located with everybody else's, and the audit closes through all of it.
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/loads/rolling_piston.hpp"
#include "plant_models/loads/scroll.hpp"
#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/grid.hpp"
#include "support/acting_plant.hpp"
#include "support/fittings.hpp"
#include "support/machines.hpp"

namespace {

using namespace plant_models;
template <class Load>
using Acting = support::ActingPlant<Grid, Load, BareUnit>;
template <class Load>
using PlantOf = typename Acting<Load>::Plant;

RefrigerantParameters gas() {
    RefrigerantParameters refrigerant;
    refrigerant.gas = "R134a";
    refrigerant.evaporating_C = 0.0;
    refrigerant.condensing_C = 45.0;
    refrigerant.rated_ambient_C = 30.0;
    return refrigerant;
}

/// Shuts tight, so that at rest and at a crawl nothing flows but through the compressor.
RefrigerantParameters tight_gas() {
    RefrigerantParameters refrigerant = gas();
    refrigerant.expansion = "tight_valve";
    refrigerant.leakage_percent = 0.0;
    return refrigerant;
}

/// After a rest of a minute: the pressures are still apart.
Conditions short_rest() {
    Conditions conditions = support::rested();
    conditions.rest_s = 60.0;
    return conditions;
}

ReciprocatingParameters piston(int cylinders) {
    ReciprocatingParameters load = support::piston();
    load.cylinders = cylinders;
    load.displacement_cm3 = 25.0;
    load.reference_speed_rpm = 1450.0;
    return load;
}

RollingPistonParameters rotary(int cylinders) {
    RollingPistonParameters load;
    load.cylinders = cylinders;
    load.displacement_cm3 = 25.0;
    load.breakaway_torque_Nm = 0.6;
    load.bearing_torque_Nm = 0.2;
    load.oil_torque_Nm = 0.3;
    load.reference_speed_rpm = 1450.0;
    return load;
}

ScrollParameters scroll() {
    auto load = support::table_defaults<ScrollParameters>();
    load.check_valve = "fitted";
    load.displacement_cm3 = 25.0;
    load.breakaway_torque_Nm = 0.6;
    load.bearing_torque_Nm = 0.2;
    load.oil_torque_Nm = 0.3;
    load.reference_speed_rpm = 1450.0;
    return load;
}

template <class Load>
Acting<Load> plant_with(const Load& load, const MotorParameters& motor = support::lossy_motor(),
                        double speed_rad_per_s = 0.0) {
    GridParameters grid = support::ideal_grid(230.0, 50.0);
    grid.resistance_ohm = 0.4;
    grid.inductance_mH = 0.5;
    return Acting<Load>(
        PlantOf<Load>(motor, support::table_defaults<LimiterParameters>(), Grid(grid), load),
        speed_rad_per_s);
}

template <class Load>
void switch_on(Acting<Load>& acting) {
    acting.start(true);
    acting.line(true);
    acting.bypass(true);
}

/// Calls `check(name, acting)` with each load on a plant that has just been switched on.
template <class Check>
void with_each_load(const RefrigerantParameters& refrigerant, Check check) {
    const Conditions rest = short_rest();
    check("one piston", plant_with(Reciprocating(piston(1), refrigerant, rest)));
    check("two pistons", plant_with(Reciprocating(piston(2), refrigerant, rest)));
    check("one rolling piston", plant_with(RollingPiston(rotary(1), refrigerant, rest)));
    check("two rolling pistons", plant_with(RollingPiston(rotary(2), refrigerant, rest)));
    check("scroll", plant_with(Scroll(scroll(), refrigerant, rest)));
}

TEST(Compressor, ClosesTheBalanceOfPowersAtEveryMomentOfItsStart) {
    with_each_load(gas(), [](const std::string& name, auto acting) {
        using P = typename decltype(acting)::Plant;
        switch_on(acting);
        double largest_load_W = 0.0;
        for (int k = 1; k <= 150; ++k) {
            acting.run_until(0.0043 * k);
            EXPECT_NEAR(support::missing_power_W(acting), 0.0, 5e-3) << name << acting.time_s;
            largest_load_W = std::max(largest_load_W, std::abs(acting.rate[P::load_energy]));
        }
        EXPECT_GT(largest_load_W, 200.0) << name;
        EXPECT_GT(acting.x[P::speed], 130.0) << name;
        EXPECT_LT(acting.energy().closure(), 1e-6) << name;
    });
}

TEST(Compressor, FiresEachOfItsEventsAsOftenAsItsShaftHasTurned) {
    with_each_load(gas(), [](const std::string& name, auto acting) {
        using P = typename decltype(acting)::Plant;
        switch_on(acting);
        double turned_rad = 0.0;
        double before = acting.x[P::speed];
        for (int k = 1; k <= 6000; ++k) {
            acting.run_until(1e-4 * k);
            turned_rad += 0.5e-4 * (before + acting.x[P::speed]);
            before = acting.x[P::speed];
        }
        const double turns = turned_rad / (2.0 * pi);
        ASSERT_GT(turns, 8.0) << name;
        std::map<std::size_t, int> fired;
        for (const auto& event : acting.events) {
            if (event.guard >= P::first_load_guard) {
                ++fired[event.guard - P::first_load_guard];
            }
        }
        const auto expect_per_turn = [&](std::size_t guard, double count) {
            EXPECT_NEAR(fired[guard], count * turns, count + 0.5) << name << ", event " << guard;
        };
        if (name.find("rolling") != std::string::npos) {
            // Port and vane, by each of the contacts.
            expect_per_turn(RollingPiston::port_or_vane, 2.0);
            expect_per_turn(RollingPiston::port_or_vane + 1, name[0] == 't' ? 2.0 : 0.0);
        } else if (name == "scroll") {
            expect_per_turn(Scroll::inner_opening, 1.0);
            expect_per_turn(Scroll::turn_forwards, 1.0);
            EXPECT_EQ(fired[Scroll::turn_backwards], 0);
        } else {
            expect_per_turn(Reciprocating::dead_centre, 2.0);
        }
    });
}

TEST(Compressor, CarriesEveryStateOfThePlantUnchangedThroughItsOwnEvents) {
    with_each_load(gas(), [](const std::string& name, auto acting) {
        using P = typename decltype(acting)::Plant;
        switch_on(acting);
        acting.run_until(0.25);
        int seen = 0;
        while (seen < 6) {
            auto later = acting;
            ASSERT_TRUE(later.run_to_event(
                [](std::size_t guard) { return guard >= P::first_load_guard; }, 0.6))
                << name;
            // Stands after the event; the other is brought to just before it.
            later.refresh();
            const double event_s = later.events.back().time_s;
            const double gap_s = 1e-8;
            if (later.time_s - event_s < gap_s && event_s - acting.time_s > gap_s) {
                acting.run_until(event_s - gap_s);
                for (std::size_t k = 0; k < P::first_load_state; ++k) {
                    const double most =
                        1e-7 * (1.0 + std::abs(acting.x[k])) +
                        2.0 * gap_s * (std::abs(acting.rate[k]) + std::abs(later.rate[k]));
                    EXPECT_NEAR(later.x[k], acting.x[k], most) << name << ", state " << k;
                }
                EXPECT_LT(later.energy().closure(), 1e-6) << name;
                ++seen;
            }
            acting = later;
            acting.run_until(acting.time_s + 1e-5);
        }
    });
}

TEST(Compressor, OpposesARotorThatCompressesAndDrivesItBackAgain) {
    // One cylinder as a spring: no motor, no friction, no leak, no flow. From bottom dead centre
    // the rotor runs into the gas and is thrown back. Its energy and the work that the gas has
    // taken are written down here a second time, from p V^n.
    ReciprocatingParameters load = piston(1);
    load.breakaway_torque_Nm = load.bearing_torque_Nm = load.oil_torque_Nm = 0.0;
    load.ring_leak_s = 1e6;
    load.crank_angle_deg = 180.0;
    MotorParameters motor = support::two_pole_motor();
    const double begin_rad_per_s = 18.0;  // a crawl: the expansion device stays shut
    auto acting =
        plant_with(Reciprocating(load, tight_gas(), short_rest()), motor, begin_rad_per_s);
    using P = PlantOf<Reciprocating>;
    const std::size_t angle_at = P::first_load_state + Reciprocating::crank_angle;
    const std::size_t circuit_at = P::first_load_state + Reciprocating::first_circuit_state;
    const double suction = acting.x[circuit_at];
    ASSERT_GT(acting.x[circuit_at + 1], 1.3 * suction);
    const double n = gas_named("R134a").isentropic_exponent;
    const double swept_m3 = 25e-6;
    const double largest_m3 = swept_m3 * (1.0 + 0.01 * load.clearance_percent);
    const auto volume_m3 = [&](double angle) {
        // Slider and crank, in lengths of the crank radius.
        const double rod = load.rod_ratio;
        const double down =
            std::cos(angle) + std::sqrt(rod * rod - std::sin(angle) * std::sin(angle));
        return largest_m3 - swept_m3 + swept_m3 * 0.5 * (1.0 + rod - down);
    };
    const auto gas_work_J = [&](double angle) {
        const double volume = volume_m3(angle);
        const double pressure = suction * std::pow(largest_m3 / volume, n);
        return 1e3 * ((pressure * volume - suction * largest_m3) / (n - 1.0) -
                      suction * (largest_m3 - volume));
    };
    const double begin_J = 0.5 * motor.inertia_kg_m2 * begin_rad_per_s * begin_rad_per_s;
    EXPECT_NEAR(gas_work_J(pi), 0.0, 1e-12);
    double least_speed = begin_rad_per_s;
    for (int k = 1; k <= 400; ++k) {
        acting.run_until(1e-3 * k, 20e-6);
        const double angle = acting.x[angle_at];
        if (angle < pi) {
            break;  // back beyond bottom dead centre: another stroke
        }
        // Before the valve opens at the discharge pressure.
        ASSERT_LT(suction * std::pow(largest_m3 / volume_m3(angle), n), acting.x[circuit_at + 1]);
        const double speed = acting.x[P::speed];
        EXPECT_NEAR(0.5 * motor.inertia_kg_m2 * speed * speed + gas_work_J(angle), begin_J,
                    2e-5 * begin_J)
            << angle;
        EXPECT_NEAR(acting.energy().load_J, gas_work_J(angle), 2e-5 * begin_J) << angle;
        least_speed = std::min(least_speed, speed);
    }
    // Thrown back as fast as it came.
    EXPECT_LT(acting.x[angle_at], pi + 0.3);
    EXPECT_NEAR(least_speed, -begin_rad_per_s, 0.2);
}

TEST(Compressor, TakesMoreTorqueTheFurtherThePressuresAreApart) {
    // The mean torque against rotation that does the pumping, from the plant's own outputs.
    const auto mean_torque_Nm = [](auto acting) {
        using P = typename decltype(acting)::Plant;
        switch_on(acting);
        acting.run_until(1.0);
        const double before_J = acting.energy().load_J;
        double turned_rad = 0.0;
        for (int k = 1; k <= 1000; ++k) {
            acting.run_until(1.0 + 2e-4 * k);
            turned_rad += 2e-4 * acting.x[P::speed];
        }
        return (acting.energy().load_J - before_J) / turned_rad;
    };
    RefrigerantParameters hot = gas();
    hot.condensing_C = 60.0;
    const Conditions rest = short_rest();
    const auto expect_more = [&](auto mild, auto severe, const std::string& name) {
        const double one = mean_torque_Nm(mild);
        const double other = mean_torque_Nm(severe);
        EXPECT_GT(one, 0.5) << name;  // and it is against rotation
        EXPECT_GT(other, 1.05 * one) << name;
    };
    expect_more(plant_with(Reciprocating(piston(2), gas(), rest)),
                plant_with(Reciprocating(piston(2), hot, rest)), "pistons");
    expect_more(plant_with(RollingPiston(rotary(1), gas(), rest)),
                plant_with(RollingPiston(rotary(1), hot, rest)), "rolling piston");
    expect_more(plant_with(Scroll(scroll(), gas(), rest)), plant_with(Scroll(scroll(), hot, rest)),
                "scroll");
}

TEST(Compressor, ShowsTheTorqueOfItsGasAndFrictionAsTheRotorFeelsIt) {
    // J dw/dt = T_e - load torque, with the acceleration from the trajectory.
    with_each_load(gas(), [](const std::string& name, auto acting) {
        using P = typename decltype(acting)::Plant;
        const double inertia = support::lossy_motor().inertia_kg_m2;
        switch_on(acting);
        for (int k = 1; k <= 40; ++k) {
            acting.run_until(0.05 + 0.0073 * k);
            const double h = 2e-6;
            auto ahead = acting;
            ahead.run_until(acting.time_s + h, h);
            const double acceleration = (ahead.x[P::speed] - acting.x[P::speed]) / h;
            const auto now = acting.outputs();
            const auto then = ahead.outputs();
            const double net =
                0.5 * (now.torque_Nm - now.load_torque_Nm + then.torque_Nm - then.load_torque_Nm);
            EXPECT_NEAR(inertia * acceleration, net, 1e-4 * (1.0 + std::abs(net)))
                << name << " at " << acting.time_s;
        }
    });
}

TEST(Compressor, KeepsAllItsGasThroughAWholeStart) {
    const RefrigerantParameters refrigerant = gas();
    auto acting = plant_with(Scroll(scroll(), refrigerant, short_rest()));
    using P = PlantOf<Scroll>;
    const Scroll outside(scroll(), refrigerant, short_rest());
    const double before_kg = outside.total_mass_kg(outside.initial_state().data());
    switch_on(acting);
    // The inner pair's own mass means nothing while it is open; at a turn's begin it is shut.
    ASSERT_TRUE(acting.run_to_event(P::first_load_guard + Scroll::turn_forwards, 0.5));
    for (int turn = 0; turn < 10; ++turn) {
        ASSERT_TRUE(acting.run_to_event(P::first_load_guard + Scroll::turn_forwards, 1.0));
        const double now_kg = outside.total_mass_kg(acting.x.data() + P::first_load_state);
        EXPECT_NEAR(now_kg, before_kg, 1e-7 * before_kg);
    }
}

// Mutants: each is one of the loads with one thing wrong in it. What stands above must see it.

/// The gas pulls where it should push.
class WrongSign : public Reciprocating {
  public:
    using Reciprocating::Reciprocating;
    LoadTorque<double> torque(const double* x, const LoadMotion<double>& motion) const {
        LoadTorque<double> wrong = Reciprocating::torque(x, motion);
        wrong.driving_Nm = -wrong.driving_Nm;
        return wrong;
    }
    LoadTorque<double> torque_and_derivatives(const double* x, double* dxdt,
                                              const LoadMotion<double>& motion) const {
        Reciprocating::torque_and_derivatives(x, dxdt, motion);
        return torque(x, motion);
    }
};

/// What is read differs from what acts.
class TwoFaced : public Reciprocating {
  public:
    using Reciprocating::Reciprocating;
    LoadTorque<double> torque(const double* x, const LoadMotion<double>& motion) const {
        LoadTorque<double> wrong = Reciprocating::torque(x, motion);
        wrong.driving_Nm *= 1.01;
        return wrong;
    }
};

TEST(Compressor, WithAWrongSignIsDrivenByItsOwnGas) {
    // The spring of the test above would throw the rotor forwards instead of back.
    ReciprocatingParameters load = piston(1);
    load.breakaway_torque_Nm = load.bearing_torque_Nm = load.oil_torque_Nm = 0.0;
    auto acting =
        plant_with(WrongSign(load, tight_gas(), short_rest()), support::two_pole_motor(), 18.0);
    acting.run_until(0.06, 20e-6);
    EXPECT_GT(acting.x[PlantOf<WrongSign>::speed], 18.5);
}

TEST(Compressor, ThatShowsAnotherTorqueThanActsIsFoundOut) {
    auto acting = plant_with(TwoFaced(piston(1), gas(), short_rest()));
    using P = PlantOf<TwoFaced>;
    switch_on(acting);
    double largest_Nm = 0.0;
    for (int k = 1; k <= 40; ++k) {
        acting.run_until(0.05 + 0.0073 * k);
        const auto now = acting.outputs();
        largest_Nm = std::max(
            largest_Nm, std::abs(support::lossy_motor().inertia_kg_m2 * acting.rate[P::speed] -
                                 (now.torque_Nm - now.load_torque_Nm)));
    }
    EXPECT_GT(largest_Nm, 1e-2);
}

}  // namespace
