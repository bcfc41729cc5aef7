// What the controller measures, in units: the readings that change once per half cycle.
//
// `Meters` takes every tick's samples and, when told that a half cycle is about to end, refreshes
// the readings (one-cycle windows, see cycle_rms.hpp and half_waves.hpp). Their roots and divisions
// are too much for one tick of a small processor, so there is a reading a tick, each over the cycle
// that ends in its tick; those that decide whether a rotor turns come last, when they know the
// most.
#pragma once

#include <cstdint>

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/contract/sensor_scale.hpp"
#include "firmware/measurement/cycle_rms.hpp"
#include "firmware/measurement/half_waves.hpp"
#include "firmware/measurement/readings.hpp"
#include "firmware/measurement/samples.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

class Meters {
  public:
    /// In so many ticks, the one of begin_readings() among them, all are whole.
    static constexpr std::uint32_t ticks_to_readings = 5;

    /// @param phase of the line, tracked, at the instant of the samples
    void add(const Samples& samples, Phase phase) {
        line_voltage_.add(samples.line_voltage_counts);
        output_current_.add(samples.output_current_counts);
        highest_current_counts_ = larger(highest_current_counts_, magnitude(samples));
        start_terminal_voltage_.add(samples.start_terminal_voltage_counts);
        run_capacitor_voltage_.add(run_capacitor_counts(samples));
        half_waves_.add(samples.output_current_counts, phase);
    }

    void begin_readings();
    /// Once per tick: ends the half cycle of one reading and works it out, while some are left.
    void work_on();

    /// All of them are whole, and nobody has taken them yet.
    bool has_new_readings() const { return next_ == Next::taking; }
    const Readings& take_readings() {
        next_ = Next::none;
        return readings_;
    }

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

    enum class Next : std::uint8_t {
        run_capacitor_voltage,
        half_waves,
        line_voltage,
        output_current,
        start_terminal_voltage,
        taking,  ///< all are whole
        none
    };
    static_assert(ticks_to_readings == static_cast<std::uint32_t>(Next::taking), "one a tick");

    CycleRms line_voltage_;
    CycleRms output_current_;
    CycleRms start_terminal_voltage_;
    CycleRms run_capacitor_voltage_;
    HalfWaves half_waves_;
    Readings readings_;
    Next next_ = Next::none;
};

}  // namespace firmware
