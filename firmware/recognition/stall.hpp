// Watches a motor that runs on the bypass.
//
// A stalled rotor draws near its locked-rotor current; a motor whose protector or wiring has opened
// draws none. Either must last for the stall patience. Limits are fractions of the locked-rotor
// current that probing has estimated.
#pragma once

#include "firmware/measurement/meters.hpp"
#include "firmware/recognition/lasting.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Stall {
  public:
    explicit Stall(const Settings& settings)
        : stall_fraction_(settings.stall_current_permille),
          lost_fraction_(settings.lost_current_permille),
          too_much_(ticks_from_ms(settings.stall_patience_ms)),
          too_little_(ticks_from_ms(settings.stall_patience_ms)) {}

    void begin(MilliAmperes locked_rotor) {
        stall_current_ = portion(locked_rotor, stall_fraction_);
        lost_current_ = portion(locked_rotor, lost_fraction_);
        too_much_.restart();
        too_little_.restart();
    }

    /// One tick with the latest readings: `stalled`, `current_lost` or `none`.
    Reason tick(const Readings& readings) {
        if (too_much_.tick(readings.output_current_rms > stall_current_)) {
            return Reason::stalled;
        }
        if (too_little_.tick(readings.output_current_rms < lost_current_)) {
            return Reason::current_lost;
        }
        return Reason::none;
    }

  private:
    Permille stall_fraction_;
    Permille lost_fraction_;
    MilliAmperes stall_current_;
    MilliAmperes lost_current_;
    Lasting too_much_;
    Lasting too_little_;
};

}  // namespace firmware
