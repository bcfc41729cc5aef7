// The starts on which our integrator is measured against another one (start_script.hpp).
#pragma once

#include "plant_models/supplies/inverter.hpp"
#include "start_script.hpp"

namespace published {

/// Reference motor and load straight on the reference grid, for 0.45 s.
StartScript reference_start(double initial_speed_rad_per_s);

/// The 50 Hz motor behind a limiter with 100 uF of start capacitor: thyristors fired at 90 degrees
/// of the source's voltage, for 0.15 s. Everything falls on multiples of 200 us. The load breaks
/// away at 8 N m and takes 6 N m, which is about what the motor makes: the rotor sticks and slips.
StartScript thyristor_fed_start();
/// Grid of thyristor_fed_start.
plant_models::GridParameters fifty_hertz_grid();

/// Reference motor and load straight on an inverter with this current limit, for 0.06 s.
StartScript inverter_start(const plant_models::InverterParameters& inverter);
plant_models::InverterParameters default_inverter(double peak_current_limit_A);

}  // namespace published
