// First part of a start: look at the wiring and measure the standing motor before it is asked to
// turn (recognition/inspection.hpp says what is looked for).
//
// The line contactor goes in, and nothing else: the first look. Then a few half cycles are fired
// late, with the start capacitor out, so that the output carries the main winding's current alone.
// Its RMS over the last full cycle, divided by the fraction that a standing motor conducts at that
// angle (gating/conduction.hpp), is the estimate of the locked-rotor current. Last, the start
// capacitor goes in, with the gates off: the third look.
//
// Every look is at the last full cycle. A fault that begins inside it is seen half before and half
// after, and can pass for its neighbour, so a finding that would lock out is looked at again, at a
// cycle that shares nothing with the first, a half cycle of grace between them.
#pragma once

#include <cstdint>

#include "firmware/recognition/inspection.hpp"
#include "firmware/sequence/observation.hpp"
#include "firmware/sequence/orders.hpp"
#include "firmware/sequence/progress.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/units/stopwatch.hpp"

namespace firmware {

class Probing {
  public:
    explicit Probing(const Settings& settings);

    void begin(Orders& orders);
    Progress step(const Observation& seen, Orders& orders);

    /// Current that the main winding would draw at full conduction; 0 before the first probing.
    MilliAmperes locked_rotor() const { return locked_rotor_; }
    /// What was found of the wiring; as of the last probing.
    const Inspection& inspection() const { return inspection_; }

  private:
    friend class Watch;

    enum class Step : std::uint8_t { contactor_travels, dark, pulsing, start_capacitor_alone };

    Progress dark(const Observation& seen, Orders& orders);
    Progress start_capacitor_alone(const Observation& seen);
    Progress judge(const Observation& seen, Orders& orders);
    bool looks_again(Reason found);

    MilliDegrees angle_;
    std::int32_t half_cycles_to_fire_;
    Ticks contactor_settle_;
    Ticks start_capacitor_settle_;
    MilliAmperes smallest_;
    MilliAmperes largest_;
    std::int32_t half_cycles_to_inspect_;
    Inspection inspection_;

    Step step_ = Step::contactor_travels;
    Stopwatch clock_;
    std::int32_t half_cycles_ = 0;  // fired, or inspected
    std::int32_t half_cycles_to_wait_ = 0;
    bool looked_again_ = false;
    MilliAmperes locked_rotor_;
};

}  // namespace firmware
