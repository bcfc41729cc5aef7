// The bundled compressors and supplies with the few figures by which one chooses among them.
#pragma once

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

/// Line current with the rotor locked, at rated voltage (phasors): the auxiliary winding on its run
/// capacitor or, without one, on its cold thermistor.
double locked_rotor_A(const Scenario& unit);

struct CompressorOverview {
    std::string name;
    std::string title;
    std::string load;  ///< kind of [load]
    std::string gas;   ///< empty for a load without refrigerant
    double voltage_V = 0.0;
    double frequency_Hz = 0.0;
    double locked_rotor_A = 0.0;    ///< phasors, at rated voltage; thermistor cold
    double run_capacitor_uF = 0.0;  ///< 0: none
};

struct SupplyOverview {
    std::string name;
    std::string title;
    std::string kind;
    double voltage_V = 0.0;
    double frequency_Hz = 0.0;
};

/// Both by name.
std::vector<CompressorOverview> overview_of_compressors();
std::vector<SupplyOverview> overview_of_supplies();

}  // namespace sim
