// What every page that somebody may take to a real unit ends in.
#pragma once

namespace sim {

inline constexpr const char* cautions =
    "  A simulation, not a measurement. At a real unit: isolate and prove dead, discharge\n"
    "  both capacitors through a resistor, never by shorting them, and leave the\n"
    "  refrigerant circuit closed. Local codes and licensed practice come first.\n";

/// For pages after which somebody may fit something.
inline constexpr const char* fitting_cautions =
    "  What is fitted to a unit may end its warranty: ask its maker first.\n";

}  // namespace sim
