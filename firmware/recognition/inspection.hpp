// Looks at the wiring while the motor stands, before it is asked to turn.
//
// Three looks, each at readings of a full cycle (probing.hpp says when):
//
//   dark              contactor in, gates and start capacitor off. No current may flow through the
//                     output: what flows is let through by a welded bypass (both ways, lagging), a
//                     shorted thyristor (one way) or the start capacitor's contact stuck in
//                     (leading).
//   pulses            both half waves must carry the same, and the run capacitor must hold back the
//                     line from S. (Not before there is known to be a motor: without one S hangs on
//                     the line through the sound capacitor.)
//   start capacitor   alone, gates off. Its current must flow, and lead. The voltage at S must be
//                     there. What the winding at S has in impedance,
//
//                         Za / Zm = (V_S / I) / (V_line / I_locked)
//
//                     is more than that of the winding at R, as it has more turns of thinner wire;
//                     less means that R and S are swapped. I is the start capacitor's current; the
//                     run capacitor's, which cannot be seen, makes Za a little too large, so a
//                     sound motor is never taken for a swapped one, and a swapped one is found as
//                     long as the start capacitor is three times the run capacitor or more.
//
// At standstill the windings do not couple, so nothing here depends on the motor's make.
#pragma once

#include "firmware/measurement/readings.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Inspection {
  public:
    explicit Inspection(const Settings& settings);

    void begin();

    /// Each: `none`, or what was found.
    Reason judge_dark(const Readings& readings) const;
    Reason judge_pulses(const Readings& readings);
    Reason judge_start_capacitor(const Readings& readings, MilliAmperes locked_rotor);

    /// No current flowed when its contact had closed: none fitted, or stuck out.
    bool start_capacitor_absent() const { return start_capacitor_absent_; }
    /// The voltage at S was there with the start capacitor in; losing it later is a fault.
    bool start_terminal_alive() const { return start_terminal_alive_; }

  private:
    friend class Watch;

    bool is_dead(const Readings& readings) const;
    bool looks_swapped(const Readings& readings, MilliAmperes locked_rotor) const;

    bool run_capacitor_fitted_;
    MilliAmperes unasked_;
    std::int32_t dead_level_;
    Permille shorted_;
    Permille start_capacitor_share_;
    std::int64_t swapped_impedance_permille_;
    Permille unequal_;

    bool dead_without_start_capacitor_ = false;
    bool start_capacitor_absent_ = false;
    bool start_terminal_alive_ = false;
};

}  // namespace firmware
