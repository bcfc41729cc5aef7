// The controller's own code, one step per tick, fed with the samples of a whole limited start.
#include <benchmark/benchmark.h>

#include "benchmark_list.hpp"
#include "counters.hpp"
#include "recorded_start.hpp"
#include "sim/controllers/controller_port.hpp"

namespace benchmarks {

namespace {

void all_ticks(benchmark::State& state) {
    const RecordedStart recorded = record_start(bundled_scenario("reference_limited"));
    for (auto _ : state) {
        const auto controller =
            sim::make_controller(recorded.scenario.limiter, recorded.scenario.motor);
        for (const firmware::SensorFrame& samples : recorded.samples) {
            benchmark::DoNotOptimize(controller->step(samples));
        }
    }
    state.counters[counters::operations] = static_cast<double>(recorded.samples.size());
}

}  // namespace

void register_controller_benchmark() {
    benchmark::RegisterBenchmark("controller, one tick", all_ticks)->Unit(benchmark::kMillisecond);
}

}  // namespace benchmarks
