// How the generator holds its frequency and its voltage.
#include "plant_models/supplies/generator.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "supplies/generator_bench.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::Generator;
using plant_models::GeneratorParameters;
using support::connect_resistance;
using support::GeneratorBench;
using support::seven_kilovolt_amperes;

constexpr double pi = 3.14159265358979323846;

TEST(Generator, BeginsInItsUnloadedSteadyState) {
    for (const double droop_percent : {1.0, 5.0, 12.0}) {
        GeneratorParameters parameters = seven_kilovolt_amperes();
        parameters.governor_droop_percent = droop_percent;
        parameters.phase_deg = 40.0;
        const Generator generator(parameters);
        const auto x = generator.initial_state();
        std::array<double, Generator::state_count> rate{};
        generator.derivatives(x.data(), rate.data(), 0.0, {});
        for (std::size_t k = Generator::speed; k < Generator::state_count; ++k) {
            EXPECT_NEAR(rate[k], 0.0, 1e-9) << k;
        }
        EXPECT_NEAR(rate[Generator::angle], 2.0 * pi * generator.frequency_Hz(x.data()), 1e-9);
        EXPECT_NEAR(x[Generator::angle], 40.0 * pi / 180.0, 1e-12);
        EXPECT_NEAR(generator.terminal_voltage_V(x.data()), 240.0, 0.01 * 240.0);
        // The loss takes a twentieth of the engine's torque; the rest of the droop stands.
        const double share = 0.06 / 1.1;
        EXPECT_NEAR(generator.frequency_Hz(x.data()),
                    60.0 * (1.0 + 0.01 * droop_percent * (1.0 - share)), 60.0 * 0.0015);
    }
}

TEST(Generator, PeriodOfTheVoltageIsThatOfItsFrequency) {
    GeneratorBench bench(seven_kilovolt_amperes());
    double before = bench.emf_V();
    double first_s = -1.0;
    double last_s = 0.0;
    int rising_zeros = 0;
    bench.run_for(0.5, [&] {
        const double now = bench.emf_V();
        if (before < 0.0 && now >= 0.0) {
            last_s = bench.time_s - bench.step_s * now / (now - before);
            first_s = first_s < 0.0 ? last_s : first_s;
            ++rising_zeros;
        }
        before = now;
    });
    EXPECT_NEAR((rising_zeros - 1) / (last_s - first_s), bench.channels()[0], 1e-3);
}

// Governor: nu = 1 + d (1 - u); engine: P_m u nu = what leaves the set + its losses.
TEST(Generator, SteadyFrequencyFallsWithThePowerByTheDroop) {
    for (const double power_W : {1000.0, 3500.0, 6000.0}) {
        GeneratorBench bench(seven_kilovolt_amperes());
        connect_resistance(bench, 240.0 * 240.0 / power_W);
        bench.run_for(8.0);
        const auto before = bench.x;
        const double begin_s = bench.time_s;
        double mean_Hz = 0.0;
        bench.run_for(1.0, [&] { mean_Hz += bench.channels()[0] * bench.step_s / 1.0; });
        const auto mean_W = [&](std::size_t energy) {
            return (bench.x[energy] - before[energy]) / (bench.time_s - begin_s);
        };
        const double engine_W =
            mean_W(GeneratorBench::load_energy) + mean_W(GeneratorBench::loss_energy);
        // u nu = P / P_m and nu = 1 + d (1 - u), solved for nu.
        const double share = engine_W / 7700.0;
        const double nu = 0.5 * (1.05 + std::sqrt(1.05 * 1.05 - 4.0 * 0.05 * share));
        EXPECT_NEAR(mean_Hz, 60.0 * nu, 0.01) << power_W;
        EXPECT_NEAR(mean_W(GeneratorBench::load_energy), power_W, 0.06 * power_W);
    }
}

