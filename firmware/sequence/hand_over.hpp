// Third part of a start: from the last stage to the bypass.
//
// The start capacitor goes out; the firing angle is swept to full conduction; then the motor must
// show that it is up: for several half cycles in a row the output current is far below the
// locked-rotor estimate, and the voltage at S is that of a rotor at speed and swings little. A
// light rotor swings about its speed at first; as long as it shows speed it is given time to calm
// down. Only then does the bypass close, and the gates stay on until it has surely closed.
// A voltage at S beyond that of any run means that the start capacitor's contact has not opened:
// such a motor is not up, and after a few half cycles it is let go.
//
// The confirmation is what keeps the bypass open on a slow rotor. Phasor solutions of five motors
// (1/4 hp to 5 ton, two and four poles, 50 and 60 Hz; start capacitor out, full voltage; computed)
// agree: at 85 % of synchronous speed they draw 42 to 72 % of locked rotor and show 0.79 to 0.89 of
// the line voltage at S; at 95 % they draw 19 to 34 % and show 1.09 to 1.35.
#pragma once

#include <cstdint>

#include "firmware/recognition/lasting.hpp"
#include "firmware/sequence/observation.hpp"
#include "firmware/sequence/orders.hpp"
#include "firmware/sequence/progress.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/units/stopwatch.hpp"

namespace firmware {

class HandOver {
  public:
    explicit HandOver(const Settings& settings);

    /// @param locked_rotor estimate of probing
    void begin(MilliAmperes locked_rotor, Orders& orders);
    Progress step(const Observation& seen, Orders& orders);

  private:
    friend class Watch;

    enum class Step : std::uint8_t { start_capacitor_opens, sweeping, confirming, bypass_closes };

    void sweep(Orders& orders);
    bool looks_up(const Observation& seen) const;
    void count_calm_half_cycle(std::int32_t level);
    void begin_confirming();
    bool changed_its_mind(const Observation& seen) const;
    Progress close_bypass(const Observation& seen, Orders& orders);
    Progress confirm(const Observation& seen, Orders& orders);

    Ticks sweep_delay_;
    Ticks release_;
    Ticks confirm_limit_;
    Ticks swing_limit_;
    Ticks bypass_settle_;
    std::int32_t sweep_half_cycles_;
    std::int32_t confirm_half_cycles_;
    Permille up_to_speed_;
    std::int32_t up_to_speed_level_;
    std::int32_t start_capacitor_level_;
    MilliDegrees full_conduction_;
    Lasting start_capacitor_in_;  // one of its ticks is a half cycle

    Step step_ = Step::start_capacitor_opens;
    Stopwatch clock_;           // since the step began
    Stopwatch since_coil_off_;  // of the start capacitor
    Stopwatch since_up_;  // since a half cycle that looked up; at first, since full conduction
    Stopwatch since_full_conduction_;  // bounds all confirmations of one hand-over together
    MilliDegrees swept_from_;
    std::int32_t half_cycles_ = 0;   // swept, or confirmed in a row
    std::int32_t lowest_level_ = 0;  // of the voltage at S over the half cycles confirmed so far
    std::int32_t highest_level_ = 0;
    MilliAmperes current_limit_;
    MilliAmperes peak_limit_;
    MilliVolts line_at_order_;
};

}  // namespace firmware
