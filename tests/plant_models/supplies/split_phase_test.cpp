#include "plant_models/supplies/split_phase.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <utility>

#include "supplies/supply_bench.hpp"
#include "support/machines.hpp"
#include "support/random_numbers.hpp"

namespace {

using plant_models::SplitPhase;
using plant_models::SplitPhaseParameters;
using support::SupplyBench;
using Phasor = std::complex<double>;

constexpr double pi = 3.14159265358979323846;

SplitPhaseParameters loaded_house() {
    SplitPhaseParameters parameters = support::table_defaults<SplitPhaseParameters>();
    parameters.leg_resistance_ohm = 0.06;
    parameters.leg_inductance_mH = 0.11;
    parameters.neutral_resistance_ohm = 0.09;
    parameters.neutral_inductance_mH = 0.04;
    parameters.leg_1_load_W = 4200.0;
    parameters.leg_2_load_W = 700.0;
    return parameters;
}

Phasor impedance(double resistance_ohm, double inductance_mH, double frequency_Hz) {
    return {resistance_ohm, 2e-3 * pi * frequency_Hz * inductance_mH};
}

/// Node voltages 1, 2, N against the transformer's tap, by elimination on the nodal matrix.
std::array<Phasor, 3> node_voltages(const SplitPhaseParameters& p, Phasor unit_S,
                                    Phasor unit_current_A) {
    const Phasor leg_S = 1.0 / impedance(p.leg_resistance_ohm, p.leg_inductance_mH, p.frequency_Hz);
    const Phasor neutral_S =
        1.0 / impedance(p.neutral_resistance_ohm, p.neutral_inductance_mH, p.frequency_Hz);
    const double g1 = p.leg_1_load_W / (p.leg_voltage_V * p.leg_voltage_V);
    const double g2 = p.leg_2_load_W / (p.leg_voltage_V * p.leg_voltage_V);
    std::array<std::array<Phasor, 4>, 3> m{};
    m[0] = {leg_S + g1, 0.0, -g1, leg_S * p.leg_voltage_V};
    m[1] = {0.0, leg_S + g2, -g2, -leg_S * p.leg_voltage_V};
    m[2] = {-g1, -g2, neutral_S + g1 + g2, 0.0};
    const std::size_t far = p.connection == "leg_to_leg" ? 1 : 2;
    m[0][0] += unit_S;
    m[far][far] += unit_S;
    m[0][far] -= unit_S;
    m[far][0] -= unit_S;
    m[0][3] -= unit_current_A;
    m[far][3] += unit_current_A;
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t row = 0; row < 3; ++row) {
            if (row != k) {
                const Phasor factor = m[row][k] / m[k][k];
                for (std::size_t column = 0; column < 4; ++column) {
                    m[row][column] -= factor * m[k][column];
                }
            }
        }
    }
    return {m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]};
}

Phasor unit_voltage(const SplitPhaseParameters& p, const std::array<Phasor, 3>& nodes) {
    return p.connection == "leg_to_leg" ? nodes[0] - nodes[1] : nodes[0] - nodes[2];
}

/// Amplitude and phase of the supply's EMF, and its impedance at its frequency.
std::pair<Phasor, Phasor> equivalent_of(const SplitPhaseParameters& p) {
    SplitPhase supply(p);
    const double quarter_s = 0.25 / p.frequency_Hz;
    supply.set_origin(quarter_s);
    const double crest_part = supply.emf_V(nullptr, quarter_s);
    supply.set_origin(0.0);
    const double zero_part = supply.emf_V(nullptr, 0.0);
    return {Phasor(crest_part, zero_part) / std::sqrt(2.0),
            Phasor(supply.series_resistance_ohm(),
                   2.0 * pi * p.frequency_Hz * supply.series_inductance_H())};
}

