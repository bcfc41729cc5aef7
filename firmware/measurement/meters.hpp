// What the controller measures, in units: the readings that change once per half cycle.
//
// `Meters` takes every tick's samples and, when told that a half cycle has ended, refreshes the
// three RMS readings (one-cycle windows, see cycle_rms.hpp).
#pragma once

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/measurement/cycle_rms.hpp"
#include "firmware/measurement/samples.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Readings {
    MilliVolts line_voltage_rms;            ///< L1 to C
    MilliAmperes output_current_rms;        ///< main winding plus start capacitor
    MilliVolts start_terminal_voltage_rms;  ///< S to C
    MilliAmperes output_current_peak;       ///< of the half cycle that has just ended
};

class Meters {
  public:
    void add(const Samples& samples) {
        line_voltage_.add(samples.line_voltage_counts);
        output_current_.add(samples.output_current_counts);
        highest_current_counts_ = larger(highest_current_counts_, magnitude(samples));
        start_terminal_voltage_.add(samples.start_terminal_voltage_counts);
    }

    void close_half_cycle();

    const Readings& readings() const { return readings_; }

  private:
    static std::int32_t magnitude(const Samples& samples) {
        const std::int32_t counts = samples.output_current_counts;
        return counts < 0 ? -counts : counts;
    }

    std::int32_t highest_current_counts_ = 0;
    CycleRms line_voltage_;
    CycleRms output_current_;
    CycleRms start_terminal_voltage_;
    Readings readings_;
};

}  // namespace firmware
