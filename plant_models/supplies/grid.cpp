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
        {"sag_begin_s", &G::sag_begin_s, 0, 3600, 0.0, "instant at which a sag begins"},
        {"sag_fall_s", &G::sag_fall_s, 0, 60, 0.0, "time in which the voltage falls to its low"},
        {"sag_length_s", &G::sag_length_s, 0, 3600, 0.0,
         "from the begin of the sag until the voltage returns at once"},
        {"sag_to_percent", &G::sag_to_percent, 0, 100, 100.0,
         "lowest voltage of the sag; 100: there is no sag; 0: an outage"},
    };
    return rows;
}

std::string_view GridParameters::inconsistency() const {
    const bool has_times = sag_begin_s > 0.0 || sag_fall_s > 0.0 || sag_length_s > 0.0;
    if (sag_to_percent == 100.0) {
        return has_times ? "sag_to_percent must be below 100 when times of a sag are given"
                         : std::string_view();
    }
    if (sag_length_s == 0.0 || sag_length_s < sag_fall_s) {
        return "sag_length_s must be above 0 and not shorter than sag_fall_s";
    }
    return {};
}

}  // namespace plant_models
