// What one tick tells the sequence. Readings change only in ticks in which a half cycle began.
#pragma once

#include "firmware/measurement/meters.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Observation {
    bool call = false;
    bool line_locked = false;
    bool half_cycle_began = false;
    bool memory_holds_rest_owed = false;  ///< a power cut from now on leads to a rest
    MilliAmperes output_current_now;      ///< size of this tick's sample
    MilliHertz line_frequency;
    Readings readings;
};

}  // namespace firmware
