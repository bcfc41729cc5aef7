#include "firmware/sequence/sequence.hpp"

#include "firmware/gating/conduction.hpp"

namespace firmware {

Sequence::Sequence(const Settings& settings)
    : Sequence(usable(settings), check(settings) == SettingsProblem::none) {}

Sequence::Sequence(const Settings& settings, bool settings_usable)
    : settings_usable_(settings_usable),
      // The contact's own opening time belongs to the time that the capacitor is in.
      start_capacitor_limit_(
          ticks_from_ms(settings.start_capacitor_limit_ms - settings.start_capacitor_release_ms)),
      run_clears_tries_(ticks_from_s(settings.run_clears_tries_s)),
      line_watch_(settings),
      probing_(settings),
      climbing_(settings),
      hand_over_(settings),
      sensors_at_rest_(settings),
      fed_watch_(settings),
      stall_(settings),
      rest_and_tries_(settings),
      learning_(settings) {
    if (!settings_usable_) {
        enter(State::locked_out, Reason::settings_refused);
    }
}

const Orders& Sequence::step(const Observation& seen) {
    if (!settings_usable_) {
        return orders_;
    }
    rest_and_tries_.tick(seen.call);
    if (!seen.call) {
        call_ended();
    } else if (feeds_motor(state_)) {
        feed(seen);
    } else {
        wait_for_start(seen);
    }
    return orders_;
}

const Orders& Sequence::rest(Ticks ticks) {
    if (!settings_usable_) {
        return orders_;
    }
    // The first tick lets go of whatever was on; from then on only time passes.
    rest_and_tries_.tick(false);
    call_ended();
    rest_and_tries_.rest(Ticks{ticks.count() - 1});
    call_ended();
    return orders_;
}

void Sequence::enter(State state, Reason reason) {
    state_ = state;
    reason_ = reason;
}

void Sequence::call_ended() {
    if (state_ == State::resting) {
        rest_and_tries_.settle_rest();
        return;
    }
    // Switching the call off and on at the thermostat must not end a lock-out.
    if (state_ == State::locked_out && !rest_and_tries_.tries_left()) {
        return;  // until the call has been away long enough
    }
    if (feeds_motor(state_)) {
        rest_and_tries_.motor_let_go();
        // It ran until the thermostat was satisfied: whatever failed before is history.
        if (state_ == State::running) {
            rest_and_tries_.start_succeeded();
        }
    }
    orders_.all_off();
    enter(State::resting, Reason::call_ended);
}

void Sequence::let_go(Reason what_ended_it) {
    const Reason root = root_of(what_ended_it);
    if (forbids_another_try(root)) {
        rest_and_tries_.use_up_tries();
    }
    if (state_ == State::climbing || state_ == State::handing_over) {
        report_start(root);
    }
    orders_.all_off();
    rest_and_tries_.motor_let_go();
    enter(rest_and_tries_.tries_left() ? State::backing_off : State::locked_out, root);
}

// A rotor that did not come up for want of the start capacitor's torque.
Reason Sequence::root_of(Reason reason) const {
    return ladder_was_too_weak(reason) && start_capacitor_absent() ? Reason::start_capacitor_absent
                                                                   : reason;
}

void Sequence::wait_for_start(const Observation& seen) {
    switch (state_) {
        case State::resting:
            // One step per tick: the line is judged in the next one, the delay does not matter.
            if (!rest_and_tries_.tries_left()) {
                enter(State::locked_out, Reason::tries_used_up);
            } else if (!rest_and_tries_.rest_over()) {
                enter(State::backing_off, Reason::rest_not_over);
            } else {
                listen();
            }
            break;
        case State::backing_off:
            if (rest_and_tries_.rest_over()) {
                listen();
            }
            break;
        case State::listening:
            wait_for_line(seen);
            break;
        case State::locked_out:  // only the call's absence changes it
        case State::probing:     // and the others are fed
        case State::climbing:
        case State::handing_over:
        case State::running:
            break;
    }
}

void Sequence::listen() {
    // Saved at once, so that the memory is ready by the time the line is.
    rest_and_tries_.owe_rest();
    enter(State::listening, Reason::no_lock);
}

void Sequence::wait_for_line(const Observation& seen) {
    reason_ = line_watch_.judge_for_start(seen);
    if (reason_ == Reason::none && sensors_at_rest_.off_zero(seen.readings)) {
        reason_ = Reason::sensor_off_zero;
    }
    if (reason_ == Reason::none) {
        if (!seen.memory_holds_rest_owed) {
            reason_ = Reason::saving_to_memory;
            return;
        }
        rest_and_tries_.start_begins();
        line_watch_.begin(seen);
        probing_.begin(orders_);
        start_capacitor_in_.restart();
        enter(State::probing, Reason::none);
    }
}

void Sequence::feed(const Observation& seen) {
    // The order matters when two things go wrong in one tick: the reason told is the root one.
    const Reason line_fault = line_watch_.judge_while_fed(seen);
    if (line_fault != Reason::none) {
        let_go(line_fault);
        return;
    }
    if (start_capacitor_limit_reached()) {
        let_go(Reason::start_capacitor_limit);
        return;
    }
    const Reason fault = watch_hardware(seen);
    if (fault != Reason::none) {
        let_go(fault);
        return;
    }
    watch_start(seen);
    switch (state_) {
        case State::probing:
            advance(probing_.step(seen, orders_), seen);
            break;
        case State::climbing:
            advance(climbing_.step(seen, orders_), seen);
            break;
        case State::handing_over:
            advance(hand_over_.step(seen, orders_), seen);
            break;
        case State::running:
            run(seen);
            break;
        case State::resting:
        case State::listening:
        case State::backing_off:
        case State::locked_out:
            break;  // not fed
    }
}

// Counted here and not in the climb, so that the limit holds in whatever state the capacitor is in.
bool Sequence::start_capacitor_limit_reached() {
    if (!orders_.start_capacitor) {
        return false;
    }
    start_capacitor_in_.tick();
    return start_capacitor_in_.reached(start_capacitor_limit_);
}

void Sequence::advance(const Progress& progress, const Observation& seen) {
    if (progress.kind == Progress::Kind::going) {
        return;
    }
    if (progress.kind == Progress::Kind::failed) {
        let_go(progress.reason);
        return;
    }
    switch (state_) {
        case State::probing:
            climbing_.use(learning_.ladder_for(probing_.locked_rotor(), line_watch_.lifted(seen)));
            climbing_.begin(orders_);
            fed_watch_.begin(probing_.locked_rotor(), probing_.inspection().start_terminal_alive());
            witness_.begin();
            enter(State::climbing, Reason::none);
            break;
        case State::climbing:
            fed_watch_.hand_over_begins();
            hand_over_.begin(probing_.locked_rotor(), orders_);
            enter(State::handing_over, Reason::none);
            break;
        case State::handing_over:
            report_start(Reason::none);
            stall_.begin(probing_.locked_rotor());
            running_.restart();
            enter(State::running, Reason::none);
            break;
        case State::resting:
        case State::listening:
        case State::running:
        case State::backing_off:
        case State::locked_out:
            break;  // no part of a start
    }
}

Reason Sequence::watch_hardware(const Observation& seen) {
    if (!seen.readings_are_new) {
        return Reason::none;
    }
    if (state_ == State::climbing) {
        const std::int32_t conducted = conducted_per_ten_thousand(orders_.firing_angle);
        return fed_watch_.half_cycle(seen.readings, Permille{conducted / 10});
    }
    return state_ == State::handing_over ? fed_watch_.half_cycle(seen.readings, Permille{1000})
                                         : Reason::none;
}

void Sequence::watch_start(const Observation& seen) {
    if (seen.readings_are_new && (state_ == State::climbing || state_ == State::handing_over)) {
        witness_.observe(seen.readings.output_current_rms, seen.readings.output_current_peak);
    }
}

void Sequence::report_start(Reason ended) {
    StartReport report;
    report.ended = ended;
    report.stage = climbing_.stage();
    report.locked_rotor = probing_.locked_rotor();
    report.inrush = witness_.inrush();
    report.peak = witness_.peak();
    constexpr std::uint32_t ticks_per_ms = ticks_per_second / 1000;
    report.climb_ms = static_cast<std::int32_t>(climbing_.elapsed().count() / ticks_per_ms);
    learning_.start_ended(report);
}

void Sequence::run(const Observation& seen) {
    const Reason trouble = stall_.tick(seen.readings);
    if (trouble != Reason::none) {
        let_go(trouble);
        return;
    }
    running_.tick();
    // Once per run is enough.
    if (running_.elapsed() == run_clears_tries_) {
        rest_and_tries_.start_succeeded();
    }
}

}  // namespace firmware
