// What every page that somebody may take to a real unit ends in.
#pragma once

namespace sim {

inline constexpr const char* cautions =
    "  A simulation, not a measurement. At a real unit: isolate and prove dead, discharge\n"
    "  both capacitors through a resistor, leave the refrigerant circuit closed. Local codes\n"
    "  and licensed practice come first.\n";

}  // namespace sim
