// Our own plant in time, recorded in the same form as the circuit simulator's waveforms.
#pragma once

#include "motor_netlist.hpp"
#include "sim/timeline/plant_run.hpp"

namespace published {

/// Motor, load and grid of a circuit, straight on the line. The thyristors and the start capacitor
/// of the circuit are left out; its held speed is not taken over.
sim::PlantDescription direct_plant(const MotorCircuit& circuit);

/// The same behind a limiter whose contacts move at once, with the circuit's start capacitor and
/// thyristors. A held speed of 0 becomes a rotor that nothing can break away.
/// @throws std::invalid_argument for any other held speed.
sim::PlantDescription limiter_plant(const MotorCircuit& circuit);

/// Appends what the plant shows now, then every `every` until `until`, which is left to the next
/// call: intervals are half-open.
void record(sim::PlantRun& run, sim::Instant until, sim::Instant every, MotorWaveforms& into);

/// The contactor alone. Behind a limiter the main winding stays without current.
sim::PowerCommands line_closed();

/// A direct start from t = 0, recorded every `every`.
MotorWaveforms direct_start(const sim::PlantDescription& plant, double duration_s,
                            sim::Instant every);

/// What the netlist's gates do during the tick that begins at `tick_begin`.
sim::PowerCommands gate_window(const ThyristorPair& pair, double frequency_Hz,
                               sim::Instant tick_begin);

sim::Instant nanoseconds(double time_s);

}  // namespace published
