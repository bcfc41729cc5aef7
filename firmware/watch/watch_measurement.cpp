// What the controller measures: the line tracker, the meters, and what the sequence is told.
#include "firmware/controller.hpp"
#include "firmware/watch/watched_number.hpp"

namespace firmware {

WatchedPart Watch::line() {
    static constexpr WatchedVariable list[] = {
        {"line.locked", "1 while the line is tracked",
         [](const Controller& c) { return number(c.line_tracker_.locked_); }},
        {"line.phase", "tracked phase at the samples just taken; a full turn is 2^32",
         [](const Controller& c) { return number(c.line_tracker_.phase_); }},
        {"line.fine_step", "tracked advance per tick; a full turn is 2^40",
         [](const Controller& c) { return number(c.line_tracker_.fine_step_); }},
        {"line.half_cycle_began", "1 in the tick in which the tracked phase passed a voltage zero",
         [](const Controller& c) { return number(c.line_tracker_.half_cycle_began_); }},
        {"line.half_cycle_ends", "1 in the tick, shortly before it, in which readings are begun",
         [](const Controller& c) { return number(c.line_tracker_.half_cycle_ends_); }},
        {"line.half_cycle_ending", "1 from that tick to the zero",
         [](const Controller& c) { return number(c.line_tracker_.half_cycle_ending_); }},
        {"line.second_half", "1 in the half cycle that begins with the falling zero",
         [](const Controller& c) { return number(c.line_tracker_.second_half_); }},
        {"line.ticks_in_half_cycle", "since that zero",
         [](const Controller& c) { return number(c.line_tracker_.ticks_in_half_cycle_); }},
        {"line.ticks_to_refresh", "until the size of the line is taken anew at the latest",
         [](const Controller& c) { return number(c.line_tracker_.ticks_to_refresh_); }},
        {"line.reciprocal_size", "2^31 over the size in eighths of a count; 0: no line",
         [](const Controller& c) { return number(c.line_tracker_.reciprocal_size_); }},
        {"line.three_tenths_of_size_Q12",
         "surprise below which a sample counts as missing, in counts",
         [](const Controller& c) { return number(c.line_tracker_.three_tenths_of_size_); }},
        {"line.coast_ticks_left", "ticks for which it still runs on by itself",
         [](const Controller& c) { return number(c.line_tracker_.coast_ticks_left_); }},
        {"line.coasted_ticks", "ticks for which it has run on by itself without a break",
         [](const Controller& c) { return number(c.line_tracker_.coasted_ticks_); }},
        {"line.opposed_ticks", "of them, ticks with a sample of the wrong sign",
         [](const Controller& c) { return number(c.line_tracker_.opposed_ticks_); }},
        {"line.error_sum_Q20", "sum of the phase error over this half cycle",
         [](const Controller& c) { return number(c.line_tracker_.error_sum_); }},
        {"line.against_the_line", "1 while the tracked phase is more than a quarter turn off",
         [](const Controller& c) { return number(c.line_tracker_.against_the_line_); }},
        {"line.good_half_cycles", "in a row, towards the lock",
         [](const Controller& c) { return number(c.line_tracker_.good_half_cycles_); }},
        {"line.bad_half_cycles", "in a row, towards its loss",
         [](const Controller& c) { return number(c.line_tracker_.bad_half_cycles_); }},
        {"line.far_off_refreshes", "in a row with the vector far from the tracked phase",
         [](const Controller& c) { return number(c.line_tracker_.far_off_refreshes_); }},
        {"line.in_phase_Q12", "fundamental of the line, in counts",
         [](const Controller& c) { return number(c.line_tracker_.generator_.in_phase_); }},
        {"line.quadrature_Q12", "the same a quarter turn later",
         [](const Controller& c) { return number(c.line_tracker_.generator_.quadrature_); }},
        {"line.quadrature_ahead_Q12", "the same half a tick ahead, as it is integrated",
         [](const Controller& c) { return number(c.line_tracker_.generator_.quadrature_ahead_); }},
        {"line.offset_Q12", "offset of the line sensor, in counts",
         [](const Controller& c) { return number(c.line_tracker_.generator_.offset_); }},
    };
    return part_of(list);
}

WatchedPart Watch::meters() {
    static constexpr WatchedVariable list[] = {
        {"meters.line_now_samples", "line voltage: samples of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.line_voltage_.current_.samples); }},
        {"meters.line_now_sum", "line voltage: sum of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.line_voltage_.current_.sum); }},
        {"meters.line_now_squares", "line voltage: sum of the squares of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.line_voltage_.current_.squares); }},
        {"meters.line_before_samples", "line voltage: samples of the half cycle before",
         [](const Controller& c) { return number(c.meters_.line_voltage_.previous_.samples); }},
        {"meters.line_before_sum", "line voltage: sum of the half cycle before",
         [](const Controller& c) { return number(c.meters_.line_voltage_.previous_.sum); }},
        {"meters.line_before_squares", "line voltage: sum of the squares of the half cycle before",
         [](const Controller& c) { return number(c.meters_.line_voltage_.previous_.squares); }},
        {"meters.output_now_samples", "output current: samples of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.output_current_.current_.samples); }},
        {"meters.output_now_sum", "output current: sum of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.output_current_.current_.sum); }},
        {"meters.output_now_squares",
         "output current: sum of the squares of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.output_current_.current_.squares); }},
        {"meters.output_before_samples", "output current: samples of the half cycle before",
         [](const Controller& c) { return number(c.meters_.output_current_.previous_.samples); }},
        {"meters.output_before_sum", "output current: sum of the half cycle before",
         [](const Controller& c) { return number(c.meters_.output_current_.previous_.sum); }},
        {"meters.output_before_squares",
         "output current: sum of the squares of the half cycle before",
         [](const Controller& c) { return number(c.meters_.output_current_.previous_.squares); }},
        {"meters.start_terminal_now_samples", "voltage at S: samples of the half cycle under way",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.current_.samples);
         }},
        {"meters.start_terminal_now_sum", "voltage at S: sum of the half cycle under way",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.current_.sum);
         }},
        {"meters.start_terminal_now_squares",
         "voltage at S: sum of the squares of the half cycle under way",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.current_.squares);
         }},
        {"meters.start_terminal_before_samples", "voltage at S: samples of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.previous_.samples);
         }},
        {"meters.start_terminal_before_sum", "voltage at S: sum of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.previous_.sum);
         }},
        {"meters.start_terminal_before_squares",
         "voltage at S: sum of the squares of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.previous_.squares);
         }},
        {"meters.run_capacitor_now_samples",
         "voltage across the run capacitor: samples of the half cycle under way",
         [](const Controller& c) {
             return number(c.meters_.run_capacitor_voltage_.current_.samples);
         }},
        {"meters.run_capacitor_now_sum",
         "voltage across the run capacitor: sum of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.run_capacitor_voltage_.current_.sum); }},
        {"meters.run_capacitor_now_squares",
         "voltage across the run capacitor: sum of the squares of the half cycle under way",
         [](const Controller& c) {
             return number(c.meters_.run_capacitor_voltage_.current_.squares);
         }},
        {"meters.run_capacitor_before_samples",
         "voltage across the run capacitor: samples of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.run_capacitor_voltage_.previous_.samples);
         }},
        {"meters.run_capacitor_before_sum",
         "voltage across the run capacitor: sum of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.run_capacitor_voltage_.previous_.sum);
         }},
        {"meters.run_capacitor_before_squares",
         "voltage across the run capacitor: sum of the squares of the half cycle before",
         [](const Controller& c) {
             return number(c.meters_.run_capacitor_voltage_.previous_.squares);
         }},
        {"meters.line_mean_counts", "line voltage: mean of the last full cycle",
         [](const Controller& c) { return number(c.meters_.line_voltage_.mean_counts_); }},
        {"meters.output_mean_counts", "output current: mean of the last full cycle",
         [](const Controller& c) { return number(c.meters_.output_current_.mean_counts_); }},
        {"meters.start_terminal_mean_counts", "voltage at S: mean of the last full cycle",
         [](const Controller& c) {
             return number(c.meters_.start_terminal_voltage_.mean_counts_);
         }},
        {"meters.run_capacitor_mean_counts",
         "voltage across the run capacitor: mean of the last full cycle",
         [](const Controller& c) { return number(c.meters_.run_capacitor_voltage_.mean_counts_); }},
        {"meters.output_highest_counts", "largest output current of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.highest_current_counts_); }},
        {"meters.half_waves_now_samples", "output current: samples of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.half_waves_.current_.samples); }},
        {"meters.half_waves_now_positive",
         "output current: sum of the positive part of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.half_waves_.current_.positive); }},
        {"meters.half_waves_now_negative",
         "output current: sum of the negative part of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.half_waves_.current_.negative); }},
        {"meters.half_waves_now_leading",
         "output current: sum that tells leading from lagging of the half cycle under way",
         [](const Controller& c) { return number(c.meters_.half_waves_.current_.leading); }},
        {"meters.half_waves_before_samples", "output current: samples of the half cycle before",
         [](const Controller& c) { return number(c.meters_.half_waves_.previous_.samples); }},
        {"meters.half_waves_before_positive",
         "output current: sum of the positive part of the half cycle before",
         [](const Controller& c) { return number(c.meters_.half_waves_.previous_.positive); }},
        {"meters.half_waves_before_negative",
         "output current: sum of the negative part of the half cycle before",
         [](const Controller& c) { return number(c.meters_.half_waves_.previous_.negative); }},
        {"meters.half_waves_before_leading",
         "output current: sum that tells leading from lagging of the half cycle before",
         [](const Controller& c) { return number(c.meters_.half_waves_.previous_.leading); }},
        {"meters.next",
         "reading to be worked out next, or all to be taken (firmware/measurement/meters.hpp)",
         [](const Controller& c) { return number(c.meters_.next_); }},
    };
    return part_of(list);
}

WatchedPart Watch::seen() {
    static constexpr WatchedVariable list[] = {
        {"seen.call", "1 while there is a call",
         [](const Controller& c) { return number(c.observation_.call); }},
        {"seen.line_locked", "1 while the line is tracked",
         [](const Controller& c) { return number(c.observation_.line_locked); }},
        {"seen.readings_are_new", "1 in the tick in which readings change",
         [](const Controller& c) { return number(c.observation_.readings_are_new); }},
        {"seen.memory_holds_rest_owed", "1 when a power cut from now on leads to a rest",
         [](const Controller& c) { return number(c.observation_.memory_holds_rest_owed); }},
        {"seen.output_current_now_mA", "size of this tick's sample",
         [](const Controller& c) { return number(c.observation_.output_current_now); }},
        {"seen.line_frequency_mHz", "tracked",
         [](const Controller& c) { return number(c.observation_.line_frequency); }},
        {"seen.line_voltage_rms_mV", "L1 to C, last full cycle",
         [](const Controller& c) { return number(c.observation_.readings.line_voltage_rms); }},
        {"seen.output_current_rms_mA", "main winding and start capacitor, last full cycle",
         [](const Controller& c) { return number(c.observation_.readings.output_current_rms); }},
        {"seen.start_terminal_voltage_rms_mV", "S to C, last full cycle",
         [](const Controller& c) {
             return number(c.observation_.readings.start_terminal_voltage_rms);
         }},
        {"seen.output_current_peak_mA", "of the half cycle that has just ended",
         [](const Controller& c) { return number(c.observation_.readings.output_current_peak); }},
        {"seen.run_capacitor_voltage_rms_mV", "L1 to S, last full cycle",
         [](const Controller& c) {
             return number(c.observation_.readings.run_capacitor_voltage_rms);
         }},
        {"seen.output_current_positive_mA", "mean of the positive half wave",
         [](const Controller& c) {
             return number(c.observation_.readings.output_current.positive);
         }},
        {"seen.output_current_negative_mA", "mean of the negative half wave",
         [](const Controller& c) {
             return number(c.observation_.readings.output_current.negative);
         }},
        {"seen.output_current_leading_mA", "above 0: a capacitor's current; below: a motor's",
         [](const Controller& c) {
             return number(c.observation_.readings.output_current.leading);
         }},
        {"seen.start_terminal_level", "voltage at S, in ten-thousandths of the line's",
         [](const Controller& c) { return number(c.observation_.readings.start_terminal_level); }},
        {"seen.output_per_line_uS", "output current over line voltage",
         [](const Controller& c) { return number(c.observation_.readings.output_per_line_uS); }},
        {"seen.output_current_offset_counts", "mean of the output current's sensor",
         [](const Controller& c) {
             return number(c.observation_.readings.output_current_offset_counts);
         }},
        {"seen.start_terminal_offset_counts", "mean of the sensor at S",
         [](const Controller& c) {
             return number(c.observation_.readings.start_terminal_offset_counts);
         }},
    };
    return part_of(list);
}

}  // namespace firmware
