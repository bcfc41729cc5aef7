// Watches a motor that runs on the bypass.
//
// A stalled rotor draws near its locked-rotor current; a motor whose protector or wiring has opened
// draws none. Either must last for the stall patience. Limits are fractions of the locked-rotor
// current that probing has estimated.
//
// An overload can also pull a rotor out slowly, over a second and more, below the stall current all
// that while. So what lets the bypass close must go on to hold: a motor that neither draws a
// running motor's current nor shows its voltage at S is not at speed.
//
// The voltage at S tells sooner: a rotor that loses its speed, or that compressed gas turns round
// while the line is away for a few cycles, passes through standstill, where the voltage at S is
// low. Running backwards at speed hardly looks different from running forwards, so the passage must
// be caught. A voltage far above that of any run means that the start capacitor has come back in.
// A voltage at S that is not there at all tells nothing of the motor and is left to the next
// start's inspection.
#pragma once

#include "firmware/measurement/readings.hpp"
#include "firmware/recognition/lasting.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Stall {
  public:
    explicit Stall(const Settings& settings)
        : stall_fraction_(settings.stall_current_permille),
          lost_fraction_(settings.lost_current_permille),
          dead_level_(settings.start_terminal_dead_permille * 10),
          slow_level_(settings.slow_voltage_permille * 10),
          up_to_speed_(settings.up_to_speed_current_permille),
          up_to_speed_level_(settings.up_to_speed_voltage_permille * 10),
          start_capacitor_level_(settings.start_capacitor_in_permille * 10),
          too_much_(ticks_from_ms(settings.stall_patience_ms)),
          too_little_(ticks_from_ms(settings.stall_patience_ms)),
          pulled_out_(ticks_from_ms(settings.stall_patience_ms)),
          slow_(ticks_from_ms(settings.slow_patience_ms)),
          start_capacitor_in_(ticks_from_ms(settings.stall_patience_ms)) {}

    void begin(MilliAmperes locked_rotor) {
        stall_current_ = portion(locked_rotor, stall_fraction_);
        up_to_speed_current_ = portion(locked_rotor, up_to_speed_);
        lost_current_ = portion(locked_rotor, lost_fraction_);
        too_much_.restart();
        too_little_.restart();
        pulled_out_.restart();
        slow_.restart();
        start_capacitor_in_.restart();
    }

    /// One tick with the latest readings: `stalled`, `current_lost`, `start_capacitor_stuck_in` or
    /// `none`.
    Reason tick(const Readings& readings) {
        const std::int32_t level = readings.start_terminal_level;
        const bool no_current = readings.output_current_rms < lost_current_;
        const bool stalled = too_much_.tick(readings.output_current_rms > stall_current_);
        const bool pulled_out =
            pulled_out_.tick(readings.output_current_rms > up_to_speed_current_ &&
                             level >= dead_level_ && level < up_to_speed_level_);
        const bool lost = too_little_.tick(no_current);
        const bool slow = slow_.tick(level >= dead_level_ && level < slow_level_);
        const bool start_capacitor = start_capacitor_in_.tick(level >= start_capacitor_level_);
        // A rotor that slows down without a current in its main winding is not the motor's doing.
        if (lost || (slow && no_current)) {
            return Reason::current_lost;
        }
        if (stalled || pulled_out || slow) {
            return Reason::stalled;
        }
        return start_capacitor ? Reason::start_capacitor_stuck_in : Reason::none;
    }

  private:
    friend class Watch;

    Permille stall_fraction_;
    Permille lost_fraction_;
    std::int32_t dead_level_;
    std::int32_t slow_level_;
    Permille up_to_speed_;
    std::int32_t up_to_speed_level_;
    std::int32_t start_capacitor_level_;
    MilliAmperes stall_current_;
    MilliAmperes up_to_speed_current_;
    MilliAmperes lost_current_;
    Lasting too_much_;
    Lasting too_little_;
    Lasting pulled_out_;
    Lasting slow_;
    Lasting start_capacitor_in_;
};

}  // namespace firmware
