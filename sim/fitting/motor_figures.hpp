// The figures of a motor that a nameplate, a data sheet or its class speak of, by the phasor
// solution of plant_models/motor/steady_state.hpp at rated voltage and frequency.
//
// Locked rotor: slip 1 on the run capacitor, or, for a motor without one, with the auxiliary
// winding on the line through the cold starting thermistor. Rated load and breakdown: on the run
// capacitor, or on the main winding alone. Torque is that at the shaft, friction and windage taken
// off, except at rest, where there is neither. Every figure changes smoothly with the motor's
// parameters, which the optimiser relies on.
#pragma once

#include "plant_models/motor/motor_parameters.hpp"

namespace sim {

struct MotorFigures {
    double locked_rotor_current_A = 0.0;
    double locked_rotor_power_factor = 0.0;
    double locked_rotor_torque_Nm = 0.0;
    double locked_rotor_torque_share = 0.0;  ///< of the rated torque

    double rated_slip = 0.0;
    double rated_speed_rpm = 0.0;
    double rated_load_current_A = 0.0;
    double rated_power_factor = 0.0;
    double rated_torque_Nm = 0.0;  ///< at the shaft
    double shaft_power_W = 0.0;
    double efficiency = 0.0;
    /// Over the run capacitor, as a multiple of the rated voltage; 0 without one.
    double capacitor_voltage_ratio = 0.0;

    double breakdown_torque_Nm = 0.0;  ///< largest at the shaft on the run connection
    double breakdown_ratio = 0.0;      ///< over the rated torque

    /// Heat moved over power at the shaft; 0 where the nameplate does not give the former.
    double cooling_ratio = 0.0;
};

/// What stands beside the motor's own parameters.
struct OperatingPoint {
    double rated_slip = 0.0;
    double starting_resistance_ohm = 0.0;  ///< counts only without a run capacitor
    double cooling_capacity_W = 0.0;       ///< 0: not given
};

/// `rated_slip` above 0 and below 0.15.
MotorFigures figures_of(const plant_models::MotorParameters& motor,
                        const OperatingPoint& operating);

}  // namespace sim
