#include "plant_models/supplies/grid.hpp"

namespace plant_models {

const ParameterTable<GridParameters>& GridParameters::table() {
    using G = GridParameters;
    static const ParameterTable<G> rows = {
        {"voltage_V", &G::voltage_V, 50, 300, {}, "open-circuit voltage, RMS"},
        {"frequency_Hz", &G::frequency_Hz, 45, 65, {}, "frequency"},
        {"resistance_ohm", &G::resistance_ohm, 0, 20, {}, "source and wiring resistance"},
        {"inductance_mH", &G::inductance_mH, 0, 50, {}, "source and wiring inductance"},
        {"phase_deg",
         &G::phase_deg,
         -360,
         360,
         {},
         "phase of the voltage's sine when the circuit closes; 0 is its rising zero"},
    };
    return rows;
}

}  // namespace plant_models
