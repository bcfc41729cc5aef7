// Whole starts: scenario in, verdict out, with sensors, metrics and monitors, on one core.
#include <benchmark/benchmark.h>

#include "benchmark_list.hpp"
#include "counters.hpp"
#include "fine_reference.hpp"
#include "recorded_start.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_bench.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace benchmarks {

namespace {

void whole_start(benchmark::State& state, const char* scenario_name) {
    const sim::Scenario scenario = bundled_scenario(scenario_name);
    const RecordedStart recorded = record_start(scenario);
    if (recorded.result.outcome != sim::Outcome::running) {
        state.SkipWithError("the rotor did not come up");
        return;
    }
    for (auto _ : state) {
        benchmark::DoNotOptimize(sim::run_start(scenario));
    }
    state.counters[counters::simulated_s] = scenario.run.duration_s;
    counters::report(state, error_of(recorded, fine_reference(recorded)));
}

void direct_start(benchmark::State& state) {
    whole_start(state, "reference_direct");
    state.counters[counters::yardstick] = 1.0;
}

/// A compressor of the library with heat and protector, on an inverter of the library with its
/// conductors.
void whole_unit(benchmark::State& state) {
    const sim::Scenario scenario = sim::parse_scenario(R"([library]
compressor = "outdoor_3_ton_scroll"
supply = "house_inverter_6kva_240v_60hz"
[limiter]
kind = "builtin"
)",
                                                       "whole unit");
    for (auto _ : state) {
        benchmark::DoNotOptimize(sim::run_start(scenario));
    }
    state.counters[counters::simulated_s] = scenario.run.duration_s;
}

/// A rest between two starts of a compressor with heat and protector; no simulated time is counted,
/// for that is the point of it.
void hour_of_rest(benchmark::State& state) {
    sim::Scenario scenario = bundled_scenario("camp_generator");
    scenario.run.duration_s = 1.0;
    for (auto _ : state) {
        state.PauseTiming();
        sim::StartBench bench(scenario);
        bench.run_start(nullptr);
        bench.coast_and_rest(30.0);  // coasting over
        state.ResumeTiming();
        benchmark::DoNotOptimize(bench.coast_and_rest(3600.0));
    }
}

void twelve_starts(benchmark::State& state) {
    sim::Scenario scenario = bundled_scenario("reference_limited");
    for (auto _ : state) {
        benchmark::DoNotOptimize(sim::run_repeat(scenario, {12, 300.0}));
    }
    state.counters[counters::simulated_s] = 12.0 * scenario.run.duration_s;
}

/// The plant without sensors, controller, metrics and monitors, under the commands of a whole
/// start.
void plant_alone(benchmark::State& state, const char* scenario_name) {
    const RecordedStart recorded = record_start(bundled_scenario(scenario_name));
    const sim::PlantDescription plant = sim::describe_plant(recorded.scenario);
    for (auto _ : state) {
        const auto run = sim::make_plant_run(plant);
        for (const sim::PowerCommands& commands : recorded.commands) {
            run->apply(commands);
            run->advance_to(run->now() + sim::tick_length);
        }
        benchmark::DoNotOptimize(run->energy());
    }
    state.counters[counters::simulated_s] = recorded.scenario.run.duration_s;
}

}  // namespace

void register_start_benchmarks() {
    constexpr auto unit = benchmark::kMillisecond;
    benchmark::RegisterBenchmark("R1 limited, closed loop", whole_start, "reference_limited")
        ->Unit(unit);
    benchmark::RegisterBenchmark("R1 limited, plant alone", plant_alone, "reference_limited")
        ->Unit(unit);
    benchmark::RegisterBenchmark("hut inverter, closed loop", whole_start, "hut_inverter")
        ->Unit(unit);
    benchmark::RegisterBenchmark("R1 limited, 12 starts in a row", twelve_starts)->Unit(unit);
    benchmark::RegisterBenchmark("camp generator, an hour of rest", hour_of_rest)->Unit(unit);
    benchmark::RegisterBenchmark("R1 direct", direct_start)->Unit(unit);
    benchmark::RegisterBenchmark("camp generator, rotary, limited", whole_start, "camp_generator")
        ->Unit(unit);
    benchmark::RegisterBenchmark("3 ton scroll, inverter, limited", whole_unit)->Unit(unit);
}

}  // namespace benchmarks