// With the EMF held and next to no impedance, the mean power at a resistance is (E nu)^2 / R, and
// shaft, governor and throttle are two differential equations.
TEST(Generator, FrequencyDipOnALoadStepIsThatOfShaftAndGovernor) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.transient_reactance_percent = 2.0;
    parameters.synchronous_reactance_percent = 10.0;
    parameters.armature_resistance_percent = 0.0;
    parameters.field_time_constant_s = 10.0;
    parameters.exciter_lag_s = 2.0;
    parameters.voltage_droop_percent = 20.0;
    parameters.underfrequency_knee_percent = 80.0;
    GeneratorBench bench(parameters);
    bench.run_for(0.1);
    const double resistance_ohm = 9.0;
    connect_resistance(bench, resistance_ohm);
    double nu = bench.x[Generator::speed];
    double u = bench.x[Generator::engine_torque];
    const double emf = bench.x[Generator::transient_emf];
    const double start_Hz = 60.0 * nu;
    double lowest_Hz = 100.0;
    const double h = 1e-4;
    for (int k = 1; k <= 4000; ++k) {
        const auto rate = [&](double speed, double torque) {
            const double opened = std::min(1.0, std::max(0.0, (1.05 - speed) / 0.05));
            return std::array<double, 2>{
                (7700.0 * torque - 420.0 * speed - emf * emf * speed / resistance_ohm) /
                    (2.0 * 0.8 * 7000.0),
                (opened - torque) / 0.10};
        };
        const auto middle = rate(nu, u);
        const auto end = rate(nu + 0.5 * h * middle[0], u + 0.5 * h * middle[1]);
        nu += h * end[0];
        u += h * end[1];
        bench.run_for(h);
        // The single-phase power pulsates at twice the frequency: 0.05 Hz of ripple.
        ASSERT_NEAR(bench.channels()[0], 60.0 * nu, 0.12) << bench.time_s;
        lowest_Hz = std::min(lowest_Hz, 60.0 * nu);
    }
    EXPECT_LT(lowest_Hz, start_Hz - 3.0);
    EXPECT_GT(bench.x[Generator::speed] * 60.0, lowest_Hz + 0.3);
}

// Into a coil X_L the current is E / (X' + X_L), all of it demagnetizing:
// T_d dE/dt = F - E (X + X_L) / (X' + X_L). F is read off the model; E follows independently.
TEST(Generator, ArmatureReactionPullsTheEmfDownWithTheFieldsTimeConstant) {
    GeneratorBench bench(seven_kilovolt_amperes());
    bench.run_for(0.1);
    const double base_ohm = 240.0 * 240.0 / 7000.0;
    const double coil_ohm = 0.4 * base_ohm;
    bench.connect(0.02 * base_ohm, 1e3 * coil_ohm / (2.0 * pi * 60.0));
    double emf = bench.x[Generator::transient_emf];
    const double first_emf = emf;
    const double h = 1e-4;
    for (int k = 1; k <= 2500; ++k) {
        const double field = bench.x[Generator::field];
        emf += h / 0.5 * (field - emf * (1.6 + 0.4) / (0.2 + 0.4));
        bench.run_for(h);
        // The direct part of the inrush pulsates in the reaction at 60 Hz.
        ASSERT_NEAR(bench.x[Generator::transient_emf], emf, 0.03 * first_emf) << bench.time_s;
    }
    EXPECT_LT(emf, 0.9 * first_emf);
}

TEST(Generator, RegulatorSeesTheRmsAtTheTerminals) {
    for (const double angle_deg : {0.0, 30.0, 60.0, 85.0}) {
        GeneratorBench bench(seven_kilovolt_amperes());
        const double impedance_ohm = 14.0;
        const double angle = angle_deg * pi / 180.0;
        bench.connect(impedance_ohm * std::cos(angle),
                      std::max(1.0, 1e3 * impedance_ohm * std::sin(angle) / (2.0 * pi * 60.0)));
        bench.run_for(4.0);
        const double cycles_s = 20.0 / bench.channels()[0];
        double mean_V = 0.0;
        int count = 0;
        GeneratorBench twin = bench;
        twin.run_for(cycles_s, [&] {
            mean_V += twin.supply.terminal_voltage_V(twin.x.data());
            ++count;
        });
        const double rms_V = bench.rms_of_next(cycles_s);
        EXPECT_NEAR(mean_V / count, rms_V, 0.005 * rms_V) << angle_deg;
    }
}

// F = V + (V - V_t) / k, and F is E + (X - X') i_d in the steady state.
TEST(Generator, SteadyVoltageIsHeldWithinTheRegulatorsDroop) {
    GeneratorBench bench(seven_kilovolt_amperes());
    bench.connect(9.0, 15.0);
    bench.run_for(4.0);
    const double rms_V = bench.rms_of_next(20.0 / bench.channels()[0]);
    const double field_share = 0.01 * bench.channels()[1];
    EXPECT_GT(field_share, 1.5);
    EXPECT_NEAR(rms_V, 240.0 * (1.0 - 0.04 * (field_share - 1.0)), 0.006 * 240.0);
    const double emf_and_reaction = bench.x[Generator::transient_emf] +
                                    1.4 * 240.0 * 240.0 / 7000.0 * bench.x[Generator::direct_mean];
    EXPECT_NEAR(bench.x[Generator::field], emf_and_reaction, 0.05 * emf_and_reaction);
}

