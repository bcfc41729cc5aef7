// What a controller must remember between starts: how long the motor has rested, how many starts
// have failed in a row, and how long the call has been away.
//
// A try is counted when a start begins. Tries are forgotten when a start has succeeded, or when the
// call has stayed away for the clearing time; the latter is also what ends a lock-out. Switching
// the call off and on does not shorten a rest and does not give back a try.
//
// Neither does a power cut: before a start the memory is told that a rest will be owed
// (memory/rest_mark.hpp), and a controller that finds that at power-up rests in full and has the
// tries of then behind it.
#pragma once

#include <cstdint>

#include "firmware/memory/rest_mark.hpp"
#include "firmware/settings/settings.hpp"
#include "firmware/units/stopwatch.hpp"
#include "firmware/units/units.hpp"

namespace firmware {

class RestAndTries {
  public:
    explicit RestAndTries(const Settings& settings)
        : rest_(ticks_from_s(settings.rest_before_retry_s) + contacts_open),
          clear_(ticks_from_s(settings.lockout_clear_s)),
          tries_allowed_(static_cast<std::uint8_t>(settings.tries)) {
        since_fed_.expire();  // nothing is known about the time before power-up
    }

    /// One tick passes.
    void tick(bool call) {
        since_fed_.tick();
        if (call) {
            call_away_.restart();
        } else {
            call_away_.tick();
        }
        if (call_away_.reached(clear_)) {
            tries_made_ = 0;
        }
    }

    /// Many ticks pass at once, all of them without a call.
    void rest(Ticks ticks) {
        since_fed_.pass(ticks);
        call_away_.pass(ticks);
        if (call_away_.reached(clear_)) {
            tries_made_ = 0;
        }
    }

    void motor_let_go() { since_fed_.restart(); }
    void start_begins() { ++tries_made_; }
    /// A fault that another try can only make worse.
    void use_up_tries() { tries_made_ = tries_allowed_; }
    void start_succeeded() { tries_made_ = 0; }

    /// What the memory is to hold. `motor_let_go` does not end it: the rest does.
    RestMark rest_mark() const { return {rest_owed_, tries_made_}; }
    /// What the memory held at power-up.
    void remember(const RestMark& mark) {
        if (mark.owed) {
            rest_owed_ = true;
            tries_made_ = mark.tries_made;
            since_fed_.restart();
        }
    }
    /// A start is about to begin.
    void owe_rest() { rest_owed_ = true; }
    /// Nobody calls and nothing is fed: a rest that is over is owed no more.
    void settle_rest() { rest_owed_ = rest_owed_ && !rest_over(); }

    bool rest_over() const { return since_fed_.reached(rest_); }
    bool tries_left() const { return tries_made_ < tries_allowed_; }
    std::uint8_t tries_made() const { return tries_made_; }

  private:
    friend class Watch;

    // The rest begins when the contacts have surely parted, not when their coils went off.
    static constexpr Ticks contacts_open = ticks_from_ms(50);

    Ticks rest_;
    Ticks clear_;
    std::uint8_t tries_allowed_;
    std::uint8_t tries_made_ = 0;
    bool rest_owed_ = false;
    Stopwatch since_fed_;
    Stopwatch call_away_;
};

}  // namespace firmware
