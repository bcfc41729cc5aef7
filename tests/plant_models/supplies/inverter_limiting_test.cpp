// The four methods by which the inverter limits its current, side by side.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <string_view>

#include "supplies/inverter_bench.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::Inverter;
using plant_models::InverterParameters;
using support::InverterBench;

constexpr std::string_view methods[] = {"reference_clamp", "switch_clamp", "virtual_impedance",
                                        "voltage_foldback"};
const double limited_A = 0.9 * 60.0 / std::sqrt(2.0);
const double rated_A = 60.0 / (1.5 * std::sqrt(2.0));

InverterParameters limiting_by(std::string_view method) {
    InverterParameters parameters = support::small_inverter();
    parameters.limiting_method = method;
    parameters.overload_time_s = 100.0;
    parameters.refill_power_W = 20000.0;
    return parameters;
}

struct Load {
    double resistance_ohm;
    double inductance_mH;
};
/// Takes `times` the rated current at 230 V.
Load load_of(double times, double power_factor) {
    const double impedance_ohm = 230.0 / (times * rated_A);
    const double sine = std::sqrt(1.0 - power_factor * power_factor);
    return {impedance_ohm * power_factor,
            1e3 * impedance_ohm * std::max(sine, 0.02) / (120.0 * plant_models::pi)};
}
const Load overloads[] = {{0.01, 0.1},       {0.5, 0.1},        {2.0, 0.1},
                          load_of(3.0, 1.0), load_of(3.0, 0.6), load_of(3.0, 0.2)};

void connect(InverterBench& bench, const Load& load) {
    bench.connect(load.resistance_ohm, load.inductance_mH);
}

TEST(InverterLimiting, NoMethodLetsTheBridgeCurrentPassItsLimit) {
    for (const auto method : methods) {
        for (const Load& load : overloads) {
            for (const double phase_s : {0.0, 1.0 / 240.0, 1.0 / 150.0}) {
                InverterBench bench(limiting_by(method));
                bench.run_for(0.05 + phase_s);
                connect(bench, load);
                double highest_A = 0.0;
                bench.run_for(0.4, [&] {
                    highest_A = std::max(highest_A, std::abs(bench.x[Inverter::inductor_current]));
                });
                EXPECT_LT(highest_A, 60.0 * 1.0001) << method << load.resistance_ohm;
                EXPECT_GT(highest_A, 59.0) << method << load.resistance_ohm;
                EXPECT_FALSE(bench.tripped());
            }
        }
    }
}

TEST(InverterLimiting, MethodsThatActOnTheVoltageSettleToTheLimitedCurrent) {
    for (const Load& load : overloads) {
        InverterBench folding(limiting_by("voltage_foldback"));
        connect(folding, load);
        // A dead short circuit leaves a faint voltage, whose loop swings for seconds.
        folding.run_for(load.resistance_ohm < 0.1 ? 3.0 : 1.0);
        EXPECT_NEAR(folding.next_cycle().current_rms_A, limited_A, 0.01 * limited_A);

        InverterBench impedance(limiting_by("virtual_impedance"));
        connect(impedance, load);
        impedance.run_for(1.0);
        const double current_A = impedance.next_cycle().current_rms_A;
        EXPECT_LT(current_A, 1.002 * limited_A) << load.resistance_ohm;
        EXPECT_GT(current_A, 0.75 * limited_A) << load.resistance_ohm;
    }
}

TEST(InverterLimiting, ActingOnTheVoltageKeepsASineWhereClampsCutItSquare) {
    for (const Load& load : {load_of(3.0, 1.0), load_of(3.0, 0.6)}) {
        for (const auto method : methods) {
            InverterBench bench(limiting_by(method));
            connect(bench, load);
            bench.run_for(0.6);
            const auto cycle = bench.next_cycle();
            const bool clamps = method == methods[0] || method == methods[1];
            if (clamps) {
                EXPECT_GT(cycle.voltage_distortion, 0.15) << method;
                EXPECT_GT(cycle.current_distortion, 0.12) << method;
            } else {
                EXPECT_LT(cycle.voltage_distortion, 0.005) << method;
                EXPECT_LT(cycle.current_distortion, 0.005) << method;
            }
        }
    }
}

