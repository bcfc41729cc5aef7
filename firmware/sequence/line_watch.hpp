// Judges the line: fit to start on, and still fit while the motor is fed.
//
// Before a start every reading counts. While feeding, a fault must show in several refreshes in a
// row
// (`line_fault_half_cycles`) before the motor is let go, except a lost lock, which counts at once:
// without the phase no gate pulse can be placed.
#pragma once

#include <cstdint>

#include "firmware/sequence/observation.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class LineWatch {
  public:
    explicit LineWatch(const Settings& settings);

    /// `none` when a start may begin now.
    Reason judge_for_start(const Observation& seen) const;

    /// Remembers the voltage as the one before the start.
    void begin(const Observation& seen);

    /// The voltage stands far above that before the start: a start capacitor's leading current
    /// lifts that of a small generator.
    bool lifted(const Observation& seen) const;

    /// Once per tick while the motor is fed: `none`, or why it must be let go.
    Reason judge_while_fed(const Observation& seen);

  private:
    friend class Watch;

    bool frequency_off(const Observation& seen) const;

    MilliVolts lowest_;
    MilliVolts highest_;
    MilliHertz slowest_;
    MilliHertz fastest_;
    Permille sag_limit_;
    std::int32_t patience_half_cycles_;
    MilliVolts sagged_below_;
    MilliVolts lifted_above_;
    std::int32_t faulty_half_cycles_ = 0;
};

}  // namespace firmware
