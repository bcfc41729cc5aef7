// Learning law "easing": eases the settings' ladder for as long as that lowers the current.
//
// One number is learned, the level. The first stage of a ladder of level x has x of the settings'
// target and waits the longer for it; the stages after it are eased less and less, the last not at
// all. So what an eased first stage cannot do is done within the same start by stages that are
// known to be strong. A level above 1000 raises the first stage, and the others where they would no
// longer lie above it.
//
// The first start climbs the settings' ladder. If its first stages were of no use, one as strong as
// the last of them is tried with more time. Apart from that, how long the climb took tells how
// strong the ladder is for this rotor: a short climb allows a bold step down, a long one only a
// careful step. A step that drew less is followed by another; one that drew no less, or did not
// bring the rotor up in time, bounds the search, which then goes halfway back. It ends when the
// bounds are close, when the climb takes long, or after six starts, with the level that drew the
// least. If the settings' ladder itself is too weak, the level goes up in bold steps.
//
// Settled, the level stays for as long as the rotor comes up in time and in the stage in which it
// used to. A start that does not raises the level a little, at most to the settings'; the second
// one in a row, one that does not come up at all, or one that takes less than half the time, begins
// the search anew. Every fiftieth start
// is tried a little lower, which follows a slow drift for the better. Another motor, known by its
// locked-rotor estimate, is met with the settings' ladder.
//
// A learning law is a class with the members below, in a file of its own; nothing else knows which
// one is at work. Where no source is given the numbers of this one are engineering judgement; that
// a limiter learns a compressor within about five starts is common practice.
#pragma once

#include "firmware/learning/learned.hpp"
#include "firmware/learning/start_report.hpp"
#include "firmware/ramp_laws/ladder.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Easing {
  public:
    explicit Easing(const Settings& settings);

    /// What is known before the first start, or of a motor that has been exchanged.
    static Learned fresh() { return {}; }
    /// The ladder of the next start, on a motor that probing has just measured.
    Ladder ladder_for(const Learned& learned, MilliAmperes locked_rotor) const;
    /// What is known after one more start.
    Learned after(const Learned& learned, const StartReport& report) const;

  private:
    Learned after_trial(Learned next, const StartReport& report) const;
    Learned after_settled_start(Learned next, const StartReport& report) const;
    Learned begin_anew(const Learned& before, const StartReport& report) const;
    Permille stronger_level(const Learned& learned, const StartReport& report) const;
    Permille next_level(const Learned& learned) const;
    Permille level_before_stage(std::uint8_t stage) const;
    bool in_time(const StartReport& report) const;
    bool is_late(const Learned& learned) const;
    bool is_better(const Learned& learned, const StartReport& report) const;
    static bool is_much_easier(const Learned& learned, const StartReport& report);
    Ladder raised(Permille level) const;
    Ladder eased(Permille level) const;
    Ticks longest_dwell() const;
    static bool is_other_motor(const Learned& learned, MilliAmperes locked_rotor);

    Ladder factory_;
    std::int32_t in_time_ms_;
};

}  // namespace firmware
