// A rest of the loads whose closed chambers leak towards the suction while the circuit equalises.
#pragma once

#include "plant_models/numeric/equal_steps.hpp"
#include "plant_models/refrigerant/refrigerant_circuit.hpp"

namespace plant_models {

/// Equalises the circuit in steps in which the suction pressure moves little, and after each of
/// them calls `leak(suction before, suction after, length)` in kPa and s.
template <class Leak>
void equalise_with_leaks(const RefrigerantCircuit& circuit, double* circuit_state,
                         double duration_s, Leak leak) {
    constexpr double longest_step_s = 1.0;
    const EqualSteps steps = equal_steps(duration_s, longest_step_s);
    for (int n = 0; n < steps.count; ++n) {
        const double before_kPa = circuit.pressures(circuit_state).suction_kPa;
        circuit.equalise(circuit_state, steps.length_s);
        leak(before_kPa, circuit.pressures(circuit_state).suction_kPa, steps.length_s);
    }
}

}  // namespace plant_models
