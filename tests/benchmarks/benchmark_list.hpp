// What there is to measure. Each function registers its benchmarks; main calls them in the order of
// the table.
#pragma once

namespace benchmarks {

void register_start_benchmarks();
void register_circuit_simulator_benchmarks();
void register_controller_benchmark();
void register_phasor_benchmark();

}  // namespace benchmarks
