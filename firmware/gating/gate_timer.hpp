// Turns a firing angle into gate edges, to the microsecond, in the tick that the frame will drive.
//
// In every half cycle the gate is driven as one unbroken pulse from the firing angle to the pulse
// end, both counted from the voltage zero of the line's tracked fundamental. The long pulse lets an
// inductive load latch, and lets the second thyristor take over when the current of the first ends
// after its own angle has passed. The pulse end lies well before the next voltage zero, where a
// gate pulse would fire the wrong half cycle.
//
// A half cycle is armed at its voltage zero, on from its firing angle, and done after the pulse
// end: small corrections of the tracked phase can neither break a pulse nor repeat it. A firing
// angle that is given late (its phase has passed) fires at once.
#pragma once

#include <cstdint>

#include "firmware/units/phase.hpp"

namespace firmware {

/// Start and end of the pulse within the driven tick; equal values mean none.
struct GateWindow {
    MicroSeconds on{0};
    MicroSeconds off{0};
};

class GateTimer {
  public:
    /// @param pulse_end where in the half cycle the pulse ends; kept at 175 degrees or below
    explicit GateTimer(HalfTurn pulse_end);

    /// @param now   tracked phase at the instant of the samples being answered
    /// @param step  tracked advance per tick
    /// @param gated whether the half cycles may be fired; false ends a pulse at once
    /// @param firing firing angle; a value at or beyond the pulse end gives no pulse
    GateWindow step(Phase now, PhaseStep step, bool gated, HalfTurn firing);

  private:
    friend class Watch;

    enum class HalfCycle : std::uint8_t { armed, on, done };

    HalfTurn pulse_end_;
    HalfCycle half_cycle_ = HalfCycle::done;
    bool second_half_ = false;
};

}  // namespace firmware
