// Where the start sequence stands, and why. Both travel in the status word of the actuator frame
// (state in the low byte, reason in the high byte) and in the telemetry; the numbers are part of
// the contract and are never given a new meaning.
#pragma once

#include <cstdint>

namespace firmware {

enum class State : std::uint8_t {
    resting = 0,       ///< no call; everything off
    listening = 1,     ///< called; waits for a tracked line inside its limits
    probing = 2,       ///< line contactor in; a few late pulses measure the standing motor
    climbing = 3,      ///< start capacitor in; the ramp law raises the main winding's current
    handing_over = 4,  ///< start capacitor out, full conduction, then the bypass
    running = 5,       ///< bypass in, gates off; watches the motor
    backing_off = 6,   ///< called, but lets the motor rest before the next try
    locked_out = 7,    ///< too many failed tries, or settings that cannot be used
};

enum class Reason : std::uint8_t {
    none = 0,
    call_ended = 1,              ///< the call went away
    no_lock = 2,                 ///< the line is not tracked (yet)
    line_voltage_low = 3,        ///< before a start
    line_voltage_high = 4,       ///< before a start or while feeding
    line_frequency_off = 5,      ///< before a start or while feeding
    line_sagged = 6,             ///< while feeding: far below the voltage before the start
    line_lost = 7,               ///< while feeding: no longer tracked
    no_motor = 8,                ///< probing drew no current
    current_too_large = 9,       ///< probing drew more than any motor
    stages_used_up = 10,         ///< last stage over, the rotor is not up
    climb_too_long = 11,         ///< whole climb over, the rotor is not up
    start_capacitor_limit = 12,  ///< the start capacitor has been in for as long as it may
    not_up_on_full_line = 13,    ///< full conduction did not bring the current down
    stalled = 14,                ///< running, the current went up and stayed
    current_lost = 15,           ///< running, the current is gone: the motor is no longer fed
    rest_not_over = 16,          ///< called before the rest after the last feeding was over
    tries_used_up = 17,          ///< as many failed starts in a row as are allowed
    settings_refused = 18,       ///< check(settings) found a problem; the motor is never fed
    sensor_off_zero = 19,        ///< before a start: a sensor reads what cannot be there
    saving_to_memory = 20,       ///< before a start: the memory is told of it first
    output_conducts = 21,        ///< current through the output, both ways, that nobody asked for
    thyristor_shorted = 22,      ///< the same, one way only
    start_capacitor_stuck_in = 23,  ///< its current flows though its contact should be open
    start_capacitor_absent = 24,    ///< its contact closed, no current: the start failed without it
    run_capacitor_open = 25,        ///< the voltage at S is missing until the start capacitor is in
    run_capacitor_shorted = 26,     ///< the whole line voltage stands at S
    start_terminal_dead = 27,       ///< no voltage at S: its wire, its winding or its sensor
    windings_swapped = 28,          ///< the winding at R has more impedance than that at S
    half_waves_unequal = 29,        ///< one thyristor carries more than the other
    current_beyond_order = 30,      ///< climbing, more current than the firing angle lets through
};

inline constexpr std::uint8_t state_count = 8;
inline constexpr std::uint8_t reason_count = 31;

constexpr const char* name_of(State state) {
    switch (state) {
        case State::resting:
            return "resting";
        case State::listening:
            return "listening";
        case State::probing:
            return "probing";
        case State::climbing:
            return "climbing";
        case State::handing_over:
            return "handing over";
        case State::running:
            return "running";
        case State::backing_off:
            return "backing off";
        case State::locked_out:
            return "locked out";
    }
    return "";
}

constexpr const char* name_of(Reason reason) {
    switch (reason) {
        case Reason::none:
            return "none";
        case Reason::call_ended:
            return "call ended";
        case Reason::no_lock:
            return "line not tracked";
        case Reason::line_voltage_low:
            return "line voltage low";
        case Reason::line_voltage_high:
            return "line voltage high";
        case Reason::line_frequency_off:
            return "line frequency off";
        case Reason::line_sagged:
            return "line sagged";
        case Reason::line_lost:
            return "line lost";
        case Reason::no_motor:
            return "no motor";
        case Reason::current_too_large:
            return "current too large";
        case Reason::stages_used_up:
            return "stages used up";
        case Reason::climb_too_long:
            return "climb too long";
        case Reason::start_capacitor_limit:
            return "start capacitor limit";
        case Reason::not_up_on_full_line:
            return "not up on full line";
        case Reason::stalled:
            return "stalled";
        case Reason::current_lost:
            return "current lost";
        case Reason::rest_not_over:
            return "rest not over";
        case Reason::tries_used_up:
            return "tries used up";
        case Reason::settings_refused:
            return "settings refused";
        case Reason::sensor_off_zero:
            return "sensor off zero";
        case Reason::saving_to_memory:
            return "saving to memory";
        case Reason::output_conducts:
            return "output conducts unasked";
        case Reason::thyristor_shorted:
            return "thyristor shorted";
        case Reason::start_capacitor_stuck_in:
            return "start capacitor stuck in";
        case Reason::start_capacitor_absent:
            return "start capacitor absent";
        case Reason::run_capacitor_open:
            return "run capacitor open";
        case Reason::run_capacitor_shorted:
            return "run capacitor shorted";
        case Reason::start_terminal_dead:
            return "start terminal dead";
        case Reason::windings_swapped:
            return "windings swapped";
        case Reason::half_waves_unequal:
            return "half waves unequal";
        case Reason::current_beyond_order:
            return "current beyond order";
    }
    return "";
}

/// The hardware feeds the motor, or would harm it, in a way that no other try can better: the
/// controller locks out at once.
constexpr bool forbids_another_try(Reason reason) {
    return reason == Reason::output_conducts || reason == Reason::thyristor_shorted ||
           reason == Reason::start_capacitor_stuck_in || reason == Reason::run_capacitor_shorted ||
           reason == Reason::windings_swapped;
}

/// True in the states in which the motor is fed.
constexpr bool feeds_motor(State state) {
    return state == State::probing || state == State::climbing || state == State::handing_over ||
           state == State::running;
}

}  // namespace firmware
