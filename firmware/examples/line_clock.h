/* Where the line stands in its half cycle, from one sample per tick, and the gate window that
 * belongs to a firing angle. Shared by the examples.
 *
 * Times are microseconds since power-up; they wrap after 71 minutes, which differences survive. */
#ifndef EXAMPLE_LINE_CLOCK_H
#define EXAMPLE_LINE_CLOCK_H

#include "firmware/contract/controller_abi.h"

struct line_clock {
    uint32_t now_us; /* of the samples last taken */
    uint32_t zero_us;
    uint32_t half_cycle_us; /* 0 until two zeros have been seen */
    int32_t last_counts;
    uint32_t good_half_cycles; /* in a row */
};

/* 42 to 62 Hz, with the jitter of a weak supply. */
#define SHORTEST_HALF_CYCLE_US 8000U
#define LONGEST_HALF_CYCLE_US 12000U

/* Call it once per tick. Returns 1 in the tick that sees a zero of the line voltage. */
static inline int line_clock_tick(struct line_clock* line, uint16_t line_voltage_counts) {
    const int32_t counts = (int32_t)line_voltage_counts - RUNUP_ADC_MIDPOINT;
    const int32_t before = line->last_counts;
    line->now_us += RUNUP_TICK_US;
    line->last_counts = counts;
    const uint32_t since_us = line->now_us - line->zero_us;
    const int crossed = (before < 0 && counts >= 0) || (before > 0 && counts <= 0);
    if (!crossed || (line->half_cycle_us != 0U && since_us < SHORTEST_HALF_CYCLE_US / 2U)) {
        if (since_us > LONGEST_HALF_CYCLE_US) {
            line->good_half_cycles = 0U; /* the line is gone */
        }
        return 0;
    }
    /* Between the two samples the voltage is nearly a straight line. */
    const int32_t back_us = RUNUP_TICK_US * counts / (counts - before);
    const uint32_t zero_us = line->now_us - (uint32_t)back_us;
    const uint32_t length_us = zero_us - line->zero_us;
    const int good = length_us >= SHORTEST_HALF_CYCLE_US && length_us <= LONGEST_HALF_CYCLE_US;
    line->good_half_cycles = good ? line->good_half_cycles + 1U : 0U;
    line->half_cycle_us = length_us;
    line->zero_us = zero_us;
    return 1;
}

/* Gates from `angle_deg` behind the zero to just before the next one. One long pulse, because the
 * motor's current lags: while the last half wave still flows, a short pulse would find its
 * thyristor reverse biased and be lost. What is answered now happens in the next tick. */
static inline void gate_from_angle(const struct line_clock* line, uint32_t angle_deg,
                                   struct runup_actuator_frame* outputs) {
    const int32_t tick_begins_us = (int32_t)(line->now_us + RUNUP_TICK_US - line->zero_us);
    int32_t on_us = (int32_t)(angle_deg * line->half_cycle_us / 180U) - tick_begins_us;
    int32_t off_us = (int32_t)(175U * line->half_cycle_us / 180U) - tick_begins_us;
    on_us = on_us < 0 ? 0 : on_us;
    off_us = off_us > RUNUP_TICK_US ? RUNUP_TICK_US : off_us;
    if (on_us < off_us) {
        outputs->gate_on_us = (uint16_t)on_us;
        outputs->gate_off_us = (uint16_t)off_us;
    }
}

static inline void gate_always(struct runup_actuator_frame* outputs) {
    outputs->gate_on_us = 0U;
    outputs->gate_off_us = RUNUP_TICK_US;
}

#endif
