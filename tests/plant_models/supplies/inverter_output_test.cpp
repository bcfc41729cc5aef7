// What the inverter's terminals do: voltage without and with load, current limit, recovery.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "supplies/inverter_bench.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::Inverter;
using plant_models::InverterParameters;
using support::InverterBench;

TEST(InverterOutput, OpenCircuitVoltageSettlesToItsRatingFromADeadFilter) {
    for (const double frequency_Hz : {50.0, 60.0}) {
        for (const double voltage_V : {115.0, 230.0}) {
            InverterParameters parameters = support::small_inverter();
            parameters.voltage_V = voltage_V;
            parameters.frequency_Hz = frequency_Hz;
            InverterBench bench(parameters);
            bench.x[Inverter::output_voltage] = 0.0;
            bench.x[Inverter::inductor_current] = 0.0;
            bench.run_for(3.0 / frequency_Hz);
            EXPECT_NEAR(bench.next_cycle_rms_V(), voltage_V, 0.01 * voltage_V);
            EXPECT_FALSE(bench.tripped());
        }
    }
}

TEST(InverterOutput, BeginsInItsUnloadedSteadyState) {
    InverterBench bench(support::small_inverter());
    bench.run_for(0.05, [&] {
        const double wanted =
            230.0 * std::sqrt(2.0) * std::sin(2.0 * plant_models::pi * 60.0 * bench.time_s);
        ASSERT_NEAR(bench.x[Inverter::output_voltage], wanted, 0.01 * 325.0) << bench.time_s;
    });
}

TEST(InverterOutput, PhaseIsThatOfTheVoltagesSine) {
    InverterParameters parameters = support::small_inverter();
    parameters.phase_deg = 90.0;
    const auto x = Inverter(parameters).initial_state();
    EXPECT_NEAR(x[Inverter::output_voltage], 230.0 * std::sqrt(2.0), 1e-9);
    EXPECT_NEAR(x[Inverter::inductor_current], 0.0, 1e-9);
}

TEST(InverterOutput, VoltageHoldsUnderItsRatedLoad) {
    for (const double power_factor_angle_deg : {0.0, 45.0, 80.0}) {
        const double angle = plant_models::degrees_to_radians(power_factor_angle_deg);
        const double rated_A = 60.0 / (1.5 * std::sqrt(2.0));
        const double impedance_ohm = 230.0 / (0.95 * rated_A);
        InverterBench bench(support::small_inverter());
        bench.connect(
            impedance_ohm * std::cos(angle),
            1e3 * impedance_ohm * std::max(std::sin(angle), 0.02) / (120.0 * plant_models::pi));
        bench.run_for(0.2);
        EXPECT_NEAR(bench.next_cycle_rms_V(), 230.0, 2.3) << power_factor_angle_deg;
    }
}

// The inner loop follows a limited reference without overshoot, so the limit is the limit; the
// tenth of a per cent is for the loop's answer to the bus and to the steps of the integration.
TEST(InverterOutput, CurrentUnderAShortCircuitReachesItsLimitAndStaysThere) {
    for (const double instant_s : {0.0, 1.0 / 240.0, 1.0 / 160.0}) {
        for (const double resistance_ohm : {0.01, 0.5, 2.0}) {
            InverterBench bench(support::small_inverter());
            bench.run_for(0.1 + instant_s);
            bench.connect(resistance_ohm, 0.1);
            double highest_A = 0.0;
            double lowest_A = 0.0;
            bench.run_for(0.2, [&] {
                highest_A = std::max(highest_A, bench.x[Inverter::inductor_current]);
                lowest_A = std::min(lowest_A, bench.x[Inverter::inductor_current]);
            });
            EXPECT_LT(highest_A, 60.0 * 1.001);
            EXPECT_GT(lowest_A, -60.0 * 1.001);
            EXPECT_GT(highest_A, 60.0 * 0.98);
            EXPECT_LT(lowest_A, -60.0 * 0.98);
            EXPECT_FALSE(bench.tripped());
        }
    }
}

TEST(InverterOutput, VoltageIsBackWithinThreeCyclesOfALongShortCircuit) {
    for (const double phase_s : {0.0, 1.0 / 300.0, 1.0 / 100.0}) {
        InverterBench bench(support::small_inverter());
        bench.run_for(0.05);
        bench.connect(0.3, 0.1);
        bench.run_for(1.0 + phase_s);
        bench.connect(200.0, 30.0);
        bench.run_for(3.0 / 60.0);
        EXPECT_NEAR(bench.next_cycle_rms_V(), 230.0, 2.3) << phase_s;
    }
}

TEST(InverterOutput, VoltageCollapsesRatherThanTheLimitGivingWay) {
    InverterBench bench(support::small_inverter());
    bench.connect(1.0, 0.1);
    bench.run_for(0.1);
    // Clipped at 60 A, the current through 1 ohm cannot make more than a 60 A square wave.
    EXPECT_LT(bench.next_cycle_rms_V(), 62.0);
    EXPECT_GT(bench.next_cycle_rms_V(), 42.0);
}

