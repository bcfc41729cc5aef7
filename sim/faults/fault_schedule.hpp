// When the faults of a scenario begin and end. Asked once per tick, before the tick is looked at;
// what it answers holds from this tick on. Without faults it costs one comparison.
//
// Times are those of FaultTiming, taken up to whole ticks. A fault that waits for a state of the
// controller begins its count at the first tick at which the controller was found in it.
#pragma once

#include <cstdint>
#include <vector>

#include "firmware/telemetry.hpp"
#include "sim/faults/fault_effects.hpp"
#include "sim/scenario/fault_choice.hpp"

namespace sim {

class FaultSchedule {
  public:
    FaultSchedule(const Faults& faults, double supply_Hz);

    /// True if `effects` has changed. `controller`: as after the tick before; null if there is
    /// none. Must be asked with ticks that never go back; what begins and ends within a gap (a
    /// rest) is not seen.
    bool move_to(std::int64_t tick, const firmware::Telemetry* controller) {
        return !windows_.empty() && advance(tick, controller);
    }
    const FaultEffects& effects() const { return effects_; }

  private:
    struct Window {
        Fault fault;
        std::int64_t begin;  ///< never, until its state has been seen
        std::int64_t end;
        bool waits;
        bool is_there = false;
    };
    bool advance(std::int64_t tick, const firmware::Telemetry* controller);

    double supply_Hz_;
    std::vector<Window> windows_;
    FaultEffects effects_;
};

}  // namespace sim
