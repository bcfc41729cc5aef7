// What the controller measures, in units: the readings that change once per half cycle.
//
// `Meters` takes every tick's samples and, when told that a half cycle has ended, refreshes the
// readings (one-cycle windows, see cycle_rms.hpp and half_waves.hpp).
#pragma once

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/contract/sensor_scale.hpp"
#include "firmware/measurement/cycle_rms.hpp"
#include "firmware/measurement/half_waves.hpp"
#include "firmware/measurement/samples.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

struct Readings {
    MilliVolts line_voltage_rms;            ///< L1 to C
    MilliAmperes output_current_rms;        ///< main winding plus start capacitor
    MilliVolts start_terminal_voltage_rms;  ///< S to C
    MilliAmperes output_current_peak;       ///< of the half cycle that has just ended
    MilliVolts run_capacitor_voltage_rms;   ///< L1 to S
    HalfWaveMeans output_current;
    std::int32_t output_current_offset_counts = 0;  ///< mean; 0 from a sound sensor
    std::int32_t start_terminal_offset_counts = 0;  ///< the same
};

class Meters {
  public:
    /// @param phase of the line, tracked, at the instant of the samples
    void add(const Samples& samples, Phase phase) {
        line_voltage_.add(samples.line_voltage_counts);
        output_current_.add(samples.output_current_counts);
        highest_current_counts_ = larger(highest_current_counts_, magnitude(samples));
        start_terminal_voltage_.add(samples.start_terminal_voltage_counts);
        run_capacitor_voltage_.add(run_capacitor_counts(samples));
        half_waves_.add(samples.output_current_counts, phase);
    }

    void close_half_cycle();

    const Readings& readings() const { return readings_; }

  private:
    friend class Watch;

    static std::int32_t magnitude(const Samples& samples) {
        const std::int32_t counts = samples.output_current_counts;
        return counts < 0 ? -counts : counts;
    }

    std::int32_t highest_current_counts_ = 0;
    // Both voltages in one scale that fits the window: 300 and 500 mV are 3 and 5 eighths of 800.
    static constexpr std::int32_t run_capacitor_mV_per_count = 800;
    static_assert(line_voltage_mV_per_count * 8 == 3 * run_capacitor_mV_per_count, "3 eighths");
    static_assert(start_terminal_voltage_mV_per_count * 8 == 5 * run_capacitor_mV_per_count,
                  "5 eighths");
    static constexpr std::int32_t run_capacitor_counts(const Samples& samples) {
        return (3 * samples.line_voltage_counts - 5 * samples.start_terminal_voltage_counts) / 8;
    }

    CycleRms line_voltage_;
    CycleRms output_current_;
    CycleRms start_terminal_voltage_;
    CycleRms run_capacitor_voltage_;
    HalfWaves half_waves_;
    Readings readings_;
};

}  // namespace firmware