TEST(InverterLimiting, SwitchClampDistortsMoreThanAClampedReference) {
    for (const Load& load : overloads) {
        InverterBench reference(limiting_by("reference_clamp"));
        InverterBench switches(limiting_by("switch_clamp"));
        connect(reference, load);
        connect(switches, load);
        reference.run_for(0.3);
        switches.run_for(0.3);
        const auto gentle = reference.next_cycle();
        const auto blunt = switches.next_cycle();
        EXPECT_GT(blunt.voltage_distortion, 1.1 * gentle.voltage_distortion);
        EXPECT_GT(blunt.current_distortion, 1.1 * gentle.current_distortion);
    }
}

// An impedance in series, by phasors: |R + j w L + Z (cos a + j sin a)| I = V.
TEST(InverterLimiting, VirtualImpedanceActsLikeAnImpedanceInSeries) {
    for (const double angle_deg : {0.0, 20.0, 35.0}) {
        for (const Load& load : {load_of(1.5, 1.0), load_of(2.0, 0.8), load_of(4.0, 0.6)}) {
            InverterParameters parameters = limiting_by("virtual_impedance");
            parameters.virtual_impedance_angle_deg = angle_deg;
            InverterBench bench(parameters);
            connect(bench, load);
            bench.run_for(1.0);
            const double current_A = bench.next_cycle().current_rms_A;
            const double threshold_A = 0.75 * limited_A;
            const double virtual_ohm =
                230.0 / (limited_A * (limited_A - threshold_A)) * (current_A - threshold_A);
            const std::complex<double> total =
                std::complex<double>(load.resistance_ohm,
                                     120e-3 * plant_models::pi * load.inductance_mH) +
                std::polar(virtual_ohm, plant_models::degrees_to_radians(angle_deg));
            EXPECT_NEAR(std::abs(total) * current_A, 230.0, 1.0) << angle_deg;
        }
    }
}

TEST(InverterLimiting, FoldbackTakesTheTimeThatItsTimeConstantSays) {
    const auto settled_s = [](double time_constant_ms) {
        InverterParameters parameters = limiting_by("voltage_foldback");
        parameters.foldback_time_ms = time_constant_ms;
        InverterBench bench(parameters);
        connect(bench, load_of(2.0, 1.0));
        const double share = limited_A / (2.0 * rated_A);
        while (bench.x[Inverter::first_limiter_state] > 1.05 * share && bench.time_s < 5.0) {
            bench.run_for(InverterBench::step_s);
        }
        return bench.time_s;
    };
    const double slow_s = settled_s(800.0);
    EXPECT_NEAR(slow_s / settled_s(200.0), 4.0, 0.4);
    EXPECT_GT(slow_s, 0.8);
}

TEST(InverterLimiting, VoltageIsBackSoonAfterTheOverload) {
    for (const auto method : methods) {
        // The foldback climbs from almost nothing: T ln(230 V / what it left).
        const double allowed_s = method == "voltage_foldback" ? 16.0 / 60.0 : 3.0 / 60.0;
        for (const Load& load : overloads) {
            for (const double phase_s : {0.0, 1.0 / 300.0}) {
                InverterBench bench(limiting_by(method));
                connect(bench, load);
                bench.run_for(0.6 + phase_s);
                connect(bench, load_of(0.3, 0.95));
                bench.run_for(allowed_s);
                const auto cycle = bench.next_cycle();
                EXPECT_NEAR(cycle.voltage_rms_V, 230.0, 2.3) << method << load.resistance_ohm;
                EXPECT_LT(cycle.voltage_distortion, 0.03) << method << load.resistance_ohm;
            }
        }
    }
}

