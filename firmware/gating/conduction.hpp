// How much of its full current a standing motor draws at a firing angle, and the angle for a wanted
// fraction.
//
// A main winding with its rotor locked is a resistance and an inductance. Fired at angle a after
// the voltage zero, through thyristors that block again at the current zero b:
//
//     i(t) = sin(t - f) - sin(a - f) exp(-(t - a) / tan f)      f: load angle, i(b) = 0
//     fraction(a) = sqrt(2/pi * integral of i^2 from a to b)    RMS, full conduction = 1
//
// (textbook single-phase controller with R-L load; memory). The table is worked out for a power
// factor of 0.6. Published locked-rotor power factors run from 0.42 (a book's 3.5 kW machine) to
// 0.75 (grid-simulation parameter sets for residential compressors). Over that range the fraction
// moves by less than 3.5 % at 122 degrees, where the probing pulses are fired, by less than 9 % at
// 90 degrees. The tests work the table out again from the equations.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

/// RMS current at a firing angle as a fraction of full conduction, in ten-thousandths. Angles from
/// 0 to 180 degrees; 10,000 up to 53 degrees, where conduction is continuous.
std::int32_t conducted_per_ten_thousand(MilliDegrees firing);

/// The inverse: the firing angle for a fraction. 1000 per mille and more give 53 degrees, at which
/// conduction is already full; 0 and less give 173 degrees.
MilliDegrees firing_angle_for(Permille conducted);

}  // namespace firmware
