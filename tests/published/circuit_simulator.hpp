// Runs an independent circuit simulator (Debian package "ngspice", batch mode) on a netlist of
// ours, and hands back its waveforms. Used in tests only: it shares no code and no method with the
// plant model that it checks.
#pragma once

#include <string>
#include <vector>

namespace published {

/// What the simulator computed, at its own time points (not evenly spaced), in double precision.
struct CircuitWaveforms {
    std::vector<double> time_s;
    /// One column per requested signal, in the order of the request.
    std::vector<std::vector<double>> signals;
};

struct TransientSettings {
    double duration_s = 0.0;
    double largest_step_s = 0.0;
    double relative_tolerance = 1e-6;
    std::string integration = "trap";  ///< "gear" or "trap"
};

/// Runs a transient analysis from the initial conditions in the netlist.
/// @param elements  netlist lines, without title, analysis, options or end line.
/// @param signals   what to record, in the simulator's notation and in lower case: "v(node)" or
///                  "i(source)".
/// @throws std::runtime_error with the simulator's own words when it is not installed, refuses the
///         netlist, or stops before the end.
CircuitWaveforms run_circuit(const std::string& elements, const std::vector<std::string>& signals,
                             const TransientSettings& settings);

}  // namespace published
