// The steady state of a scenario's motor at rated voltage and frequency, on its run capacitor, at
// its own terminals: locked rotor, and the curve from rest to synchronous speed.
#pragma once

#include <string>
#include <vector>

#include "plant_models/motor/steady_state.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct MotorCurves {
    std::string scenario;
    std::string title;
    double voltage_V = 0.0;
    double frequency_Hz = 0.0;
    plant_models::SteadyState locked_rotor;
    std::vector<plant_models::SteadyState> curve;  ///< by falling slip
};

/// `extra_slips` become rows of the curve, too, each once.
MotorCurves motor_curves(const Scenario& scenario, const std::vector<double>& extra_slips);

/// The same with the limiter's start capacitor in beside the run capacitor; empty if none is
/// fitted.
std::vector<plant_models::SteadyState> curve_with_start_capacitor(const Scenario& scenario);

}  // namespace sim