TEST(SplitPhase, EquivalentIsThatOfTheNetworkSolvedByItsNodes) {
    support::RandomNumbers random(31);
    for (int k = 0; k < 500; ++k) {
        SplitPhaseParameters p = support::table_defaults<SplitPhaseParameters>();
        p.connection = k % 2 == 0 ? "leg_to_leg" : "leg_to_neutral";
        p.leg_resistance_ohm = random.between(0.005, 0.5);
        p.leg_inductance_mH = random.between(0.01, 1.0);
        p.neutral_resistance_ohm = random.between(0.005, 0.5);
        p.neutral_inductance_mH = random.between(0.01, 1.0);
        p.leg_1_load_W = random.between(0.0, 12000.0);
        p.leg_2_load_W = random.between(0.0, 12000.0);
        const Phasor open_V = unit_voltage(p, node_voltages(p, 0.0, 0.0));
        const Phasor loaded_V = unit_voltage(p, node_voltages(p, 0.0, Phasor(10.0, 0.0)));
        const auto [emf, series] = equivalent_of(p);
        ASSERT_NEAR(std::abs(emf - open_V), 0.0, 1e-9) << k;
        ASSERT_NEAR(std::abs(series - (open_V - loaded_V) / 10.0), 0.0, 1e-9) << k;
    }
}

TEST(SplitPhase, WithoutLoadsAndImpedancesItIsTheIdealService) {
    SplitPhaseParameters p = support::table_defaults<SplitPhaseParameters>();
    p.leg_resistance_ohm = p.leg_inductance_mH = 0.0;
    p.neutral_resistance_ohm = p.neutral_inductance_mH = 0.0;
    p.leg_1_load_W = 5000.0;
    for (const bool across : {true, false}) {
        p.connection = across ? "leg_to_leg" : "leg_to_neutral";
        const auto [emf, series] = equivalent_of(p);
        EXPECT_NEAR(std::abs(emf - Phasor(across ? 240.0 : 120.0)), 0.0, 1e-9);
        EXPECT_EQ(series, Phasor(0.0));
        EXPECT_EQ(p.nominal_voltage_V(), across ? 240.0 : 120.0);
    }
}

TEST(SplitPhase, HeavyLegSagsAndTheLightOneRises) {
    SplitPhaseParameters p = loaded_house();
    SupplyBench<SplitPhase> bench(p);
    double leg_1 = 0.0;
    double leg_2 = 0.0;
    bench.run_for(1.0 / 60.0, [&] {
        leg_1 = std::max(leg_1, std::abs(bench.channels()[0]));
        leg_2 = std::max(leg_2, std::abs(bench.channels()[1]));
    });
    EXPECT_LT(leg_1 / std::sqrt(2.0), 117.0);
    EXPECT_GT(leg_2 / std::sqrt(2.0), 120.5);
}

// Steady state with a unit, against the nodes of the whole network with the unit in it.
TEST(SplitPhase, ChannelsAreTheVoltagesAndTheNeutralCurrentOfTheWholeNetwork) {
    for (const std::string_view connection : {"leg_to_leg", "leg_to_neutral"}) {
        SplitPhaseParameters p = loaded_house();
        p.connection = connection;
        const double resistance_ohm = 1.4;
        const double inductance_mH = 4.0;
        const auto nodes =
            node_voltages(p, 1.0 / impedance(resistance_ohm, inductance_mH, p.frequency_Hz), 0.0);
        const std::array<Phasor, 3> wanted = {
            nodes[0] - nodes[2], nodes[1] - nodes[2],
            nodes[2] /
                impedance(p.neutral_resistance_ohm, p.neutral_inductance_mH, p.frequency_Hz)};
        SupplyBench<SplitPhase> bench(p);
        bench.connect(resistance_ohm, inductance_mH);
        bench.run_for(0.2);
        std::array<Phasor, 3> seen{};
        const double step_s = bench.step_s;
        bench.run_for(3.0 / 60.0, [&] {
            const auto values = bench.channels();
            const double angle = 2.0 * pi * 60.0 * bench.time_s;
            for (std::size_t k = 0; k < 3; ++k) {
                seen[k] += std::sqrt(2.0) * values[k] * Phasor(std::sin(angle), std::cos(angle)) *
                           step_s / (3.0 / 60.0);
            }
        });
        // The rate of the current lags by 0.2 ms: 0.075 of the inductive part of the drop.
        EXPECT_NEAR(std::abs(seen[0] - wanted[0]), 0.0, 0.5) << connection;
        EXPECT_NEAR(std::abs(seen[1] - wanted[1]), 0.0, 0.5) << connection;
        EXPECT_NEAR(std::abs(seen[2] - wanted[2]), 0.0, 0.6) << connection;
        EXPECT_LT(std::abs(bench.closure()), 1e-8);
    }
}