TEST(InverterOutput, GuardsOfTheLimitChangeSignWhereTheLimitSetsIn) {
    support::RandomNumbers random(8);
    const Inverter inverter(support::small_inverter());
    int active_count = 0;
    for (int k = 0; k < 2000; ++k) {
        std::array<double, Inverter::state_count> x{};
        x[Inverter::output_voltage] = random.between(-330.0, 330.0);
        x[Inverter::bus_voltage] = 400.0;
        const plant_models::SupplyLoading loading{random.between(-120.0, 120.0), 0.0,
                                                  x[Inverter::output_voltage]};
        std::array<double, Inverter::guard_count> guards{};
        inverter.guards(x.data(), 0.0, loading, guards.data());
        const bool active = inverter.channels(x.data(), 0.0, loading)[1] == 1.0;
        const bool by_guards = guards[Inverter::current_limit_positive] < 0.0 ||
                               guards[Inverter::current_limit_negative] < 0.0;
        ASSERT_EQ(active, by_guards);
        active_count += active ? 1 : 0;
    }
    EXPECT_GT(active_count, 500);
    EXPECT_LT(active_count, 1500);
}

// The bridge's voltage is what is left of the filter's equation: L di/dt + R i + v_C.
TEST(InverterOutput, BridgeGivesNoMoreThanItsBusAndItsGuardsSayWhen) {
    support::RandomNumbers random(19);
    const InverterParameters parameters = support::small_inverter();
    const Inverter inverter(parameters);
    int clamped_count = 0;
    for (int k = 0; k < 3000; ++k) {
        std::array<double, Inverter::state_count> x{};
        x[Inverter::inductor_current] = random.between(-60.0, 60.0);
        x[Inverter::output_voltage] = random.between(-330.0, 330.0);
        x[Inverter::bus_voltage] = random.between(300.0, 402.0);
        const plant_models::SupplyLoading loading{random.between(-60.0, 60.0), 0.0,
                                                  x[Inverter::output_voltage]};
        std::array<double, Inverter::state_count> rate{};
        inverter.derivatives(x.data(), rate.data(), 0.0, loading);
        const double bridge_V =
            1e-3 * parameters.filter_inductance_mH * rate[Inverter::inductor_current] +
            parameters.filter_resistance_ohm * x[Inverter::inductor_current] +
            x[Inverter::output_voltage];
        std::array<double, Inverter::guard_count> guards{};
        inverter.guards(x.data(), 0.0, loading, guards.data());
        const double bus_V = x[Inverter::bus_voltage];
        if (guards[Inverter::bridge_limit_positive] < 0.0) {
            ASSERT_NEAR(bridge_V, bus_V, 1e-9);
        } else if (guards[Inverter::bridge_limit_negative] < 0.0) {
            ASSERT_NEAR(bridge_V, -bus_V, 1e-9);
        } else {
            ASSERT_NEAR(bus_V - bridge_V, guards[Inverter::bridge_limit_positive], 1e-9);
            ASSERT_NEAR(bus_V + bridge_V, guards[Inverter::bridge_limit_negative], 1e-9);
            continue;
        }
        ++clamped_count;
    }
    EXPECT_GT(clamped_count, 500);
    EXPECT_LT(clamped_count, 2500);
}

TEST(InverterOutput, SourcePowerIsLossPlusStoredPlusOutputAtAnyState) {
    support::RandomNumbers random(9);
    InverterParameters parameters = support::small_inverter();
    for (const bool tripped : {false, true}) {
        Inverter inverter(parameters);
        for (int k = 0; k < 2000; ++k) {
            std::array<double, Inverter::state_count> x = {
                random.between(-90.0, 90.0),  random.between(-380.0, 380.0),
                random.between(-60.0, 60.0),  random.between(-60.0, 60.0),
                random.between(290.0, 420.0), random.between(0.0, 2000.0),
                random.between(0.0, 5.0)};
            if (tripped) {
                inverter.on_guard(Inverter::bus_too_low, x.data());
            }
            const double time_s = random.between(0.0, 0.0006);
            const plant_models::SupplyLoading loading{random.between(-100.0, 100.0),
                                                      random.between(-0.5, 0.5),
                                                      x[Inverter::output_voltage]};
            std::array<double, Inverter::state_count> rate{};
            const auto power = inverter.derivatives(x.data(), rate.data(), time_s, loading);
            const double h = 1e-5;
            auto ahead = x;
            auto behind = x;
            for (std::size_t n = 0; n < x.size(); ++n) {
                ahead[n] += h * rate[n];
                behind[n] -= h * rate[n];
            }
            const double stored =
                (inverter.stored_energy_J(ahead.data()) - inverter.stored_energy_J(behind.data())) /
                (2.0 * h);
            const double output = x[Inverter::output_voltage] * loading.line_current_A();
            EXPECT_GE(power.loss_W, 0.0);
            EXPECT_NEAR(power.source_W, power.loss_W + stored + output, 1e-4);
        }
    }
}

}  // namespace
