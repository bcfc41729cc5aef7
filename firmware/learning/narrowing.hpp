// Learning law "narrowing": searches the weakest single stage that brings the rotor up in time.
//
// A climb draws the least when one stage is just strong enough for all of it: what a weaker first
// stage saves, a stronger second one spends. So a start on trial climbs with one level for as long
// as a start may take, and falls back on what is known to be enough. The first start climbs the
// settings' ladder and tells where to search. From then on the interval between the lowest good
// level and the highest weak one is halved, until it is narrower than 4 % or six starts are over. A
// level is weak if the rotor needed a later stage or too long, or if the measured current was no
// lower than at the good level above it, because the hand-over then decides.
//
// Settled, it uses 3 % more than the lowest good level, or the settings' ladder if that drew less.
// A settled start that needs its second stage raises the level by 4 %; a second one in a row means
// that the world has changed, and the search begins anew around what did bring the rotor up. Every
// fiftieth settled start is tried 4 % lower, which follows a slow drift downwards. Another motor,
// known by its locked-rotor estimate, is met with the settings' ladder.
//
// A learning law is a class with the members below, in a file of its own; nothing else knows which
// one is at work. All numbers of this one are engineering judgement; that a limiter learns a
// compressor within about five starts is common practice.
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
    static Learned fresh() { return {}; }
    /// The ladder of the next start, on a motor that probing has just measured.
    Ladder ladder_for(const Learned& learned, MilliAmperes locked_rotor) const;
    /// What is known after one more start.
    Learned after(const Learned& learned, const StartReport& report) const;

  private:
    Learned after_settings_ladder(Learned next, const StartReport& report) const;
    Learned after_good_trial(Learned next, const StartReport& report) const;
    Learned after_weak_trial(Learned next, const StartReport& report) const;
    Learned after_settled_start(Learned next, const StartReport& report) const;
    Learned search_anew(Learned next, const StartReport& report) const;
    void choose_level(Learned& next) const;
    void settle(Learned& next) const;
    bool in_time(const StartReport& report) const;
    Permille fallback(const Learned& learned) const;
    Permille within_reach(std::int32_t permille) const;
    static bool draws_no_less_than_settings(const Learned& learned, MilliAmperes inrush);
    static bool is_other_motor(const Learned& learned, MilliAmperes locked_rotor);

    Ladder factory_;
    std::int32_t in_time_ms_;
};

}  // namespace firmware
