// First part of a start: measure the standing motor before it is asked to turn.
//
// The line contactor goes in; then a few half cycles are fired late, with the start capacitor out,
// so that the output carries the main winding's current alone. Its RMS over the last full cycle,
// divided by the fraction that a standing motor conducts at that angle (gating/conduction.hpp), is
// the estimate of the locked-rotor current. Last, the start capacitor goes in.
#pragma once

#include <cstdint>

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

  private:
    enum class Step : std::uint8_t { contactor_travels, pulsing, start_capacitor_travels };

    Progress judge(const Observation& seen, Orders& orders);

    MilliDegrees angle_;
    std::int32_t half_cycles_to_fire_;
    Ticks contactor_settle_;
    Ticks start_capacitor_settle_;
    MilliAmperes smallest_;
    MilliAmperes largest_;

    Step step_ = Step::contactor_travels;
    Stopwatch clock_;
    std::int32_t half_cycles_fired_ = 0;
    MilliAmperes locked_rotor_;
};

}  // namespace firmware
