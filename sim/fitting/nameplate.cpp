#include "sim/fitting/nameplate.hpp"

#include <algorithm>

#include "sim/fitting/five_digits.hpp"
#include "sim/fitting/nameplate_limits.hpp"

namespace sim {

double Nameplate::rated_voltage_V() const {
    return voltage_V ? *voltage_V : highest_voltage_V.value_or(0.0);
}

std::optional<double> Nameplate::printed_shaft_W() const {
    if (shaft_power_W) {
        return shaft_power_W;
    }
    return power_hp ? std::optional(*power_hp * watts_per_hp) : std::nullopt;
}

double Nameplate::starting_resistance_ohm() const {
    // At least what a scenario accepts for a thermistor.
    const double usual_ohm = std::max(0.5 * rated_voltage_V() / locked_rotor_current_A, 1.0);
    return start_thermistor_ohm.value_or(five_digits(usual_ohm));
}

std::string Nameplate::inconsistency() const {
    // In the order in which each check may rely on the ones before.
    for (const auto check : {voltage_fault, frequency_fault, current_fault, power_fault,
                             capacitor_fault, thermistor_fault}) {
        if (std::string fault = check(*this); !fault.empty()) {
            return fault;
        }
    }
    return {};
}

}  // namespace sim
