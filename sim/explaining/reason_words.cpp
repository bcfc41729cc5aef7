#include "sim/explaining/reason_words.hpp"

namespace sim {

std::string_view reason_words(firmware::Reason reason) {
    using firmware::Reason;
    switch (reason) {
        case Reason::none:
            return "";
        case Reason::call_ended:
            return "the call has ended";
        case Reason::no_lock:
            return "it does not track the line";
        case Reason::line_voltage_low:
            return "the line's voltage is too low to begin";
        case Reason::line_voltage_high:
            return "the line's voltage is too high";
        case Reason::line_frequency_off:
            return "the line's frequency is out of bounds";
        case Reason::line_sagged:
            return "the line has sagged far below what it had before";
        case Reason::line_lost:
            return "it has lost track of the line";
        case Reason::no_motor:
            return "its probing pulses drew no current";
        case Reason::current_too_large:
            return "its probing pulses drew more than any motor";
        case Reason::stages_used_up:
            return "its last stage is over, and it sees no rotor that is up";
        case Reason::climb_too_long:
            return "the whole climb has taken too long";
        case Reason::start_capacitor_limit:
            return "the start capacitor has been in for as long as it may";
        case Reason::not_up_on_full_line:
            return "on the full line the current does not come down";
        case Reason::stalled:
            return "the current has gone up and stays there";
        case Reason::current_lost:
            return "the current is gone: the motor is no longer fed";
        case Reason::rest_not_over:
            return "the rest after the last try is not over";
        case Reason::tries_used_up:
            return "it has failed as often in a row as it may";
        case Reason::settings_refused:
            return "its settings contradict each other";
        case Reason::sensor_off_zero:
            return "a sensor reads what cannot be there";
        case Reason::saving_to_memory:
            return "it tells its memory first";
        case Reason::output_conducts:
            return "current flows both ways that it did not order";
        case Reason::thyristor_shorted:
            return "current flows one way that it did not order";
        case Reason::start_capacitor_stuck_in:
            return "the start capacitor carries current though its contact should be open";
        case Reason::start_capacitor_absent:
            return "the start capacitor carries no current though its contact is closed";
        case Reason::run_capacitor_open:
            return "S has no voltage until the start capacitor is in: the run capacitor is open";
        case Reason::run_capacitor_shorted:
            return "the whole line voltage stands at S: the run capacitor is shorted";
        case Reason::start_terminal_dead:
            return "S has no voltage at all";
        case Reason::windings_swapped:
            return "the winding at R has more impedance than the one at S: they are exchanged";
        case Reason::half_waves_unequal:
            return "one half wave carries more than the other";
        case Reason::current_beyond_order:
            return "more current flows than the firing angle lets through";
    }
    return "";
}

}  // namespace sim
