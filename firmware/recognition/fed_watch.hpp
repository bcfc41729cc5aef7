// Watches the hardware while the motor climbs and is handed over, once per half cycle.
//
//   current lost           the output carries nothing although it is gated: a wire, a protector, a
//                          contactor, or a stuck sensor
//   start terminal dead    the voltage at S was there and is gone: nothing would tell of speed
//   half waves unequal     one thyristor conducts more than the other: one does not fire, or one is
//                          shorted. Direct current brakes the rotor and heats it
//   current beyond order   more than the firing angle lets through: the bypass is in
//
// Each must last for the patience: gusts of the supply, pulsations and the start capacitor's
// switching are over by then. The currents are shares of the locked-rotor estimate.
#pragma once

#include "firmware/measurement/readings.hpp"
#include "firmware/recognition/lasting.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class FedWatch {
  public:
    explicit FedWatch(const Settings& settings);

    /// @param start_terminal_alive whether a voltage at S is to be expected
    void begin(MilliAmperes locked_rotor, bool start_terminal_alive);

    /// @param ordered what the firing angle lets through to a standing motor; once the ramp is
    ///                over any current is in order: give the whole
    Reason half_cycle(const Readings& readings, Permille ordered);

    /// The climb is over. A rotor that swings about its speed without the start capacitor makes the
    /// half waves unequal for some cycles; from here on only a thyristor that carries nearly
    /// nothing counts.
    void hand_over_begins() { difference_share_ = nearly_one_way; }

  private:
    friend class Watch;

    static constexpr Permille nearly_one_way{700};

    bool unequal(const Readings& readings) const;

    Permille lost_fraction_;
    Permille climb_difference_;
    Permille difference_share_;
    Permille beyond_;
    std::int32_t dead_level_;
    MilliAmperes locked_rotor_;
    bool start_terminal_alive_ = false;
    // Patience in half cycles: one of their ticks is a half cycle.
    Lasting lost_;
    Lasting dead_;
    Lasting unequal_;
    Lasting beyond_order_;
};

}  // namespace firmware