TEST(InverterLimiting, MethodsDoNotDifferWhileNothingIsLimited) {
    InverterBench plain(limiting_by("reference_clamp"));
    connect(plain, load_of(0.9, 0.7));
    plain.run_for(0.3);
    for (const auto method : methods) {
        InverterBench other(limiting_by(method));
        connect(other, load_of(0.9, 0.7));
        other.run_for(0.3, [&] {
            ASSERT_EQ(other.inverter.channels(other.x.data(), other.time_s, other.loading())[1],
                      0.0);
        });
        for (std::size_t k = 0; k < Inverter::first_limiter_state; ++k) {
            EXPECT_EQ(other.x[k], plain.x[k]) << method << k;
        }
    }
}

TEST(InverterLimiting, HeldSwitchesKeepTheCurrentAndStopTheResonantPart) {
    InverterBench bench(limiting_by("switch_clamp"));
    connect(bench, {2.0, 0.1});
    int held_count = 0;
    double before_A = 0.0;
    bool held_before = false;
    bench.run_for(0.2, [&] {
        const bool held =
            bench.inverter.channels(bench.x.data(), bench.time_s, bench.loading())[1] == 1.0;
        const double amplitude_A =
            std::hypot(bench.x[Inverter::resonator], bench.x[Inverter::resonator_quadrature]);
        if (held && held_before) {
            ++held_count;
            ASSERT_NEAR(std::abs(bench.x[Inverter::inductor_current]), 60.0, 1e-6);
            ASSERT_NEAR(amplitude_A, before_A, 1e-6);
        }
        before_A = amplitude_A;
        held_before = held;
    });
    EXPECT_GT(held_count, 5000);
    EXPECT_LT(held_count, 19000);
}

// Above its bus the output's capacitor can drive the current past the limit or off it.
TEST(InverterLimiting, SwitchesHoldOnlyACurrentAtItsLimitThatIsAskedToGrow) {
    Inverter inverter(limiting_by("switch_clamp"));
    const auto guard = [&](Inverter::GuardIndex which, double inductor_A, double line_A) {
        std::array<double, Inverter::state_count> x{};
        x[Inverter::bus_voltage] = 400.0;
        x[Inverter::inductor_current] = inductor_A;
        std::array<double, Inverter::guard_count> guards{};
        inverter.guards(x.data(), 0.0, {line_A, 0.0, 0.0}, guards.data());
        return guards[static_cast<std::size_t>(which)];
    };
    EXPECT_GT(guard(Inverter::hold_begins, 59.0, 90.0), 0.0);
    EXPECT_LE(guard(Inverter::hold_begins, 61.0, 90.0), 0.0);
    EXPECT_GT(guard(Inverter::hold_begins, 61.0, 30.0), 0.0);
    EXPECT_GT(guard(Inverter::hold_begins, -61.0, 90.0), 0.0);
    EXPECT_LE(guard(Inverter::hold_begins, -61.0, -90.0), 0.0);
    EXPECT_GT(guard(Inverter::limiting_ends, 60.0, -90.0), 0.0);
    double at_limit[Inverter::state_count] = {-60.0};
    inverter.on_guard(Inverter::hold_begins, at_limit);
    EXPECT_EQ(at_limit[Inverter::inductor_current], -60.0);
    EXPECT_GT(guard(Inverter::limiting_ends, -60.0, -90.0), 0.0);
    EXPECT_LE(guard(Inverter::limiting_ends, -60.0, -50.0), 0.0);
    EXPECT_LE(guard(Inverter::limiting_ends, -59.0, -90.0), 0.0);
    EXPECT_GT(guard(Inverter::hold_begins, -61.0, -90.0), 0.0);  // it holds already
}

