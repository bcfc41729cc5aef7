// What a scroll is known for: it starts unloaded, and gas can drive it backwards.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "loads/scroll_bench.hpp"

namespace {

using plant_models::Conditions;
using plant_models::RefrigerantParameters;
using plant_models::Scroll;
using plant_models::ScrollParameters;
using support::ScrollBench;

constexpr double full_speed = 366.519;  // 3500 r/min
constexpr double inertia_kg_m2 = 0.002;

/// Pressures stay apart at rest.
ScrollBench hot_day(const ScrollParameters& scroll) {
    RefrigerantParameters refrigerant;
    refrigerant.expansion = "tight_valve";
    Conditions conditions;
    conditions.ambient_C = 35.0;
    conditions.rest_s = 20.0;
    return ScrollBench(Scroll(scroll, refrigerant, conditions));
}

/// The rotor is left to the gas, its friction and a motor's torque.
void release(ScrollBench& bench, double motor_Nm) {
    bench.acceleration = [&bench, motor_Nm](const ScrollBench::State& x, double) {
        const auto load = bench.load.torque(x.data(), {x[ScrollBench::speed], 1.0});
        const double friction = load.opposing_Nm * std::tanh(x[ScrollBench::speed] / 2.0);
        return (motor_Nm - load.driving_Nm - friction) / inertia_kg_m2;
    };
}

ScrollBench running(const ScrollParameters& scroll) {
    ScrollBench bench = hot_day(scroll);
    bench.set_pressures(1001.0, 3382.0);
    bench.x[ScrollBench::speed] = full_speed;
    bench.run_turns(20);
    return bench;
}

double mean_torque_Nm(ScrollBench& bench, double duration_s) {
    const double before_J = bench.x[ScrollBench::gas_work];
    const double before_rad = bench.angle_rad();
    bench.run_for(duration_s);
    return (bench.x[ScrollBench::gas_work] - before_J) / (bench.angle_rad() - before_rad);
}

TEST(ScrollStart, IsUnloadedThoughThePressuresAreApart) {
    ScrollBench bench = hot_day(support::three_ton_scroll());
    EXPECT_GT(bench.x[Scroll::discharge_pressure] - bench.x[Scroll::suction_pressure], 2000.0);
    EXPECT_EQ(bench.driving_Nm(), 0.0);
    EXPECT_EQ(bench.x[Scroll::plenum_pressure], bench.x[Scroll::suction_pressure]);
}

TEST(ScrollStart, LoadsUpOverTheTurnsThatFillThePlenum) {
    ScrollBench bench = hot_day(support::three_ton_scroll());
    bench.x[ScrollBench::speed] = full_speed;
    std::array<double, 8> turn_Nm{};
    for (double& torque : turn_Nm) {
        torque = mean_torque_Nm(bench, 2.0 * plant_models::pi / full_speed);
    }
    EXPECT_LT(turn_Nm[0], 0.35 * turn_Nm[7]);
    EXPECT_LT(turn_Nm[1], 0.75 * turn_Nm[7]);
    EXPECT_GT(turn_Nm[3], 0.90 * turn_Nm[7]);
    EXPECT_GT(turn_Nm[7], 5.0);
}

TEST(ScrollStart, TakesLongerWithALargerPlenum) {
    const auto turns_to_fill = [](double plenum_cm3) {
        ScrollParameters scroll = support::three_ton_scroll();
        scroll.plenum_volume_cm3 = plenum_cm3;
        ScrollBench bench = hot_day(scroll);
        bench.x[ScrollBench::speed] = full_speed;
        bench.run_until(2.0, [](const ScrollBench& b) {
            return b.x[Scroll::plenum_pressure] > b.x[Scroll::discharge_pressure];
        });
        return bench.angle_rad() / (2.0 * plant_models::pi);
    };
    // The plenum and what the pockets hold on average have to come from suction to discharge
    // density, 3.1 times that of the suction here.
    EXPECT_NEAR(turns_to_fill(0.0), 2.7, 0.6);
    EXPECT_NEAR(turns_to_fill(320.0) - turns_to_fill(160.0), 160.0 / 32.0 * 2.1, 1.0);
}

TEST(ScrollStop, GasPushesBackwardsAtStandstillUntilItHasLeakedAway) {
    ScrollBench bench = running(support::three_ton_scroll());
    bench.x[ScrollBench::speed] = 0.0;
    const double at_once = bench.driving_Nm();
    EXPECT_GT(at_once, 3.0);
    bench.run_for(0.1);
    EXPECT_GT(bench.driving_Nm(), 0.4 * at_once);
    const double above = bench.x[Scroll::plenum_pressure] - bench.x[Scroll::suction_pressure];
    EXPECT_GT(above, 1000.0);
    bench.run_for(0.9);
    EXPECT_LT(bench.driving_Nm(), 0.07 * at_once);
    // The check valve holds the discharge side meanwhile.
    EXPECT_GT(bench.x[Scroll::discharge_pressure] - bench.x[Scroll::suction_pressure], 2000.0);
}

TEST(ScrollStop, SettlesInTheTimeThatIsGiven) {
    for (const double settling_s : {0.5, 1.0, 5.0}) {
        ScrollParameters scroll = support::three_ton_scroll();
        scroll.settling_s = settling_s;
        ScrollBench bench = running(scroll);
        bench.x[ScrollBench::speed] = 0.0;
        const auto above = [&] {
            return bench.x[Scroll::plenum_pressure] - bench.x[Scroll::suction_pressure];
        };
        const double before = above();
        bench.run_for(settling_s);
        EXPECT_LT(above() / before, 0.05) << settling_s;
        EXPECT_GT(above() / before, 0.01) << settling_s;
    }
}

struct BackSpin {
    double speed_rad_per_s;  ///< the highest backwards
    double turns;            ///< backwards
};

/// In the first 0.6 s without a motor.
BackSpin spin_back(const char* valve) {
    ScrollParameters scroll = support::three_ton_scroll();
    scroll.check_valve = valve;
    ScrollBench bench = running(scroll);
    release(bench, 0.0);
    const double begin = bench.angle_rad();
    double fastest = 0.0;
    double farthest = begin;
    for (int k = 0; k < 600; ++k) {
        bench.run_for(1e-3);
        fastest = std::min(fastest, bench.x[ScrollBench::speed]);
        farthest = std::max(farthest, bench.angle_rad());
    }
    return {-fastest, (farthest - bench.angle_rad()) / (2.0 * plant_models::pi)};
}

TEST(ScrollStop, GasDrivesItBackwards) {
    const BackSpin with_valve = spin_back("fitted");
    EXPECT_GT(with_valve.speed_rad_per_s, 100.0);
    // No more than the gas behind the valve can give: it expands from 3400 to 1000 kPa. Plenum and
    // central chamber hold 44 cm3 at most, which is 100 J; the pockets' share is below 40 J.
    EXPECT_LT(0.5 * inertia_kg_m2 * std::pow(with_valve.speed_rad_per_s, 2.0), 140.0);

    const BackSpin without = spin_back("none");
    EXPECT_GT(without.speed_rad_per_s, 2.0 * with_valve.speed_rad_per_s);
    EXPECT_GT(without.turns, 3.0 * with_valve.turns);
}

TEST(ScrollStop, WithoutACheckValveTheDischargeSideFlowsBack) {
    for (const char* valve : {"fitted", "none"}) {
        ScrollParameters scroll = support::three_ton_scroll();
        scroll.check_valve = valve;
        ScrollBench bench = running(scroll);
        const double expected = bench.load.circuit().expansion_flow_kg_per_s(
            bench.x[Scroll::suction_pressure], bench.x[Scroll::discharge_pressure], true);
        const double c_d = bench.load.circuit().discharge_capacitance_kg_per_kPa();
        const double before = bench.x[Scroll::discharge_pressure];
        bench.x[ScrollBench::speed] = -full_speed;
        bench.run_for(0.5);
        const double fell = c_d * (before - bench.x[Scroll::discharge_pressure]) - 0.5 * expected;
        // Backwards it passes its discharge volume of discharge gas per turn.
        const double density = bench.load.circuit().discharge_density_kg_per_m3(
            bench.x[Scroll::suction_pressure], bench.x[Scroll::discharge_pressure]);
        const double passed = 0.5 * full_speed / (2.0 * plant_models::pi) * 32e-6 / 2.6 * density;
        EXPECT_NEAR(fell / passed, valve == std::string_view("none") ? 1.0 : 0.0, 0.05) << valve;
    }
}

TEST(ScrollBackwards, CarriesGasFromThePlenumToTheSuctionAndNeedsLittleTorque) {
    ScrollBench bench = running(support::three_ton_scroll());
    const double forwards_Nm = mean_torque_Nm(bench, 0.1);
    bench.x[ScrollBench::speed] = -full_speed;
    bench.run_for(0.2);
    const double discharge_kPa = bench.x[Scroll::discharge_pressure];
    // Below the suction pressure: gas went from the plenum to the suction, but not far below.
    EXPECT_LT(bench.x[Scroll::plenum_pressure], bench.x[Scroll::suction_pressure]);
    EXPECT_GT(bench.x[Scroll::plenum_pressure], 0.8 * bench.x[Scroll::suction_pressure]);
    const double backwards_Nm = mean_torque_Nm(bench, 0.2);
    EXPECT_LT(backwards_Nm, 0.0);  // it does resist: torque against negative rotation
    EXPECT_GT(backwards_Nm, -0.15 * forwards_Nm);
    EXPECT_LT(bench.x[Scroll::discharge_pressure], discharge_kPa);
}

TEST(ScrollBackwards, AMotorRestartedDuringTheBackSpinKeepsItThere) {
    ScrollBench bench = running(support::three_ton_scroll());
    release(bench, 0.0);
    bench.run_until(2.0, [](const ScrollBench& b) { return b.x[ScrollBench::speed] < -100.0; });
    ASSERT_LT(bench.x[ScrollBench::speed], -100.0);
    // A single-phase motor pulls the way it turns; a fifth of the torque for forward running is
    // plenty.
    release(bench, -1.5);
    bench.run_until(bench.time_s + 2.0,
                    [](const ScrollBench& b) { return b.x[ScrollBench::speed] < -full_speed; });
    EXPECT_LE(bench.x[ScrollBench::speed], -full_speed);
    // Forwards the same torque stalls.
    ScrollBench forwards = running(support::three_ton_scroll());
    release(forwards, 1.5);
    forwards.run_until(forwards.time_s + 2.0,
                       [](const ScrollBench& b) { return b.x[ScrollBench::speed] < 0.0; });
    EXPECT_LT(forwards.x[ScrollBench::speed], 0.0);
}

TEST(ScrollBackwards, WithoutACheckValveARestFindsItEqualised) {
    ScrollParameters scroll = support::three_ton_scroll();
    scroll.check_valve = "none";
    const ScrollBench bench = hot_day(scroll);
    EXPECT_EQ(bench.x[Scroll::suction_pressure], bench.x[Scroll::discharge_pressure]);
    const ScrollBench held = hot_day(support::three_ton_scroll());
    const auto& circuit = held.load.circuit();
    EXPECT_NEAR(bench.x[Scroll::suction_pressure] * (circuit.suction_capacitance_kg_per_kPa() +
                                                     circuit.discharge_capacitance_kg_per_kPa()),
                held.x[Scroll::suction_pressure] * circuit.suction_capacitance_kg_per_kPa() +
                    held.x[Scroll::discharge_pressure] * circuit.discharge_capacitance_kg_per_kPa(),
                1e-9);
}

}  // namespace
