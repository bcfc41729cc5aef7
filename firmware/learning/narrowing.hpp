// Learning law "narrowing": searches the lowest first stage that brings the rotor up in time.
//
// The interval between the lowest good level and the highest weak one (a tenth of the locked-rotor
// current, before any is known) is halved from start to start, until it is narrower than 4 % of the
// level, and no longer than six starts. Less current is only worth having
// where it shows: a lower level at which the measured current is not lower counts as weak, because
// the hand-over then decides. A level is weak, too, if the rotor needed a later stage or too long.
//
// A start on trial has the lowest good level as its second stage, so it costs one dwell and no
// start. A settled level that fails means that the world has changed: the level at which the rotor
// did come up is the next one, and the search begins anew. A settled level that keeps succeeding is
// tried 4 % lower every fiftieth start, which follows a slow drift downwards.
//
// A learning law is a class with the members below, in a file of its own; nothing else knows which
// one is at work.
#pragma once

#include "firmware/learning/learned.hpp"
#include "firmware/learning/start_report.hpp"
#include "firmware/ramp_laws/ladder.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Narrowing {
  public:
    explicit Narrowing(const Settings& settings);

    /// What is known before the first start, or of a motor that has been exchanged.
    Learned fresh() const;
    /// The ladder of the next start, on a motor that probing has just measured.
    Ladder ladder_for(const Learned& learned, MilliAmperes locked_rotor) const;
    /// What is known after one more start.
    Learned after(const Learned& learned, const StartReport& report) const;

  private:
    Learned after_success(Learned next, const StartReport& report) const;
    Learned after_weakness(Learned next, const StartReport& report) const;
    void choose_level(Learned& next) const;
    static bool is_other_motor(const Learned& learned, MilliAmperes locked_rotor);
    Permille stage_target(const Learned& learned, std::uint8_t stage) const;

    Ladder factory_;
    std::int32_t in_time_ms_;
};

}  // namespace firmware
