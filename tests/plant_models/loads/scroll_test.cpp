#include "plant_models/loads/scroll.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "loads/scroll_bench.hpp"

namespace {

using plant_models::Conditions;
using plant_models::pi;
using plant_models::RefrigerantParameters;
using plant_models::Scroll;
using plant_models::ScrollParameters;
using plant_models::ScrollPockets;
using support::ScrollBench;

constexpr double full_speed = 366.519;  // 3500 r/min
constexpr double evaporating_kPa = 1001.0;
constexpr double condensing_kPa = 3400.0;

/// Turns at full speed between two sides whose pressures do not move.
ScrollBench steady(const ScrollParameters& scroll, double suction_kPa, double discharge_kPa) {
    ScrollBench bench(Scroll(scroll, RefrigerantParameters{}, Conditions{}));
    bench.sides_held = true;
    bench.set_pressures(suction_kPa, discharge_kPa);
    bench.x[ScrollBench::speed] = full_speed;
    return bench;
}

ScrollParameters tight_scroll() {
    ScrollParameters scroll = support::three_ton_scroll();
    scroll.leakage_percent = 0.0;
    return scroll;
}

double work_per_turn_J(ScrollBench& bench, int turns) {
    const double before = bench.x[ScrollBench::gas_work];
    bench.run_turns(turns);
    return (bench.x[ScrollBench::gas_work] - before) / turns;
}

/// A few hundred turns fill the plenum and leave nothing of the beginning.
double steady_work_J(const ScrollParameters& scroll, double suction_kPa, double discharge_kPa) {
    ScrollBench bench = steady(scroll, suction_kPa, discharge_kPa);
    bench.run_turns(400);
    return work_per_turn_J(bench, 5);
}

/// What textbooks give: compression to the built-in ratio, then delivery against p_d.
double built_in_work_J(double n, double v_r, double displacement_m3, double p_s, double p_d) {
    return 1000.0 * displacement_m3 *
           (p_s / (n - 1.0) * (std::pow(v_r, n - 1.0) - 1.0) + p_d / v_r - p_s);
}

double isentropic_work_J(double n, double displacement_m3, double p_s, double p_d) {
    return 1000.0 * displacement_m3 * p_s * n / (n - 1.0) *
           (std::pow(p_d / p_s, (n - 1.0) / n) - 1.0);
}

double exponent(const ScrollBench& bench) {
    return bench.load.circuit().gas().isentropic_exponent;
}

TEST(Scroll, ClosedPocketsFollowTheIsentropeToTheBuiltInRatio) {
    ScrollBench bench = steady(tight_scroll(), evaporating_kPa, condensing_kPa);
    const double n = exponent(bench);
    double opened_at_kPa = 0.0;
    bench.on_step = [&](const ScrollBench::State&, const ScrollBench::State& to) {
        const double theta = to[Scroll::orbit_angle];
        const double ratio = 32e-6 / bench.load.pockets().outer_m3(theta);
        if (bench.turns >= 1) {
            EXPECT_NEAR(to[Scroll::outer_pressure] / evaporating_kPa, std::pow(ratio, n), 2e-4);
        }
        if (bench.turns >= 2 && !bench.load.inner_open()) {
            opened_at_kPa = to[Scroll::inner_pressure];
        }
    };
    bench.run_turns(4);
    EXPECT_NEAR(opened_at_kPa / evaporating_kPa, std::pow(2.6, n), 1e-3);
}

TEST(Scroll, MeanTorqueIsTheTextbookWorkWithBuiltInRatio) {
    for (const char* valve : {"none", "fitted"}) {
        for (const double discharge : {2200.0, condensing_kPa}) {
            ScrollParameters scroll = tight_scroll();
            scroll.check_valve = valve;
            scroll.plenum_volume_cm3 = 2000.0;  // large: its pressure hardly moves
            ScrollBench bench = steady(scroll, evaporating_kPa, discharge);
            const double book =
                built_in_work_J(exponent(bench), 2.6, 32e-6, evaporating_kPa, discharge);
            EXPECT_NEAR(steady_work_J(scroll, evaporating_kPa, discharge) / book, 1.0, 1.5e-3)
                << valve << " " << discharge;
        }
    }
}

TEST(Scroll, ThePlenumOfItsOwnSizeChangesTheWorkByLessThanTwoPercent) {
    ScrollBench bench = steady(tight_scroll(), evaporating_kPa, condensing_kPa);
    const double book =
        built_in_work_J(exponent(bench), 2.6, 32e-6, evaporating_kPa, condensing_kPa);
    EXPECT_NEAR(steady_work_J(tight_scroll(), evaporating_kPa, condensing_kPa) / book, 1.0, 0.02);
}

TEST(Scroll, WorksLeastAboveIsentropicWhereTheBuiltInRatioFits) {
    ScrollParameters scroll = tight_scroll();
    scroll.plenum_volume_cm3 = 2000.0;
    const double n = exponent(steady(scroll, 1000.0, 2000.0));
    const double fitting_kPa = evaporating_kPa * std::pow(2.6, n);
    const auto excess = [&](double discharge_kPa) {
        return steady_work_J(scroll, evaporating_kPa, discharge_kPa) /
               isentropic_work_J(n, 32e-6, evaporating_kPa, discharge_kPa);
    };
    const double over = excess(0.6 * fitting_kPa);
    const double fitting = excess(fitting_kPa);
    const double under = excess(1.5 * fitting_kPa);
    EXPECT_GE(fitting, 1.0);
    EXPECT_LT(fitting, 1.01);
    EXPECT_GT(over, 1.10);   // it compresses 67 % too far and lets go
    EXPECT_GT(under, 1.03);  // gas flows back into the pocket as it opens
}

// R410A, 7.2 / 54.4 C, 3500 r/min: 10.7 cm3 and 2.16 N m for a ton of cooling (computed from the
// gas's equation of state, independently of this project).
TEST(Scroll, NeedsTheTorquePerTonOfItsRefrigerant) {
    ScrollParameters scroll = tight_scroll();
    scroll.displacement_cm3 = 10.7;
    scroll.plenum_volume_cm3 = 1000.0;
    scroll.volume_ratio = 3.11;  // what fits these pressures
    const double torque = steady_work_J(scroll, 1001.3, 3398.0) / (2.0 * pi);
    EXPECT_NEAR(torque, 2.16, 0.03);
}

TEST(Scroll, TorqueTimesAngleIsTheWorkOnEveryVolume) {
    for (const double speed : {full_speed, -full_speed, 60.0}) {
        ScrollBench bench = steady(support::three_ton_scroll(), 950.0, condensing_kPa);
        bench.step_s = 20e-6;
        bench.run_turns(8);
        bench.x[ScrollBench::speed] = speed;
        // Volumes as lines between closing and opening, written out again. The suction's share has
        // the opposite sign of all the others together.
        const double end = 4.5 * pi;
        const double closed = 32e-6 / end;
        const double central = 32e-6 / 2.6 / (2.0 * pi);
        double work_J = 0.0;
        bench.on_step = [&](const ScrollBench::State& from, const ScrollBench::State& to) {
            const double turned = to[Scroll::orbit_angle] - from[Scroll::orbit_angle];
            const auto add = [&](std::size_t pressure, double volume_per_rad) {
                const double above =
                    0.5 * (from[pressure] + to[pressure] - from[Scroll::suction_pressure] -
                           to[Scroll::suction_pressure]);
                work_J += 1000.0 * above * volume_per_rad * turned;
            };
            add(Scroll::outer_pressure, closed);
            add(Scroll::plenum_pressure, central);
            if (!bench.load.inner_open()) {
                add(Scroll::inner_pressure, closed);
            }
        };
        const double before = bench.x[ScrollBench::gas_work];
        bench.run_for(0.2);
        const double gained = bench.x[ScrollBench::gas_work] - before;
        EXPECT_GT(std::abs(gained), 1.0);
        EXPECT_NEAR(work_J / gained, 1.0, 1e-3) << speed;
    }
}

// First law, one closed pocket without leakage: work done on it = rise of p V / (n - 1).
TEST(Scroll, GasKeepsTheWorkThatAClosedPocketReceives) {
    ScrollBench bench = steady(tight_scroll(), evaporating_kPa, condensing_kPa);
    bench.run_turns(3);
    const double n = exponent(bench);
    const auto& pockets = bench.load.pockets();
    double work = 0.0;
    bench.on_step = [&](const ScrollBench::State& from, const ScrollBench::State& to) {
        work += 0.5 * (from[Scroll::outer_pressure] + to[Scroll::outer_pressure]) *
                (pockets.outer_m3(from[Scroll::orbit_angle]) -
                 pockets.outer_m3(to[Scroll::orbit_angle]));
    };
    const double before = bench.x[Scroll::outer_pressure] *
                          pockets.outer_m3(bench.x[Scroll::orbit_angle]) / (n - 1.0);
    bench.run_turns(1);
    const double after = bench.x[Scroll::inner_pressure] *
                         pockets.inner_m3(bench.x[Scroll::orbit_angle]) / (n - 1.0);
    EXPECT_NEAR(work / (after - before), 1.0, 1e-3);
}

TEST(Scroll, DeliversItsDisplacementOfSuctionGasPerTurn) {
    ScrollBench bench(Scroll(tight_scroll(), RefrigerantParameters{}, Conditions{}));
    bench.x[ScrollBench::speed] = full_speed;
    bench.run_turns(30);
    const double charge = bench.load.total_mass_kg(bench.x.data());
    const double c_d = bench.load.circuit().discharge_capacitance_kg_per_kPa();
    double expanded = 0.0;
    double expected = 0.0;
    bench.on_step = [&](const ScrollBench::State& from, const ScrollBench::State& to) {
        const double step_s = (to[Scroll::orbit_angle] - from[Scroll::orbit_angle]) / full_speed;
        const double suction =
            0.5 * (from[Scroll::suction_pressure] + to[Scroll::suction_pressure]);
        expanded += step_s * bench.load.circuit().expansion_flow_kg_per_s(
                                 suction, to[Scroll::discharge_pressure], true);
        expected += step_s * full_speed / (2.0 * pi) * 32e-6 *
                    bench.load.circuit().suction_density_kg_per_m3(suction);
    };
    const double before = bench.x[Scroll::discharge_pressure];
    bench.run_turns(60);
    const double delivered = c_d * (bench.x[Scroll::discharge_pressure] - before) + expanded;
    // The gas of the two turns that it takes to pass through is the older, denser one.
    EXPECT_NEAR(delivered / expected, 1.0, 0.01);
    EXPECT_NEAR(bench.load.total_mass_kg(bench.x.data()) / charge, 1.0, 1e-12);
}

TEST(Scroll, KeepsAllRefrigerantForwardsBackwardsAndRocking) {
    for (const char* valve : {"fitted", "none"}) {
        ScrollParameters scroll = support::three_ton_scroll();
        scroll.check_valve = valve;
        ScrollBench bench(Scroll(scroll, RefrigerantParameters{}, Conditions{}));
        const double charge = bench.load.total_mass_kg(bench.x.data());
        const auto gone = [&] { return bench.load.total_mass_kg(bench.x.data()) / charge - 1.0; };
        bench.x[ScrollBench::speed] = full_speed;
        bench.run_for(0.3);
        EXPECT_LT(std::abs(gone()), 1e-12) << valve;
        bench.x[ScrollBench::speed] = -full_speed;
        bench.run_for(0.3);
        EXPECT_LT(std::abs(gone()), 1e-12) << valve;
        bench.x[ScrollBench::speed] = 0.0;
        bench.acceleration = [](const ScrollBench::State&, double t) {
            return 9000.0 * std::cos(55.0 * t);
        };
        const int before = bench.events;
        bench.run_for(0.7);
        EXPECT_GT(bench.events, before + 20);
        EXPECT_LT(std::abs(gone()), 1e-12) << valve;
    }
}

TEST(Scroll, RatesConvergeWithTheFourthPowerOfTheStep) {
    const auto end_state = [](double step_s) {
        ScrollBench bench(
            Scroll(support::three_ton_scroll(), RefrigerantParameters{}, Conditions{}));
        bench.x[ScrollBench::speed] = full_speed;
        bench.step_s = 10e-6;
        bench.run_turns(10);
        bench.step_s = step_s;
        bench.run_for(2.4e-3);  // through the opening, not yet to the valve
        return bench.x;
    };
    const auto exact = end_state(1e-6);
    const auto error = [&](double step_s) {
        const auto x = end_state(step_s);
        return std::abs(x[Scroll::inner_pressure] - exact[Scroll::inner_pressure]) +
               std::abs(x[Scroll::outer_pressure] - exact[Scroll::outer_pressure]);
    };
    EXPECT_LT(error(200e-6), 0.02);  // kPa
    EXPECT_GT(error(200e-6) / error(100e-6), 10.0);
}

TEST(Scroll, AStepOfTheTimelineIsShortEnoughForValveAndWraps) {
    const auto work = [](double step_s) {
        ScrollBench bench(
            Scroll(support::three_ton_scroll(), RefrigerantParameters{}, Conditions{}));
        bench.x[ScrollBench::speed] = full_speed;
        bench.step_s = step_s;
        bench.run_turns(12);
        return work_per_turn_J(bench, 8);
    };
    const double fine = work(5e-6);
    EXPECT_NEAR(work(100e-6) / fine, 1.0, 2e-4);
    EXPECT_NEAR(work(200e-6) / fine, 1.0, 2e-3);
}

TEST(Scroll, EventsReverseWithoutBeingRepeated) {
    for (const bool at_the_opening : {false, true}) {
        ScrollBench bench(
            Scroll(support::three_ton_scroll(), RefrigerantParameters{}, Conditions{}));
        bench.x[ScrollBench::speed] = 100.0;
        bench.run_turns(5);
        double boundary = 0.0;
        if (at_the_opening) {
            boundary = bench.load.pockets().opening_angle_rad();
            bench.run_until(10.0, [](const ScrollBench& b) { return b.load.inner_open(); });
        }
        // A hair's breadth to and fro across the boundary: two events a swing, never more.
        constexpr double swing_rad = 1e-4;
        constexpr double rad_per_s = 200.0;
        bench.x[ScrollBench::speed] = 0.0;
        bench.x[Scroll::orbit_angle] = boundary + swing_rad;
        const double begin_s = bench.time_s;
        bench.acceleration = [&](const ScrollBench::State&, double time_s) {
            return -swing_rad * rad_per_s * rad_per_s * std::cos(rad_per_s * (time_s - begin_s));
        };
        const int before = bench.events;
        bench.run_for(20.0 * 2.0 * pi / rad_per_s);
        EXPECT_EQ(bench.events - before, 40) << at_the_opening;
    }
}

TEST(Scroll, EveryGuardIsPositiveAfterEveryEvent) {
    ScrollBench bench(Scroll(support::three_ton_scroll(), RefrigerantParameters{}, Conditions{}));
    bench.acceleration = [](const ScrollBench::State&, double t) {
        return 8000.0 * std::cos(30.0 * t);
    };
    int seen = 0;
    while (bench.time_s < 1.5) {
        const int before = bench.events;
        bench.run_until(1.5, [&](const ScrollBench& b) { return b.events > before; });
        std::array<double, Scroll::guard_count> values{};
        bench.load.guards(bench.x.data(), {bench.x[ScrollBench::speed], 1.0}, values.data());
        for (std::size_t k = 0; k < values.size(); ++k) {
            EXPECT_TRUE(Scroll::guard_is_kink(k) || values[k] > 0.0) << k;
        }
        ++seen;
    }
    EXPECT_GT(seen, 50);
}

TEST(Scroll, RestsAtAnyAngleAsItWasToldTo) {
    for (const double angle_deg : {-360.0, -200.0, 0.0, 90.0, 138.0, 139.0, 359.0, 360.0}) {
        ScrollParameters scroll = support::three_ton_scroll();
        scroll.crank_angle_deg = angle_deg;
        const Scroll load(scroll, RefrigerantParameters{}, Conditions{});
        const auto x = load.initial_state();
        const double turned = load.channels(x.data())[0] - angle_deg;
        EXPECT_NEAR(std::remainder(turned, 360.0), 0.0, 1e-9) << angle_deg;
        EXPECT_EQ(load.torque(x.data(), {0.0, 1.0}).driving_Nm, 0.0);
    }
}

TEST(Scroll, StaticFrictionIsNeverBelowTheSlidingOne) {
    ScrollParameters scroll = support::three_ton_scroll();
    scroll.breakaway_torque_Nm = 0.0;
    const Scroll load(scroll, RefrigerantParameters{}, Conditions{});
    const auto x = load.initial_state();
    for (const double drag : {0.5, 1.0, 8.0}) {
        EXPECT_GE(load.breakaway_torque_Nm(x.data(), drag),
                  load.torque(x.data(), {0.0, drag}).opposing_Nm);
    }
}

}  // namespace
