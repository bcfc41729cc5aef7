// By how much a start dims the lights: the relative voltage change where a household's loads branch
// off, for a unit on a grid or a split-phase service.
//
//   d = I |R cos phi + X sin phi| / U_n      I: largest half-cycle RMS of the start
//                                            R + j X: supply and service run, not the unit's branch
//                                            cos phi: of the locked rotor
//
// The usual approximation for a voltage drop (circuit theory); it leaves out the part across, which
// is under 1 % of U_n here. Leg to leg the lamps hang on half the voltage and half the loop: the
// same share.
//
// Yardstick: IEC 61000-3-3 lets equipment change the voltage by at most d_max = 4 % where nothing
// else is said (memory). What it covers (up to 16 A, 220 to 250 V at 50 Hz) and that limits for 60
// Hz and lower voltages are not set: seen, in its scope. So this is a yardstick for whether lamps
// will be seen to blink, not a judgement of the unit.
#pragma once

#include <optional>

#include "sim/scenario/scenario.hpp"

namespace sim {

inline constexpr double visible_voltage_change = 0.04;

/// `starting_current_A` is the largest half-cycle RMS. None for other supplies.
std::optional<double> relative_voltage_change(const Scenario& on_its_supply,
                                              double starting_current_A);

}  // namespace sim
