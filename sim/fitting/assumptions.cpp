#include "sim/fitting/assumptions.hpp"

#include <fmt/format.h>

#include "sim/fitting/load_estimate.hpp"

namespace sim {

std::vector<std::string> assumptions_of(const Nameplate& plate, bool has_displacement) {
    std::vector<std::string> said;
    if (!plate.poles) {
        said.push_back("poles are not printed: 2, as in most hermetic compressors (judgement)");
    }
    if (!plate.voltage_V) {
        said.push_back(fmt::format("the currents belong to {:.4g} V, the upper end of the range",
                                   plate.rated_voltage_V()));
    }
    if (plate.power_hp && !plate.shaft_power_W) {
        said.push_back(
            "a horsepower is 745.7 W at the shaft; that of a compressor is often only "
            "a name for its size, so check the efficiency that comes out");
    }
    if (!plate.printed_shaft_W()) {
        said.push_back(
            "no power at the shaft is printed: it follows from the efficiency band, "
            "and the cooling capacity only has to be possible");
    }
    if (!plate.has_run_capacitor()) {
        said.push_back(fmt::format(
            "the locked-rotor current is that of both windings, the auxiliary one through a "
            "starting thermistor of {:.3g} ohm{}; while running it is off",
            plate.starting_resistance_ohm(),
            plate.start_thermistor_ohm ? "" : " (half the locked motor's impedance, judgement)"));
    } else {
        said.push_back("the run capacitor has a loss factor of 0.001 (judgement)");
    }
    said.push_back(
        "inertia from H = 0.04 s, that of a 3.5 kVA two-pole residential unit "
        "(PNNL-17796); its range is judgement");
    said.push_back("friction is 0.6 of friction and windage together (judgement)");
    said.push_back(fmt::format(
        "the load sticks at {:.0f} % of the rated torque and the rest grows with the square of "
        "the speed ({}; judgement)",
        100.0 * breakaway_share(plate),
        plate.compressor ? "from the kind of compressor" : "no kind of compressor is given"));
    if (has_displacement) {
        said.push_back(
            "displacement from 10.7 (R410A) or 15.2 (R22) cm3 per revolution and ton at "
            "7.2 / 54.4 C and 3500 r/min (computed), volumetric efficiency 0.9 "
            "(judgement)");
    } else if (plate.cooling_capacity_W) {
        said.push_back("no displacement is estimated; it takes compressor, and gas R410A or R22");
    }
    return said;
}

}  // namespace sim
