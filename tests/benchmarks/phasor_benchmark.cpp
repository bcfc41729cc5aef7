// The phasor solution of a motor: locked rotor and the curve from rest to synchronous speed.
#include <benchmark/benchmark.h>

#include "benchmark_list.hpp"
#include "recorded_start.hpp"
#include "sim/bench/motor_curves.hpp"

namespace benchmarks {

namespace {

void whole_curve(benchmark::State& state) {
    const sim::Scenario scenario = bundled_scenario("reference_direct");
    for (auto _ : state) {
        benchmark::DoNotOptimize(sim::motor_curves(scenario, {}));
    }
}

}  // namespace

void register_phasor_benchmark() {
    benchmark::RegisterBenchmark("phasor curve, 41 slips", whole_curve)
        ->Unit(benchmark::kMicrosecond);
}

}  // namespace benchmarks
