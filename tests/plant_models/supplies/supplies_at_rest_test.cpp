// Supplies over a rest without load: `rest` at once, against their equations step by step.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/generator.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/supplies/transformer_inverter.hpp"
#include "supply_bench.hpp"
#include "support/machines.hpp"

namespace {

using namespace plant_models;

/// Takes the whole part of a rest at once and the remainder step by step, as the bench does.
template <class Supply>
support::SupplyBench<Supply> rested(support::SupplyBench<Supply> bench, double duration_s) {
    const double whole_s = bench.supply.whole_rest_s(duration_s);
    bench.supply.rest(bench.x.data(), bench.time_s, bench.time_s + whole_s);
    bench.time_s += whole_s;
    bench.run_for(duration_s - whole_s);
    return bench;
}

template <class Supply>
void expect_same_rest(support::SupplyBench<Supply> bench, double duration_s, double within,
                      const std::string& what) {
    support::SupplyBench<Supply> at_once = rested(bench, duration_s);
    bench.run_for(duration_s);
    for (std::size_t k = 0; k < Supply::state_count; ++k) {
        EXPECT_NEAR(at_once.x[k], bench.x[k], within * std::max(1.0, std::abs(bench.x[k])))
            << what << ", state " << k;
    }
    EXPECT_NEAR(at_once.emf_V(), bench.emf_V(), 0.05) << what;
    EXPECT_EQ(at_once.supply.trip_cause(), bench.supply.trip_cause()) << what;
}

/// After a load that its overload timers and thermal images have noticed, and a second without it.
template <class Supply>
support::SupplyBench<Supply> after_a_load(const typename Supply::Parameters& parameters,
                                          double load_ohm, double step_s) {
    support::SupplyBench<Supply> bench(parameters);
    bench.step_s = step_s;
    bench.connect(load_ohm, 5.0);
    bench.run_for(0.8);
    bench.open_circuit();
    bench.run_for(1.0);
    EXPECT_EQ(bench.supply.trip_cause(), "");
    EXPECT_TRUE(bench.supply.settled(bench.x.data()));
    return bench;
}

TEST(SuppliesAtRest, AGeneratorComesBackToItsIdleAndKeepsItsPhase) {
    auto parameters = support::table_defaults<GeneratorParameters>();
    parameters.rated_power_VA = 7000.0;
    parameters.voltage_V = 230.0;
    parameters.frequency_Hz = 50.0;
    auto bench = after_a_load<Generator>(parameters, 8.0, 200e-6);
    bench.step_s = 2e-3;  // without a load nothing depends on its angle
    for (const double duration_s : {0.5, 3.0, 30.0, 300.0}) {
        expect_same_rest(bench, duration_s, 1e-6, std::to_string(duration_s));
    }
}

TEST(SuppliesAtRest, ATransformerInverterForgetsItsLoad) {
    auto parameters = support::table_defaults<TransformerInverterParameters>();
    parameters.voltage_V = 230.0;
    parameters.frequency_Hz = 50.0;
    parameters.rated_power_W = 3000.0;
    parameters.battery_voltage_V = 24.0;
    const auto bench = after_a_load<TransformerInverter>(parameters, 15.0, 50e-6);
    for (const double duration_s : {0.5, 30.0}) {
        expect_same_rest(bench, duration_s, 1e-6, std::to_string(duration_s));
    }
}

TEST(SuppliesAtRest, AnInverterHumsOnWhereItWas) {
    for (const std::string_view method :
         {"reference_clamp", "switch_clamp", "virtual_impedance", "voltage_foldback"}) {
        InverterParameters parameters = support::small_inverter();
        parameters.limiting_method = method;
        const auto bench = after_a_load<Inverter>(parameters, 20.0, 16e-6);
        for (const double duration_s : {0.7123, 6.0017}) {
            expect_same_rest(bench, duration_s, 1e-3,
                             std::string(method) + " " + std::to_string(duration_s));
        }
    }
}

TEST(SuppliesAtRest, ASagThatFallsIntoTheRestIsOverAfterIt) {
    GridParameters parameters = support::ideal_grid(230.0, 50.0);
    parameters.sag_begin_s = 5.0;
    parameters.sag_length_s = 20.0;
    parameters.sag_to_percent = 40.0;
    constexpr double crest_s = 0.005;
    const auto crest_after = [&](double rest_s) {
        Grid grid(parameters);
        grid.rest(nullptr, 0.0, rest_s);
        grid.set_origin(rest_s + crest_s);
        return grid.emf_V(nullptr, rest_s + crest_s) / (std::sqrt(2.0) * 230.0);
    };
    EXPECT_NEAR(crest_after(4.0), 1.0, 1e-9);
    EXPECT_NEAR(crest_after(10.0), 0.4, 1e-9);
    EXPECT_NEAR(crest_after(30.0), 1.0, 1e-9);
}

}  // namespace
