// Where a start stands: the sequence and its parts.
#include "firmware/controller.hpp"
#include "firmware/watch/watched_number.hpp"

namespace firmware {

WatchedPart Watch::sequence() {
    static constexpr WatchedVariable list[] = {
        {"sequence.state", "number of the state (firmware/sequence/state.hpp)",
         [](const Controller& c) { return number(c.sequence_.state_); }},
        {"sequence.reason", "number of the reason for it",
         [](const Controller& c) { return number(c.sequence_.reason_); }},
        {"sequence.contactor_permit", "1: the call may reach the line contactor",
         [](const Controller& c) { return number(c.sequence_.orders_.contactor_permit); }},
        {"sequence.start_capacitor", "1: the start capacitor is ordered in",
         [](const Controller& c) { return number(c.sequence_.orders_.start_capacitor); }},
        {"sequence.bypass", "1: the bypass is ordered in",
         [](const Controller& c) { return number(c.sequence_.orders_.bypass); }},
        {"sequence.gated", "1: half cycles are fired",
         [](const Controller& c) { return number(c.sequence_.orders_.gated); }},
        {"sequence.firing_angle_mdeg", "ordered; meaningful while gated",
         [](const Controller& c) { return number(c.sequence_.orders_.firing_angle); }},
        {"sequence.firing", "the same; half a turn is 2^31",
         [](const Controller& c) { return number(c.sequence_.orders_.firing); }},
        {"sequence.start_capacitor_in_ticks", "since the start capacitor was ordered in",
         [](const Controller& c) { return number(c.sequence_.start_capacitor_in_); }},
        {"sequence.running_ticks", "since the bypass took over",
         [](const Controller& c) { return number(c.sequence_.running_); }},
        {"sequence.since_fed_ticks", "since the motor was last let go",
         [](const Controller& c) { return number(c.sequence_.rest_and_tries_.since_fed_); }},
        {"sequence.call_away_ticks", "since the call went away",
         [](const Controller& c) { return number(c.sequence_.rest_and_tries_.call_away_); }},
        {"sequence.tries_made", "starts since the last one that succeeded",
         [](const Controller& c) { return number(c.sequence_.rest_and_tries_.tries_made_); }},
        {"sequence.rest_owed", "1: the motor has been fed, and its rest is not known to be over",
         [](const Controller& c) { return number(c.sequence_.rest_and_tries_.rest_owed_); }},
        {"sequence.sagged_below_mV", "line voltage that counts as a sag of this start",
         [](const Controller& c) { return number(c.sequence_.line_watch_.sagged_below_); }},
        {"sequence.lifted_above_mV", "line voltage that the start capacitor must have lifted",
         [](const Controller& c) { return number(c.sequence_.line_watch_.lifted_above_); }},
        {"sequence.line_faulty_half_cycles", "in a row with a fault of the line",
         [](const Controller& c) { return number(c.sequence_.line_watch_.faulty_half_cycles_); }},
    };
    return part_of(list);
}

WatchedPart Watch::probing() {
    static constexpr WatchedVariable list[] = {
        {"probing.step", "0 contactor travels, 1 dark look, 2 pulses, 3 start capacitor alone",
         [](const Controller& c) { return number(c.sequence_.probing_.step_); }},
        {"probing.ticks", "since the step began",
         [](const Controller& c) { return number(c.sequence_.probing_.clock_); }},
        {"probing.half_cycles", "fired, or looked at",
         [](const Controller& c) { return number(c.sequence_.probing_.half_cycles_); }},
        {"probing.half_cycles_to_wait", "before the next look",
         [](const Controller& c) { return number(c.sequence_.probing_.half_cycles_to_wait_); }},
        {"probing.looked_again", "1 when a finding has been looked at twice",
         [](const Controller& c) { return number(c.sequence_.probing_.looked_again_); }},
        {"probing.locked_rotor_mA", "estimate of the current at full conduction",
         [](const Controller& c) { return number(c.sequence_.probing_.locked_rotor_); }},
        {"probing.dead_without_start_capacitor", "1: no voltage at S during the pulses",
         [](const Controller& c) {
             return number(c.sequence_.probing_.inspection_.dead_without_start_capacitor_);
         }},
        {"probing.start_capacitor_absent", "1: its contact closed and no current flowed",
         [](const Controller& c) {
             return number(c.sequence_.probing_.inspection_.start_capacitor_absent_);
         }},
        {"probing.start_terminal_alive", "1: the voltage at S was there",
         [](const Controller& c) {
             return number(c.sequence_.probing_.inspection_.start_terminal_alive_);
         }},
    };
    return part_of(list);
}

WatchedPart Watch::climbing() {
    static constexpr WatchedVariable list[] = {
        {"climbing.stage", "of the ladder, from 0",
         [](const Controller& c) { return number(c.sequence_.climbing_.stage_); }},
        {"climbing.ticks", "since the climb began",
         [](const Controller& c) { return number(c.sequence_.climbing_.clock_); }},
        {"climbing.ticks_in_stage", "since the stage began",
         [](const Controller& c) { return number(c.sequence_.climbing_.stage_clock_); }},
        {"climbing.law_stage", "the ladder's own count",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.law_.stage_ladder_.stage_);
         }},
        {"climbing.first_target_permille",
         "target of the first stage in use, of the locked-rotor current",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.law_.stage_ladder_.ladder_.stages[0].target);
         }},
        {"climbing.first_dwell_ticks", "dwell of the first stage in use",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.law_.stage_ladder_.ladder_.stages[0].dwell);
         }},
    };
    return part_of(list);
}

