// Tells from the voltage at S and the output current whether the rotor turns, gains speed, is up.
//
// With the start capacitor in, the voltage at S stays near its standstill value up to about half
// speed, then rises two to two and a half times towards synchronous speed; the main winding's
// current falls meanwhile. Both are taken per volt of line, so a sagging supply does not look like
// a standing or a running rotor. The standstill value is learned in the first cycles after the
// start capacitor went in: it does not depend on the main winding's current, as the windings do not
// couple while nothing turns.
//
// Fed once per half cycle. All judgements rest on means of two refreshes, i.e. three half cycles.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "firmware/measurement/readings.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class RunUp {
  public:
    explicit RunUp(const Settings& settings);

    /// The start capacitor has just gone in, the rotor stands.
    void begin();

    /// A new stage: the current is compared with its value a few half cycles from now.
    void stage_began();

    /// Takes the readings of one more half cycle.
    void observe(const Readings& readings);

    /// Voltage at S over its standstill value; 1000 until that is known.
    Permille rise() const { return rise_; }

    /// The rotor surely moves.
    bool turning() const { return turning_; }

    /// It gains speed right now.
    bool accelerating() const { return accelerating_; }

    /// It has stopped gaining speed, whatever the speed.
    bool settled() const { return settled_half_cycles_ >= settled_after_half_cycles; }

    /// Past the run-up rise: near synchronous speed, if it can gain no more.
    bool near_speed() const { return rise_ >= run_up_rise_; }

    /// Past the sure rise by the time that the start capacitor can be out, or past the run-up rise
    /// and settled.
    bool up() const { return rise_ahead_ >= sure_rise_ || (near_speed() && settled()); }

  private:
    friend class Watch;

    static constexpr std::uint8_t settled_after_half_cycles = 3;
    static constexpr std::size_t history_length = 16;

    using History = std::array<std::int32_t, history_length>;
    std::int32_t recent(const History& history, std::size_t half_cycles_ago) const;
    bool voltage_grows() const;
    bool current_falls() const;
    void learn_standstill();
    void judge_current();

    Permille run_up_rise_;
    Permille sure_rise_;
    Permille turning_rise_;
    std::int32_t accelerating_growth_permille_;
    std::int32_t accelerating_fall_permille_;
    std::int32_t turning_current_fall_permille_;
    std::size_t growth_half_cycles_;
    std::int32_t look_ahead_half_cycles_;

    // Rings, newest at newest_: voltage at S per line voltage, and output current per line voltage.
    History levels_{};
    History currents_{};
    std::size_t newest_ = 0;
    std::uint32_t observed_ = 0;           // half cycles since begin()
    std::uint32_t observed_in_stage_ = 0;  // half cycles since stage_began()
    std::int32_t standstill_level_ = 0;    // 0: not known yet
    std::int32_t stage_current_ = 0;       // output current per line voltage early in the stage
    Permille rise_{1000};
    Permille rise_ahead_{1000};
    bool turning_ = false;
    bool current_has_fallen_ = false;
    bool accelerating_ = false;
    std::uint8_t settled_half_cycles_ = 0;
};

}  // namespace firmware
