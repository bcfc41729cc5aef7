/* A ramp that holds the current through its output at a target, tells from the voltage at S when
 * the rotor is up, gives up after a while, and rests before it tries again. Options (both or one, a
 * comma between them): target_A=18, longest_ms=2500.
 *
 * The idea: a standing rotor draws about the same whatever the time, so a regulator opens the
 * thyristors until the target flows, and opens them further as the rotor comes up and draws less.
 * The auxiliary winding works as a generator beside it: the faster the rotor, the higher the
 * voltage at S, which potential relays in the trade go by, too.
 *
 * It keeps its rest in memory that power takes away, and it does not look at the line's voltage, at
 * whether S can be believed, or at current that it has not asked for: see README.md for what
 * becomes of that.
 *
 * Numbers without a source are engineering judgement, tried on the cold room beside this file. */
#include "firmware/contract/controller_abi.h"
#include "firmware/examples/line_clock.h"

#define GOOD_HALF_CYCLES_TO_BEGIN 10U
#define SETTLE_TICKS 500U
#define FIRST_ANGLE_DEG 130
#define LOWEST_ANGLE_DEG 10
#define UP_PERCENT 180    /* of the rated voltage at S: a rotor that is up */
#define UP_HALF_CYCLES 4U /* ... for so many half cycles in a row */
#define FULL_TICKS 1500U  /* without the start capacitor, before the bypass */
#define REST_TICKS                                                                 \
    (180U * RUNUP_TICKS_PER_SECOND) /* common practice: minutes, for the pressures \
                                     */

enum phase { WAITING, CONTACTOR, CLIMBING, FULL, BYPASSED, RESTING };

struct runup_controller {
    struct line_clock line;
    enum phase phase;
    uint32_t ticks; /* in this phase */
    uint32_t rested_ticks;
    int32_t angle_tenths_deg;
    uint32_t up_half_cycles;
    /* Squares of counts over this half cycle, and how many. */
    uint64_t current_squares;
    uint64_t start_terminal_squares;
    uint32_t samples;
    /* RMS of the last half cycle. */
    int32_t current_mA;
    int32_t start_terminal_mV;
    int32_t target_mA;
    int32_t up_mV;
    uint32_t longest_ticks;
};

static struct runup_controller the_controller;

uint32_t runup_abi_version(void) {
    return RUNUP_ABI_VERSION;
}

static int begins_with(const char** text, const char* word) {
    const char* at = *text;
    for (; *word != '\0'; ++word, ++at) {
        if (*at != *word) {
            return 0;
        }
    }
    *text = at;
    return 1;
}

/* 0 if there is no number, or one beyond `highest`. */
static uint32_t number(const char** text, uint32_t highest) {
    uint32_t value = 0U;
    for (; **text >= '0' && **text <= '9' && value <= highest; ++*text) {
        value = 10U * value + (uint32_t)(**text - '0');
    }
    return value <= highest ? value : 0U;
}

/* Returns 1 if it understood all of them. */
static int read_options(struct runup_controller* self, const char* text) {
    while (*text != '\0') {
        uint32_t value = 0U;
        if (begins_with(&text, "target_A=")) {
            value = number(&text, 200U);
            self->target_mA = (int32_t)value * 1000;
        } else if (begins_with(&text, "longest_ms=")) {
            value = number(&text, 10000U);
            self->longest_ticks = value * RUNUP_TICKS_PER_SECOND / 1000U;
        }
        if (value == 0U || (*text != '\0' && *text++ != ',')) {
            return 0;
        }
    }
    return 1;
}

struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    struct runup_controller* self = &the_controller;
    self->target_mA = 18000;
    self->longest_ticks = 25000U;
    self->up_mV = at->rated_voltage_V * 10 * UP_PERCENT;
    self->rested_ticks = REST_TICKS; /* a guess: nobody knows how long the power was away */
    if (!read_options(self, at->options)) {
        const char* words = "options are target_A=1 to 200 and longest_ms=1 to 10000";
        for (uint32_t k = 0U; words[k] != '\0'; ++k) {
            refusal[k] = words[k];
        }
        return 0;
    }
    return self;
}

void runup_destroy(struct runup_controller* self) {
    (void)self;
}

static void enter(struct runup_controller* self, enum phase phase) {
    self->phase = phase;
    self->ticks = 0U;
}

static uint32_t square_root(uint64_t value) {
    uint64_t root = 0U;
    for (uint64_t bit = (uint64_t)1U << 30U; bit != 0U; bit >>= 1U) {
        const uint64_t tried = root | bit;
        root = tried * tried <= value ? tried : root;
    }
    return (uint32_t)root;
}

/* `squares` of `samples` readings in counts. */
static int32_t rms_counts(uint64_t squares, uint32_t samples) {
    return samples != 0U ? (int32_t)square_root(squares / samples) : 0;
}

