// What one tick tells the sequence. Readings change once per half cycle, in the tick in which the
// next one begins or, where that was not foreseen, soon after.
#pragma once

#include "firmware/measurement/readings.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Observation {
    bool call = false;
    bool line_locked = false;
    bool readings_are_new = false;
    bool memory_holds_rest_owed = false;  ///< a power cut from now on leads to a rest
    MilliAmperes output_current_now;      ///< size of this tick's sample
    MilliHertz line_frequency;
    Readings readings;
};

}  // namespace firmware