TEST(InverterLimiting, TripLetsTheSwitchesGo) {
    InverterBench bench(limiting_by("switch_clamp"));
    connect(bench, {0.5, 0.1});
    while (bench.x[Inverter::inductor_current] < 59.9999) {
        bench.run_for(InverterBench::step_s);
    }
    bench.inverter.on_guard(Inverter::timer_full, bench.x.data());
    std::array<double, Inverter::guard_count> guards{};
    bench.inverter.guards(bench.x.data(), bench.time_s, bench.loading(), guards.data());
    EXPECT_GT(guards[Inverter::limiting_ends], 0.0);
    bench.run_for(0.005);
    EXPECT_NEAR(bench.x[Inverter::inductor_current], 0.0, 0.5);
    bench.run_for(0.1);
    EXPECT_NEAR(bench.x[Inverter::inductor_current], 0.0, 1e-3);
}

TEST(InverterLimiting, EnergyIsAccountedForThroughOverloadRecoveryAndTrip) {
    for (const auto method : methods) {
        for (const Load& load : overloads) {
            InverterParameters parameters = limiting_by(method);
            parameters.overload_time_s = 0.6;
            parameters.idle_draw_W = 25.0;
            InverterBench bench(parameters);
            bench.run_for(0.05);
            connect(bench, load);
            bench.run_for(0.3);
            connect(bench, load_of(0.5, 0.8));
            bench.run_for(0.2);
            EXPECT_FALSE(bench.tripped());
            connect(bench, load);
            bench.run_for(1.0);
            EXPECT_EQ(bench.inverter.trip_cause(), "inverter_overload") << method;
            EXPECT_NEAR(bench.unaccounted_J(), 0.0, 2e-6 * bench.x[InverterBench::source_energy])
                << method << load.resistance_ohm;
        }
    }
}

TEST(InverterLimiting, SourcePowerIsLossPlusStoredPlusOutputAtAnyState) {
    support::RandomNumbers random(23);
    for (const auto method : methods) {
        for (const bool battery : {false, true}) {
            InverterParameters parameters = limiting_by(method);
            parameters.idle_draw_W = 40.0;
            if (battery) {
                parameters.dc_side = "battery";
                parameters.battery_voltage_V = 51.2;
            }
            Inverter inverter(parameters);
            for (int k = 0; k < 1000; ++k) {
                std::array<double, Inverter::state_count> x = {
                    random.between(-60.0, 60.0),  random.between(-380.0, 380.0),
                    random.between(-60.0, 60.0),  random.between(-60.0, 60.0),
                    random.between(290.0, 420.0), random.between(0.0, 2000.0),
                    random.between(0.0, 5.0),     random.between(0.0, 1.0),
                    random.between(-60.0, 60.0),  random.between(0.0, 5.0),
                    random.between(0.0, 200.0)};
                if (method == "switch_clamp" && k % 2 == 1) {
                    inverter.on_guard(Inverter::hold_begins, x.data());
                }
                const plant_models::SupplyLoading loading{random.between(-100.0, 100.0), 0.0,
                                                          x[Inverter::output_voltage]};
                std::array<double, Inverter::state_count> rate{};
                const auto power = inverter.derivatives(x.data(), rate.data(), 0.0, loading);
                const double h = 1e-5;
                auto ahead = x;
                auto behind = x;
                for (std::size_t n = 0; n < x.size(); ++n) {
                    ahead[n] += h * rate[n];
                    behind[n] -= h * rate[n];
                }
                const double stored = (inverter.stored_energy_J(ahead.data()) -
                                       inverter.stored_energy_J(behind.data())) /
                                      (2.0 * h);
                const double output = x[Inverter::output_voltage] * loading.line_current_A();
                EXPECT_GE(power.loss_W, 40.0 - 1e-9);
                EXPECT_NEAR(power.source_W, power.loss_W + stored + output, 2e-4);
                inverter.on_guard(Inverter::limiting_ends, x.data());
            }
        }
    }
}

}  // namespace
