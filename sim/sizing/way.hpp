// The ways in which a compressor can be brought up, as the trade knows them.
//
//   directly          the contactor closes; a unit that came with a start aid keeps it
//   thermistor        a PTC resistor across the run capacitor
//   capacitor_relay   a start capacitor, taken out by a potential relay
//   limiter           the start limiter, with its start capacitor
//
// What is fitted, where the scenario does not say it itself:
//   start capacitor   3 x the run capacitor (common practice is two to five), at least 20 uF; for a
//                     motor without one, a reactance of four times the locked rotor's impedance: 80
//                     uF at 115 V and 14 A (common practice for 1/6 hp: 75 to 85 uF)
//   thermistor        25 ohm at 230 V (secondary: 25 to 50), in proportion to the voltage squared
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "sim/scenario/scenario.hpp"

namespace sim {

enum class Way { directly, thermistor, capacitor_relay, limiter };

inline constexpr std::array<Way, 4> every_way = {Way::directly, Way::thermistor,
                                                 Way::capacitor_relay, Way::limiter};

std::string_view word_of(Way way);

/// The unit on its supply, brought up this way; none if that cannot be fitted to it: a thermistor
/// or a relay beside another start aid, or without a run capacitor; nothing at all that feeds the
/// auxiliary winding. Its faults and changes are left out.
std::optional<Scenario> brought_up(const Scenario& unit, Way way);

/// As said above; 0 is never returned.
double usual_start_capacitor_uF(const Scenario& unit);

}  // namespace sim
