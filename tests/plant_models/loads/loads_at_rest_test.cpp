// A compressor whose rotor stands, over a rest: `rest` at once, against its equations step by step.
#include <gtest/gtest.h>

#include <string>

#include "plant_models/loads/reciprocating.hpp"
#include "plant_models/loads/rolling_piston.hpp"
#include "plant_models/loads/scroll.hpp"
#include "scroll_bench.hpp"
#include "support/fittings.hpp"
#include "support/turned_load.hpp"

namespace {

using namespace plant_models;

constexpr double turn_rad = 2.0 * pi;

RefrigerantParameters circuit_with(std::string_view expansion) {
    auto refrigerant = support::table_defaults<RefrigerantParameters>();
    refrigerant.expansion = expansion;
    return refrigerant;
}

RollingPistonParameters rolling_piston() {
    RollingPistonParameters load;
    load.displacement_cm3 = 32.0;
    load.cylinders = 2;
    load.breakaway_torque_Nm = 0.8;
    load.bearing_torque_Nm = 0.3;
    load.oil_torque_Nm = 0.4;
    load.reference_speed_rpm = 3450.0;
    return load;
}

template <class Load>
void expect_same_rest(const Load& fresh, double duration_s, const std::string& what) {
    support::TurnedLoad<Load> turned(fresh);
    turned.turn(6.3 * turn_rad, 360.0);
    turned.rest(0.001);
    auto rested = turned.x;
    turned.load.rest(rested.data(), duration_s);
    turned.rest(duration_s, 0.02);
    for (std::size_t k = 0; k < rested.size(); ++k) {
        EXPECT_NEAR(rested[k], turned.x[k], 0.01 + 1e-5 * std::abs(turned.x[k]))
            << what << ", state " << k;
    }
    EXPECT_NEAR(
        fresh.circuit().suction_capacitance_kg_per_kPa() * rested[Load::first_circuit_state] +
            fresh.circuit().discharge_capacitance_kg_per_kPa() *
                rested[Load::first_circuit_state + 1],
        fresh.circuit().suction_capacitance_kg_per_kPa() * turned.suction_kPa() +
            fresh.circuit().discharge_capacitance_kg_per_kPa() * turned.discharge_kPa(),
        1e-9)
        << what;
}

TEST(LoadsAtRest, PistonsLeakAndTheirCircuitEqualisesAsStepByStep) {
    for (const double duration_s : {3.0, 30.0, 300.0}) {
        for (const std::string_view expansion : {"orifice", "bleed_valve", "tight_valve"}) {
            const std::string what = std::string(expansion) + " " + std::to_string(duration_s);
            Conditions just_stopped;
            just_stopped.rest_s = 0.0;
            auto piston = support::table_defaults<ReciprocatingParameters>();
            const ReciprocatingParameters sizes = support::piston();
            piston.displacement_cm3 = sizes.displacement_cm3;
            piston.breakaway_torque_Nm = sizes.breakaway_torque_Nm;
            piston.bearing_torque_Nm = sizes.bearing_torque_Nm;
            piston.oil_torque_Nm = sizes.oil_torque_Nm;
            piston.reference_speed_rpm = sizes.reference_speed_rpm;
            expect_same_rest(Reciprocating(piston, circuit_with(expansion), just_stopped),
                             duration_s, "reciprocating, " + what);
            expect_same_rest(RollingPiston(rolling_piston(), circuit_with(expansion), just_stopped),
                             duration_s, "rolling piston, " + what);
        }
    }
}

TEST(LoadsAtRest, ATightCylinderKeepsItsGas) {
    ReciprocatingParameters tight = support::piston();
    tight.ring_leak_s = 1e6;
    Conditions just_stopped;
    just_stopped.rest_s = 0.0;
    expect_same_rest(Reciprocating(tight, circuit_with("bleed_valve"), just_stopped), 30.0, "");
}

void expect_same_scroll(const ScrollParameters& scroll, std::string_view expansion,
                        double duration_s, double within_kPa) {
    Conditions just_stopped;
    just_stopped.rest_s = 0.0;
    support::ScrollBench bench(Scroll(scroll, circuit_with(expansion), just_stopped));
    bench.x[support::ScrollBench::speed] = 360.0;
    bench.run_turns(12);
    bench.x[support::ScrollBench::speed] = 0.0;
    bench.run_for(0.5);
    std::array<double, Scroll::state_count> rested{};
    std::copy(bench.x.begin(), bench.x.begin() + Scroll::state_count, rested.begin());
    const double mass_kg = bench.load.total_mass_kg(rested.data());
    bench.load.rest(rested.data(), duration_s);
    bench.step_s = 200e-6;
    bench.run_for(duration_s);
    for (const std::size_t k : {Scroll::suction_pressure, Scroll::discharge_pressure,
                                Scroll::outer_pressure, Scroll::plenum_pressure}) {
        EXPECT_NEAR(rested[k], bench.x[k], within_kPa) << expansion << ", state " << k;
    }
    EXPECT_NEAR(bench.load.total_mass_kg(rested.data()), mass_kg, 1e-6 * mass_kg);
}

TEST(LoadsAtRest, AScrollDrainsAndItsCircuitEqualisesAsStepByStep) {
    for (const std::string_view expansion : {"orifice", "tight_valve"}) {
        expect_same_scroll(support::three_ton_scroll(), expansion, 30.0, 0.05);
        expect_same_scroll(support::three_ton_scroll(), expansion, 120.0, 0.05);
    }
}

TEST(LoadsAtRest, AScrollWithoutACheckValveEqualisesThroughItselfAsStepByStep) {
    ScrollParameters scroll = support::three_ton_scroll();
    scroll.check_valve = "none";
    // The plenum lags the discharge side by a tenth of a second more than it would.
    expect_same_scroll(scroll, "orifice", 2.0, 2.0);
    expect_same_scroll(scroll, "orifice", 30.0, 0.05);
}

}  // namespace
