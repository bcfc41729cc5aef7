// Runs the benchmarks, one after the other on one core, and prints their table at the end.
#include <benchmark/benchmark.h>

#include <iostream>

#include "benchmark_list.hpp"
#include "result_table.hpp"

int main(int argc, char** argv) {
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) {
        return 2;
    }
    benchmarks::register_start_benchmarks();
    benchmarks::register_circuit_simulator_benchmarks();
    benchmarks::register_controller_benchmark();
    benchmarks::register_phasor_benchmark();
    benchmarks::TableReporter reporter;
    benchmark::RunSpecifiedBenchmarks(&reporter);
    reporter.print_table(std::cout);
    benchmark::Shutdown();
    return 0;
}
