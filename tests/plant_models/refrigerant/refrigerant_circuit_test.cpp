#include "plant_models/refrigerant/refrigerant_circuit.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <string>

#include "plant_models/refrigerant/saturation.hpp"

namespace {

using plant_models::Conditions;
using plant_models::RefrigerantCircuit;
using plant_models::RefrigerantParameters;
using Pressures = std::array<double, 2>;

constexpr plant_models::CompressorSize three_ton = {1.86e-3, 0.03};

RefrigerantParameters with(std::string_view expansion, std::string_view gas = "R410A") {
    RefrigerantParameters r;
    r.expansion = expansion;
    r.gas = gas;
    return r;
}

RefrigerantCircuit circuit(const RefrigerantParameters& r, double ambient_C, double rest_s) {
    Conditions conditions;
    conditions.ambient_C = ambient_C;
    conditions.rest_s = rest_s;
    return RefrigerantCircuit(r, conditions, three_ton);
}

double charge(const RefrigerantCircuit& c, const Pressures& p) {
    return c.suction_capacitance_kg_per_kPa() * p[0] + c.discharge_capacitance_kg_per_kPa() * p[1];
}

/// Runge-Kutta steps at rest.
Pressures rested(const RefrigerantCircuit& c, Pressures p, double duration_s, double step_s) {
    const auto slope = [&](const Pressures& at) {
        Pressures rate{};
        c.derivatives(at.data(), rate.data(), 0.0, 0.0);
        return rate;
    };
    const auto moved = [](const Pressures& at, const Pressures& rate, double by) {
        return Pressures{at[0] + by * rate[0], at[1] + by * rate[1]};
    };
    for (double t = 0.0; t < duration_s - 0.5 * step_s; t += step_s) {
        const Pressures a = slope(p);
        const Pressures b = slope(moved(p, a, 0.5 * step_s));
        const Pressures d = slope(moved(p, b, 0.5 * step_s));
        const Pressures e = slope(moved(p, d, step_s));
        for (std::size_t k = 0; k < 2; ++k) {
            p[k] += step_s / 6.0 * (a[k] + 2.0 * b[k] + 2.0 * d[k] + e[k]);
        }
    }
    return p;
}

TEST(RefrigerantCircuit, RunsAtTheRatedPressuresInTheRatedAmbient) {
    for (const auto gas : plant_models::gas_words()) {
        const auto c = circuit(with("orifice", gas), 35.0, 0.0);
        const auto p = c.initial_state();
        EXPECT_NEAR(p[0], saturation_pressure_kPa(c.gas(), 7.2), 1e-6 * p[0]) << gas;
        EXPECT_NEAR(p[1], saturation_pressure_kPa(c.gas(), 54.4), 1e-6 * p[1]) << gas;
    }
}

TEST(RefrigerantCircuit, BalancesPumpedAgainstExpandedFlowAtAnyAmbient) {
    double before = 0.0;
    for (const double ambient_C : {-10.0, 10.0, 25.0, 35.0, 46.0}) {
        const auto c = circuit(with("tight_valve"), ambient_C, 0.0);
        const auto p = c.initial_state();
        const double pumped = c.mean_flow_kg_per_s(p[0], p[1]);
        EXPECT_NEAR(c.expansion_flow_kg_per_s(p[0], p[1], true), pumped, 1e-9 * pumped);
        EXPECT_GT(p[0], before);
        before = p[0];
        const double rest = saturation_pressure_kPa(c.gas(), ambient_C);
        EXPECT_GT(rest, p[0]);
        EXPECT_LT(rest, p[1]);
    }
}

TEST(RefrigerantCircuit, LongRestEndsAtSaturationPressureOfTheAmbient) {
    for (const double ambient_C : {5.0, 25.0, 43.0}) {
        const auto c = circuit(with("orifice"), ambient_C, 3600.0);
        const double expected = saturation_pressure_kPa(c.gas(), ambient_C);
        EXPECT_NEAR(c.initial_state()[0], expected, 1e-6 * expected);
        EXPECT_NEAR(c.initial_state()[1], expected, 1e-6 * expected);
    }
}

TEST(RefrigerantCircuit, OrificeEqualisesInTheGivenTime) {
    const auto difference_after = [](double rest_s) {
        const auto p = circuit(with("orifice"), 35.0, rest_s).initial_state();
        return p[1] - p[0];
    };
    const double running = difference_after(0.0);
    // The root of the difference falls evenly: a quarter is left halfway.
    EXPECT_NEAR(difference_after(75.0), 0.25 * running, 1e-6 * running);
    EXPECT_GT(difference_after(140.0), 5.0);
    EXPECT_LT(difference_after(150.0), 1.0);
}

TEST(RefrigerantCircuit, BleedEqualisesSlowlyAndTightValveHolds) {
    const auto share_left = [](std::string_view expansion, double rest_s) {
        const auto start = circuit(with(expansion), 35.0, 0.0).initial_state();
        const auto p = circuit(with(expansion), 35.0, rest_s).initial_state();
        return (p[1] - p[0]) / (start[1] - start[0]);
    };
    EXPECT_LT(share_left("orifice", 180.0), 0.001);
    EXPECT_NEAR(share_left("bleed_valve", 300.0), 0.25, 0.001);
    EXPECT_LT(share_left("bleed_valve", 620.0), 0.001);
    EXPECT_GT(share_left("tight_valve", 300.0), 0.95);
    EXPECT_GT(share_left("tight_valve", 3600.0), 0.5);
}

TEST(RefrigerantCircuit, ClosedFormOfEqualisationAgreesWithIntegration) {
    for (const auto expansion : {"orifice", "bleed_valve"}) {
        const auto c = circuit(with(expansion), 35.0, 0.0);
        for (const double start_kPa : {2000.0, 40.0, 0.6}) {
            for (const double duration_s : {1.0, 20.0, 60.0, 170.0}) {
                const Pressures from = {1500.0, 1500.0 + start_kPa};
                Pressures closed_form = from;
                c.equalise(closed_form.data(), duration_s);
                const Pressures stepped = rested(c, from, duration_s, 0.005);
                EXPECT_NEAR(closed_form[0], stepped[0], 1e-3) << expansion << ' ' << start_kPa;
                EXPECT_NEAR(closed_form[1], stepped[1], 1e-3) << expansion << ' ' << start_kPa;
            }
        }
    }
}

TEST(RefrigerantCircuit, EqualisesAReversedDifferenceJustAsWell) {
    const auto c = circuit(with("orifice"), 35.0, 0.0);
    const double cs = c.suction_capacitance_kg_per_kPa();
    const double cd = c.discharge_capacitance_kg_per_kPa();
    Pressures p = {1800.0, 1300.0};
    const double mean = charge(c, p) / (cs + cd);
    c.equalise(p.data(), 10.0);
    EXPECT_GT(p[0], mean);
    EXPECT_LT(p[1], mean);
    EXPECT_LT(p[0], 1800.0);
    c.equalise(p.data(), 1000.0);
    EXPECT_NEAR(p[0], mean, 1e-6);
    EXPECT_NEAR(p[1], mean, 1e-6);
}

TEST(RefrigerantCircuit, EqualisingTwiceIsEqualisingForTheSum) {
    const auto c = circuit(with("orifice"), 35.0, 0.0);
    Pressures once = c.initial_state();
    Pressures twice = once;
    c.equalise(once.data(), 130.0);
    c.equalise(twice.data(), 90.0);
    c.equalise(twice.data(), 40.0);
    EXPECT_NEAR(once[0], twice[0], 1e-9 * once[0]);
    EXPECT_NEAR(once[1], twice[1], 1e-9 * once[1]);
}

TEST(RefrigerantCircuit, EveryFlowKeepsTheCharge) {
    const auto c = circuit(with("bleed_valve"), 28.0, 45.0);
    const auto p = c.initial_state();
    for (const double pumped : {-0.02, 0.0, 0.05}) {
        for (const double speed : {-100.0, 0.0, 360.0}) {
            Pressures rate{};
            c.derivatives(p.data(), rate.data(), pumped, speed);
            EXPECT_NEAR(charge(c, rate), 0.0, 1e-15);
        }
    }
    const double total = c.suction_capacitance_kg_per_kPa() + c.discharge_capacitance_kg_per_kPa();
    EXPECT_NEAR(charge(c, p), total * saturation_pressure_kPa(c.gas(), 28.0), 1e-9 * charge(c, p));
}

TEST(RefrigerantCircuit, PumpingLowersSuctionAndRaisesDischarge) {
    const auto c = circuit(with("orifice"), 35.0, 600.0);
    const auto p = c.initial_state();
    Pressures rate{};
    c.derivatives(p.data(), rate.data(), 0.05, 360.0);
    EXPECT_LT(rate[0], 0.0);
    EXPECT_GT(rate[1], 0.0);
}

TEST(RefrigerantCircuit, AnEmptySuctionGivesNothing) {
    const auto c = circuit(with("tight_valve"), 35.0, 0.0);
    const auto suction_rate = [&](double suction_kPa, double pumped) {
        const Pressures p = {suction_kPa, suction_kPa};
        Pressures rate{};
        c.derivatives(p.data(), rate.data(), pumped, 0.0);
        return rate[0];
    };
    EXPECT_EQ(suction_rate(0.0, 0.05), 0.0);
    EXPECT_NEAR(suction_rate(2.5, 0.05), 0.5 * suction_rate(100.0, 0.05), 1e-12);
    EXPECT_GT(suction_rate(0.0, -0.05), 0.0);
}

TEST(RefrigerantCircuit, ValveOpensAboveTheRunningSpeedInBothDirections) {
    const auto c = circuit(with("tight_valve"), 35.0, 0.0);
    const double threshold = RefrigerantCircuit::running_speed_rad_per_s;
    EXPECT_GT(c.running_guard(0.0), 0.0);
    EXPECT_LT(c.running_guard(threshold + 1.0), 0.0);
    EXPECT_LT(c.running_guard(-threshold - 1.0), 0.0);
    EXPECT_EQ(circuit(with("orifice"), 35.0, 0.0).running_guard(100.0), 1.0);
    const auto p = c.initial_state();
    const auto lost = [&](double speed) {
        Pressures rate{};
        c.derivatives(p.data(), rate.data(), 0.0, speed);
        return -rate[1];
    };
    EXPECT_NEAR(lost(threshold - 1.0), 0.01 * lost(threshold + 1.0), 1e-12);
    EXPECT_EQ(lost(-threshold - 1.0), lost(threshold + 1.0));
}

TEST(RefrigerantCircuit, FlowThroughTheDeviceHasNoJumpAndNoInfiniteSlopeAtZero) {
    const auto c = circuit(with("orifice"), 35.0, 0.0);
    const auto flow = [&](double difference_kPa) {
        return c.expansion_flow_kg_per_s(1000.0, 1000.0 + difference_kPa, true);
    };
    EXPECT_EQ(flow(0.0), 0.0);
    EXPECT_NEAR(flow(-0.5), -flow(0.5), 1e-15);
    EXPECT_NEAR(flow(1.0 + 1e-9), flow(1.0 - 1e-9), 1e-9);
    EXPECT_NEAR(flow(400.0), 2.0 * flow(100.0), 1e-12);
    EXPECT_NEAR(flow(1e-6) / 1e-6, flow(0.5) / 0.5, 1e-9);
}

TEST(RefrigerantCircuit, LargerCompressorBringsItsOwnVolumesSoPressuresStay) {
    Conditions conditions;
    conditions.rest_s = 60.0;
    const RefrigerantCircuit small({}, conditions, {0.1e-3, 0.02});
    const RefrigerantCircuit large({}, conditions, {4.0e-3, 0.02});
    EXPECT_NEAR(small.initial_state()[0], large.initial_state()[0], 1e-9 * 1000.0);
    EXPECT_NEAR(large.suction_capacitance_kg_per_kPa(),
                40.0 * small.suction_capacitance_kg_per_kPa(), 1e-12);
}

TEST(RefrigerantParameters, RefusesARestPressureOutsideOfTheRatedOnes) {
    EXPECT_TRUE(RefrigerantParameters().inconsistency().empty());
    RefrigerantParameters cold;
    cold.rated_ambient_C = 5.0;
    EXPECT_EQ(cold.inconsistency().substr(0, 15), "rated_ambient_C");
    RefrigerantParameters hot;
    hot.rated_ambient_C = 54.0;
    EXPECT_EQ(hot.inconsistency().substr(0, 15), "rated_ambient_C");
    RefrigerantParameters critical;
    critical.condensing_C = 72.0;
    EXPECT_EQ(critical.inconsistency().substr(0, 12), "condensing_C");
    critical.gas = "R22";
    EXPECT_TRUE(critical.inconsistency().empty());
}

}  // namespace