/// Highest current of an inrush at a voltage zero, with the coils of all conductors as states.
double inrush_peak_of_whole_network_A(const SplitPhaseParameters& p, double unit_ohm,
                                      double unit_mH) {
    const double leg_H = 1e-3 * p.leg_inductance_mH;
    const double neutral_H = 1e-3 * p.neutral_inductance_mH;
    const double r1 = p.leg_voltage_V * p.leg_voltage_V / p.leg_1_load_W;
    const double r2 = p.leg_voltage_V * p.leg_voltage_V / p.leg_2_load_W;
    const double step_s = 1e-6;
    using State = std::array<double, 3>;  // leg 1, leg 2, unit
    const auto rate = [&](const State& i, double t) {
        const double e = std::sqrt(2.0) * p.leg_voltage_V * std::sin(2.0 * pi * p.frequency_Hz * t);
        const double v1 = r1 * (i[0] - i[2]);
        const double v2 = r2 * (i[1] + i[2]);
        const double neutral = p.neutral_resistance_ohm * (i[0] + i[1]);
        const double a = e - p.leg_resistance_ohm * i[0] - v1 - neutral;
        const double b = -e - p.leg_resistance_ohm * i[1] - v2 - neutral;
        const double own = leg_H + neutral_H;
        const double determinant = own * own - neutral_H * neutral_H;
        return State{(own * a - neutral_H * b) / determinant,
                     (own * b - neutral_H * a) / determinant,
                     (v1 - v2 - unit_ohm * i[2]) / (1e-3 * unit_mH)};
    };
    // The household's currents have settled when the unit is connected.
    const Phasor leg_S = 1.0 / impedance(p.leg_resistance_ohm, p.leg_inductance_mH, p.frequency_Hz);
    const auto nodes = node_voltages(p, 0.0, 0.0);
    State i = {std::sqrt(2.0) * (leg_S * (p.leg_voltage_V - nodes[0])).imag(),
               std::sqrt(2.0) * (leg_S * (-p.leg_voltage_V - nodes[1])).imag(), 0.0};
    double peak = 0.0;
    for (double t = 0.0; t < 0.02; t += step_s) {
        const auto along = [&](const State& k, double h) {
            return State{i[0] + h * k[0], i[1] + h * k[1], i[2] + h * k[2]};
        };
        const State k1 = rate(i, t);
        const State k2 = rate(along(k1, 0.5 * step_s), t + 0.5 * step_s);
        const State k3 = rate(along(k2, 0.5 * step_s), t + 0.5 * step_s);
        const State k4 = rate(along(k3, step_s), t + step_s);
        for (std::size_t n = 0; n < 3; ++n) {
            i[n] += step_s / 6.0 * (k1[n] + 2.0 * k2[n] + 2.0 * k3[n] + k4[n]);
        }
        peak = std::max(peak, i[2]);
    }
    return peak;
}

// The equivalent is exact for sinusoids only; an inrush is not one.
TEST(SplitPhase, InrushDiffersFromTheWholeNetworksByLessThanStated) {
    SplitPhaseParameters p = loaded_house();
    p.leg_1_load_W = 5000.0;
    p.leg_2_load_W = 5000.0;
    for (const auto& [unit_ohm, unit_mH] :
         {std::pair{1.6, 5.8}, std::pair{0.8, 2.0}, std::pair{0.2, 4.0}}) {
        SupplyBench<SplitPhase> bench(p);
        bench.connect(unit_ohm, unit_mH);
        double peak = 0.0;
        bench.run_for(
            0.02, [&] { peak = std::max(peak, bench.x[SupplyBench<SplitPhase>::load_current]); });
        const double whole = inrush_peak_of_whole_network_A(p, unit_ohm, unit_mH);
        EXPECT_NEAR(peak, whole, 0.003 * whole) << unit_ohm;
        EXPECT_GT(whole, 70.0);
    }
}

TEST(SplitPhase, NeverTripsAndSaysWhatItsWordsMean) {
    const SplitPhase supply(loaded_house());
    EXPECT_TRUE(supply.trip_cause().empty());
    EXPECT_FALSE(supply.disconnected());
    EXPECT_EQ(supply.frequency_Hz(nullptr), 60.0);
    const auto& row = SplitPhaseParameters::word_table().front();
    EXPECT_EQ(row.words.size(), 2U);
    EXPECT_EQ(row.default_word, "leg_to_leg");
}

}  // namespace