WatchedPart Watch::run_up() {
    static constexpr WatchedVariable list[] = {
        {"run_up.rise_permille", "voltage at S over its standstill value",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.rise_); }},
        {"run_up.rise_ahead_permille", "the same by the time that the start capacitor can be out",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.rise_ahead_); }},
        {"run_up.turning", "1: the rotor surely moves",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.turning_); }},
        {"run_up.accelerating", "1: it gains speed",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.accelerating_); }},
        {"run_up.settled_half_cycles", "in a row without a gain",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.run_up_.settled_half_cycles_);
         }},
        {"run_up.current_has_fallen", "1: below its value early in the stage",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.run_up_.current_has_fallen_);
         }},
        {"run_up.standstill_level",
         "voltage at S of a standing rotor, in ten-thousandths of the line; 0: not known",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.run_up_.standstill_level_);
         }},
        {"run_up.stage_current", "output current per line voltage early in the stage",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.stage_current_); }},
        {"run_up.observed_half_cycles", "since the start capacitor went in",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.observed_); }},
        {"run_up.observed_in_stage_half_cycles", "since the stage began",
         [](const Controller& c) {
             return number(c.sequence_.climbing_.run_up_.observed_in_stage_);
         }},
        {"run_up.newest", "place of the newest entry in both rings",
         [](const Controller& c) { return number(c.sequence_.climbing_.run_up_.newest_); }},
        {"run_up.level", "newest voltage at S, in ten-thousandths of the line",
         [](const Controller& c) {
             return number(
                 c.sequence_.climbing_.run_up_.levels_[c.sequence_.climbing_.run_up_.newest_]);
         }},
        {"run_up.current", "newest output current per line voltage",
         [](const Controller& c) {
             return number(
                 c.sequence_.climbing_.run_up_.currents_[c.sequence_.climbing_.run_up_.newest_]);
         }},
    };
    return part_of(list);
}

WatchedPart Watch::hand_over() {
    static constexpr WatchedVariable list[] = {
        {"hand_over.step", "0 start capacitor opens, 1 sweeping, 2 confirming, 3 bypass closes",
         [](const Controller& c) { return number(c.sequence_.hand_over_.step_); }},
        {"hand_over.ticks", "since the step began",
         [](const Controller& c) { return number(c.sequence_.hand_over_.clock_); }},
        {"hand_over.since_coil_off_ticks", "of the start capacitor",
         [](const Controller& c) { return number(c.sequence_.hand_over_.since_coil_off_); }},
        {"hand_over.since_up_ticks", "since a half cycle that looked up",
         [](const Controller& c) { return number(c.sequence_.hand_over_.since_up_); }},
        {"hand_over.since_full_conduction_ticks", "since the sweep ended",
         [](const Controller& c) { return number(c.sequence_.hand_over_.since_full_conduction_); }},
        {"hand_over.swept_from_mdeg", "firing angle at which the sweep began",
         [](const Controller& c) { return number(c.sequence_.hand_over_.swept_from_); }},
        {"hand_over.half_cycles", "swept, or confirmed in a row",
         [](const Controller& c) { return number(c.sequence_.hand_over_.half_cycles_); }},
        {"hand_over.lowest_level",
         "of the voltage at S, in ten-thousandths of the line, over those confirmed",
         [](const Controller& c) { return number(c.sequence_.hand_over_.lowest_level_); }},
        {"hand_over.highest_level", "the same",
         [](const Controller& c) { return number(c.sequence_.hand_over_.highest_level_); }},
        {"hand_over.current_limit_mA", "largest RMS of a motor at speed",
         [](const Controller& c) { return number(c.sequence_.hand_over_.current_limit_); }},
        {"hand_over.peak_limit_mA", "largest sample of a motor at speed",
         [](const Controller& c) { return number(c.sequence_.hand_over_.peak_limit_); }},
        {"hand_over.line_at_order_mV", "line voltage when the bypass was ordered in",
         [](const Controller& c) { return number(c.sequence_.hand_over_.line_at_order_); }},
        {"hand_over.start_capacitor_in_half_cycles", "in a row with a voltage at S beyond any run",
         [](const Controller& c) {
             return number(c.sequence_.hand_over_.start_capacitor_in_.clock_);
         }},
    };
    return part_of(list);
}

}  // namespace firmware
