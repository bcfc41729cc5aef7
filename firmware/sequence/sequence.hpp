// The state machine of a start: which part has its turn, and when everything must go off.
//
//     resting -> listening -> probing -> climbing -> handing over -> running
//        ^           ^           \___________|____________|____________/
//        |           |                       | let go
//        |           +----- backing off <----+----> locked out
//        +--- the call goes away (any state but locked out)
//
// Four rules stand above the parts and are looked at first in every tick: without a call everything
// is off; while the motor is fed, the line must be fit; the start capacitor must not stay in longer
// than its limit; the hardware must do what it is told. LETTING_GO.md lists every fault and what
// becomes of it. Letting go means all outputs off in the frame that answers this
// very tick.
#pragma once

#include "firmware/learning/learning_laws.hpp"
#include "firmware/learning/start_witness.hpp"
#include "firmware/recognition/fed_watch.hpp"
#include "firmware/recognition/sensors_at_rest.hpp"
#include "firmware/recognition/stall.hpp"
#include "firmware/sequence/climbing.hpp"
#include "firmware/sequence/hand_over.hpp"
#include "firmware/sequence/line_watch.hpp"
#include "firmware/sequence/observation.hpp"
#include "firmware/sequence/orders.hpp"
#include "firmware/sequence/probing.hpp"
#include "firmware/sequence/rest_and_tries.hpp"
#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class Sequence {
  public:
    /// With settings that check() refuses it is locked out from the beginning and for good.
    explicit Sequence(const Settings& settings);

    /// One tick; the orders hold until the next.
    const Orders& step(const Observation& seen);

    /// Many ticks without a call, at once. At least one.
    const Orders& rest(Ticks ticks);

    State state() const { return state_; }
    Reason reason() const { return reason_; }
    std::uint8_t stage() const { return climbing_.stage(); }
    std::uint8_t tries_made() const { return rest_and_tries_.tries_made(); }
    MilliAmperes locked_rotor() const { return probing_.locked_rotor(); }
    bool start_capacitor_absent() const { return probing_.inspection().start_capacitor_absent(); }
    const Learned& learned() const { return learning_.learned(); }
    RestMark rest_mark() const { return rest_and_tries_.rest_mark(); }
    /// What the memory held at power-up.
    void remember(const Learned& learned, const RestMark& mark) {
        learning_.remember(learned);
        rest_and_tries_.remember(mark);
    }

  private:
    friend class Watch;

    Sequence(const Settings& settings, bool settings_usable);

    void enter(State state, Reason reason);
    void call_ended();
    void let_go(Reason what_ended_it);
    void wait_for_start(const Observation& seen);
    void listen();
    void wait_for_line(const Observation& seen);
    void feed(const Observation& seen);
    void advance(const Progress& progress, const Observation& seen);
    void run(const Observation& seen);
    bool start_capacitor_limit_reached();
    Reason watch_hardware(const Observation& seen);
    Reason root_of(Reason reason) const;
    void watch_start(const Observation& seen);
    void report_start(Reason ended);

    bool settings_usable_;
    Ticks start_capacitor_limit_;
    Ticks run_clears_tries_;

    LineWatch line_watch_;
    Probing probing_;
    Climbing climbing_;
    HandOver hand_over_;
    SensorsAtRest sensors_at_rest_;
    FedWatch fed_watch_;
    Stall stall_;
    RestAndTries rest_and_tries_;
    LearningLaws learning_;
    StartWitness witness_;

    State state_ = State::resting;
    Reason reason_ = Reason::none;
    Orders orders_;
    Stopwatch start_capacitor_in_;
    Stopwatch running_;
};

}  // namespace firmware