TEST(Generator, VoltageFollowsTheFrequencyBelowTheKnee) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    const Generator generator(parameters);
    auto x = generator.initial_state();
    const auto wanted_V = [&](double speed) {
        x[Generator::speed] = speed;
        x[Generator::transient_emf] = 240.0 / speed;  // so that the terminals have 240 V
        std::array<double, Generator::state_count> rate{};
        generator.derivatives(x.data(), rate.data(), 0.0, {});
        return x[Generator::field] + parameters.exciter_lag_s * rate[Generator::field];
    };
    EXPECT_NEAR(wanted_V(1.03), 240.0, 1e-9);
    EXPECT_NEAR(wanted_V(0.951), 240.0, 1e-9);
    EXPECT_NEAR(wanted_V(0.95 * 0.98), 240.0 - 25.0 * 0.02 * 240.0, 1e-9);
}

TEST(Generator, ShortCircuitMakesTheFieldCollapseAndItBuildsUpAgain) {
    GeneratorParameters parameters = seven_kilovolt_amperes();
    parameters.breaker_instant_current_A = 5000.0;
    GeneratorBench bench(parameters);
    bench.connect(0.02, 0.1);
    bench.run_for(1.5);
    EXPECT_TRUE(bench.supply.trip_cause().empty());
    EXPECT_NEAR(bench.x[Generator::field], 0.02 * 240.0, 1.0);
    bench.open_circuit();
    bench.run_for(3.0);
    EXPECT_NEAR(bench.supply.terminal_voltage_V(bench.x.data()), 240.0, 2.4);
}

TEST(Generator, SourcePowerIsLossPlusStoredPlusOutputAtAnyState) {
    support::RandomNumbers random(77);
    Generator generator(seven_kilovolt_amperes());
    for (int k = 0; k < 2000; ++k) {
        if (k == 1000) {
            generator.on_guard(Generator::stalled, nullptr);
        }
        std::array<double, Generator::state_count> x = {
            random.between(0.0, 6.28),   random.between(0.0, 1.1),   random.between(0.0, 1.0),
            random.between(0.0, 300.0),  random.between(0.0, 900.0), random.between(-50.0, 80.0),
            random.between(-80.0, 80.0), random.between(0.0, 1.0)};
        const plant_models::SupplyLoading loading{random.between(-100.0, 100.0),
                                                  random.between(-0.5, 0.5),
                                                  random.between(-340.0, 340.0)};
        std::array<double, Generator::state_count> rate{};
        const auto power = generator.derivatives(x.data(), rate.data(), 0.0, loading);
        const double h = 1e-5;
        auto ahead = x;
        auto behind = x;
        ahead[Generator::speed] += h * rate[Generator::speed];
        behind[Generator::speed] -= h * rate[Generator::speed];
        const double stored =
            (generator.stored_energy_J(ahead.data()) - generator.stored_energy_J(behind.data())) /
            (2.0 * h);
        const double output = generator.emf_V(x.data(), 0.0) * loading.winding_current_A +
                              loading.terminal_voltage_V * loading.iron_current_A;
        ASSERT_NEAR(power.source_W, power.loss_W + stored + output, 1e-4) << k;
    }
}

TEST(Generator, GuardsOfTheClampsChangeSignWhereTheClampsSetIn) {
    support::RandomNumbers random(5);
    const GeneratorParameters parameters = seven_kilovolt_amperes();
    const Generator generator(parameters);
    std::array<int, 4> seen{};
    for (int k = 0; k < 4000; ++k) {
        auto x = generator.initial_state();
        x[Generator::speed] = random.between(0.9, 1.15);
        x[Generator::transient_emf] = random.between(10.0, 300.0);
        std::array<double, Generator::state_count> rate{};
        std::array<double, Generator::guard_count> guards{};
        generator.derivatives(x.data(), rate.data(), 0.0, {});
        generator.guards(x.data(), 0.0, {}, guards.data());
        const double throttle = x[Generator::engine_torque] + 0.10 * rate[Generator::engine_torque];
        const double field = x[Generator::field] + 0.02 * rate[Generator::field];
        const double ceiling = 4.8 + 4.5 * generator.terminal_voltage_V(x.data());
        const std::array<bool, 4> clamped = {throttle<1e-12, throttle> 1.0 - 1e-12,
                                             field<4.8 + 1e-9, field> ceiling - 1e-9};
        for (std::size_t n = 0; n < 4; ++n) {
            ASSERT_EQ(guards[n] < 0.0, clamped[n]) << n;
            seen[n] += clamped[n] ? 1 : 0;
        }
    }
    for (const int count : seen) {
        EXPECT_GT(count, 100);
    }
}

}  // namespace
