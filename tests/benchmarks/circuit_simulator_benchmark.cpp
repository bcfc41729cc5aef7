// The direct start of R1 in the circuit simulator: its process, from netlist to result file. The
// steps go from coarse to finer than helps: its dry friction is a steep tanh (motor_netlist.hpp),
// which leaves an error of about 3e-5 at any step. At 20 us the error of the step happens to cancel
// most of that; the comparison "at equal accuracy" gives the simulator the benefit of it.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <stdexcept>
#include <string>
#include <variant>

#include "benchmark_list.hpp"
#include "circuit_simulator.hpp"
#include "counters.hpp"
#include "fine_reference.hpp"
#include "motor_netlist.hpp"
#include "recorded_start.hpp"

namespace benchmarks {

namespace {

/// Processor time of all child processes that have ended.
double childrens_time_s() {
    rusage usage{};
    getrusage(RUSAGE_CHILDREN, &usage);
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

published::MotorCircuit circuit_of(const sim::Scenario& scenario) {
    published::MotorCircuit circuit;
    circuit.motor = scenario.motor;
    circuit.grid = std::get<plant_models::GridParameters>(scenario.source);
    circuit.load = std::get<plant_models::PolynomialLoadParameters>(scenario.load);
    return circuit;
}

void direct_start(benchmark::State& state) {
    const RecordedStart recorded = record_start(bundled_scenario("reference_direct"));
    const std::string netlist = published::motor_netlist(circuit_of(recorded.scenario));
    published::TransientSettings settings;
    settings.duration_s = recorded.scenario.run.duration_s;
    settings.largest_step_s = 1e-6 * static_cast<double>(state.range(0));
    published::CircuitWaveforms waves;
    for (auto _ : state) {
        const double before_s = childrens_time_s();
        try {
            waves = published::run_circuit(netlist, {"i(vline)", "v(speed)"}, settings);
        } catch (const std::runtime_error& error) {
            state.SkipWithError(error.what());
            return;
        }
        state.SetIterationTime(childrens_time_s() - before_s);
    }
    state.counters[counters::simulated_s] = settings.duration_s;
    state.counters[counters::rival] = 1.0;
    counters::report(state, error_of(waves.time_s, waves.signals[0], waves.signals[1],
                                     recorded.scenario, fine_reference(recorded)));
}

}  // namespace

void register_circuit_simulator_benchmarks() {
    auto* const runs =
        benchmark::RegisterBenchmark("R1 direct, circuit simulator, step in us", direct_start);
    for (const int step_us : {200, 100, 50, 20, 10, 5}) {
        runs->Arg(step_us);
    }
    runs->Iterations(1)->Unit(benchmark::kMillisecond)->UseManualTime();
}

}  // namespace benchmarks
