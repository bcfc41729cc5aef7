// What a benchmark reports beside its time. A counter that is absent does not apply.
#pragma once

#include <benchmark/benchmark.h>

#include "fine_reference.hpp"

namespace benchmarks::counters {

inline constexpr const char* simulated_s = "simulated_s";
inline constexpr const char* current_error = "current_error";
inline constexpr const char* time_error_s = "time_error_s";
/// How often an iteration does what its name says; absent: once.
inline constexpr const char* operations = "operations";
/// Marks the run of ours that rivals are measured against, and the rivals.
inline constexpr const char* yardstick = "yardstick";
inline constexpr const char* rival = "rival";

inline void report(benchmark::State& state, const Error& error) {
    state.counters[current_error] = error.line_current;
    state.counters[time_error_s] = error.time_to_speed_s;
}

}  // namespace benchmarks::counters
