// What no nameplate can say. Each check returns one sentence that begins with a key and ends in
// what would be accepted; empty if there is nothing to say.
#pragma once

#include <string>

namespace sim {

struct Nameplate;

/// Exactly one voltage, or both ends of a range that is not inverted and not wider than
/// 1.35 : 1 (a wider one belongs to a unit that is wired in two ways).
std::string voltage_fault(const Nameplate&);

/// 50 or 60.
std::string frequency_fault(const Nameplate&);

/// Locked-rotor over rated-load current lies between 2.5 and 9 (nameplates of residential units:
/// 4.6 to 5.9).
std::string current_fault(const Nameplate&);

/// The shaft gets no more than 92 % of rated voltage times rated-load current, and no less than a
/// floor that falls with the size; two printed powers agree within 3 %; the heat moved lies between
/// 1 and 5.5 times the shaft's power, or 0.5 and 4.5 times the apparent power.
std::string power_fault(const Nameplate&);

/// With windings in quadrature a capacitor stands at sqrt(1 + n^2) of the line voltage, and n is at
/// least about 1: so it draws at least sqrt(2) w C V through the auxiliary winding. More than the
/// unit's rated-load current cannot be; less than 2 % of it does nothing.
std::string capacitor_fault(const Nameplate&);

/// A thermistor starts only a motor without a run capacitor.
std::string thermistor_fault(const Nameplate&);

}  // namespace sim