static void sample(struct runup_controller* self, const struct runup_sensor_frame* samples) {
    const int32_t current = (int32_t)samples->output_current_counts - RUNUP_ADC_MIDPOINT;
    const int32_t at_s = (int32_t)samples->start_terminal_voltage_counts - RUNUP_ADC_MIDPOINT;
    self->current_squares += (uint64_t)(current * current);
    self->start_terminal_squares += (uint64_t)(at_s * at_s);
    ++self->samples;
}

/* The half cycle ends now. */
static void take_readings(struct runup_controller* self) {
    self->current_mA =
        rms_counts(self->current_squares, self->samples) * RUNUP_OUTPUT_CURRENT_MA_PER_COUNT;
    self->start_terminal_mV = rms_counts(self->start_terminal_squares, self->samples) *
                              RUNUP_START_TERMINAL_VOLTAGE_MV_PER_COUNT;
    self->current_squares = 0U;
    self->start_terminal_squares = 0U;
    self->samples = 0U;
}

/* Once per half cycle: a tenth of a degree for every 100 mA that is missing, 4 degrees at most. */
static void regulate(struct runup_controller* self) {
    int32_t step = (self->target_mA - self->current_mA) / 100;
    step = step > 40 ? 40 : step < -40 ? -40 : step;
    const int32_t angle = self->angle_tenths_deg - step;
    const int32_t lowest = 10 * LOWEST_ANGLE_DEG;
    const int32_t highest = 10 * FIRST_ANGLE_DEG;
    self->angle_tenths_deg = angle < lowest ? lowest : angle > highest ? highest : angle;
    self->up_half_cycles = self->start_terminal_mV >= self->up_mV ? self->up_half_cycles + 1U : 0U;
}

static void move_on(struct runup_controller* self, int half_cycle_ends) {
    ++self->ticks;
    switch (self->phase) {
        case WAITING:
            if (self->line.good_half_cycles >= GOOD_HALF_CYCLES_TO_BEGIN &&
                self->rested_ticks >= REST_TICKS) {
                self->angle_tenths_deg = 10 * FIRST_ANGLE_DEG;
                self->up_half_cycles = 0U;
                enter(self, CONTACTOR);
            }
            break;
        case CONTACTOR:
            if (self->ticks >= SETTLE_TICKS) {
                enter(self, CLIMBING);
            }
            break;
        case CLIMBING:
            if (half_cycle_ends) {
                regulate(self);
            }
            if (self->up_half_cycles >= UP_HALF_CYCLES) {
                enter(self, FULL);
            } else if (self->ticks >= self->longest_ticks) {
                enter(self, RESTING);
            }
            break;
        case FULL:
            if (self->ticks >= FULL_TICKS) {
                enter(self, BYPASSED);
            }
            break;
        case BYPASSED:
            break;
        case RESTING:
            if (self->rested_ticks >= REST_TICKS) {
                enter(self, WAITING);
            }
            break;
    }
}

static void drive(struct runup_controller* self, struct runup_actuator_frame* outputs) {
    if (self->phase == WAITING || self->phase == RESTING) {
        return; /* the frame comes with everything off */
    }
    outputs->contactor_permit = 1U;
    if (self->phase == CLIMBING) {
        outputs->start_capacitor_contact = 1U;
        gate_from_angle(&self->line, (uint32_t)self->angle_tenths_deg / 10U, outputs);
    } else if (self->phase == FULL) {
        gate_always(outputs);
    } else if (self->phase == BYPASSED) {
        outputs->bypass_contact = 1U;
    }
}

void runup_tick(struct runup_controller* self, const struct runup_sensor_frame* samples,
                struct runup_actuator_frame* outputs, struct runup_store_command* store) {
    (void)store; /* where the rest would have to be kept */
    sample(self, samples);
    const int half_cycle_ends = line_clock_tick(&self->line, samples->line_voltage_counts);
    if (half_cycle_ends) {
        take_readings(self);
    }
    if (samples->call_for_cooling == 0U) {
        enter(self, WAITING);
    } else {
        move_on(self, half_cycle_ends);
    }
    drive(self, outputs);
    const int fed = outputs->contactor_permit != 0U;
    self->rested_ticks = fed                               ? 0U
                         : self->rested_ticks < REST_TICKS ? self->rested_ticks + 1U
                                                           : REST_TICKS;
}

/* At rest nobody calls runup_tick for hours. */
void runup_sleep(struct runup_controller* self, uint32_t ticks) {
    const uint32_t missing = REST_TICKS - self->rested_ticks;
    self->rested_ticks += ticks < missing ? ticks : missing;
    self->line.good_half_cycles = 0U;
}

static const char* const names[] = {"phase", "angle_tenths_deg", "current_mA", "start_terminal_mV",
                                    "rested_ticks"};

const char* runup_variable_name(uint32_t variable) {
    return variable < sizeof names / sizeof names[0] ? names[variable] : 0;
}

int64_t runup_variable(const struct runup_controller* self, uint32_t variable) {
    const int64_t values[] = {self->phase, self->angle_tenths_deg, self->current_mA,
                              self->start_terminal_mV, self->rested_ticks};
    return variable < sizeof values / sizeof values[0] ? values[variable] : 0;
}
