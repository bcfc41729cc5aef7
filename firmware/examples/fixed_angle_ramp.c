/* A ramp that knows nothing but the time: firing angles in a row, each for so long, then the full
 * line, then the bypass. About the least that starts a motor. What it does not look at (the
 * current, S, the voltage, how the last start ended) is what it fails by: see README.md.
 *
 * Every number below is engineering judgement, tried on the cold room beside this file. */
#include "firmware/contract/controller_abi.h"
#include "firmware/examples/line_clock.h"

#define GOOD_HALF_CYCLES_TO_BEGIN 10U /* 0.1 s of a line with a proper rhythm */
#define SETTLE_TICKS 500U             /* 50 ms for the contactor to close */
#define STEP_TICKS 2500U              /* 0.25 s per angle */
#define FULL_TICKS 1500U              /* 0.15 s of full conduction before the bypass */

static const uint32_t angles_deg[] = {115U, 100U, 85U, 70U};
#define STEPS (sizeof angles_deg / sizeof angles_deg[0])

struct runup_controller {
    struct line_clock line;
    uint32_t begun; /* 1 from the first tick with the contactor permitted */
    uint32_t ticks; /* since then */
    uint32_t angle_deg;
};

/* One controller per process is all that the bench asks for, so none has to be allocated. */
static struct runup_controller the_controller;

uint32_t runup_abi_version(void) {
    return RUNUP_ABI_VERSION;
}

struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    (void)at;
    (void)refusal;
    return &the_controller;
}

void runup_destroy(struct runup_controller* controller) {
    (void)controller;
}

/* `ticks` of the ramp have passed. */
static void ramp(struct runup_controller* self, struct runup_actuator_frame* outputs) {
    const uint32_t ticks = self->ticks;
    outputs->contactor_permit = 1U;
    self->angle_deg = 180U;
    if (ticks < SETTLE_TICKS) {
        return;
    }
    const uint32_t step = (ticks - SETTLE_TICKS) / STEP_TICKS;
    if (step < STEPS) {
        outputs->start_capacitor_contact = 1U;
        self->angle_deg = angles_deg[step];
        gate_from_angle(&self->line, self->angle_deg, outputs);
        return;
    }
    /* By now it ought to be up. Nobody has looked. */
    self->angle_deg = 0U;
    if (ticks < SETTLE_TICKS + STEPS * STEP_TICKS + FULL_TICKS) {
        gate_always(outputs);
    } else {
        outputs->bypass_contact = 1U;
    }
}

void runup_tick(struct runup_controller* self, const struct runup_sensor_frame* samples,
                struct runup_actuator_frame* outputs, struct runup_store_command* store) {
    (void)store; /* it remembers nothing */
    line_clock_tick(&self->line, samples->line_voltage_counts);
    if (samples->call_for_cooling == 0U) {
        self->begun = 0U;
        self->ticks = 0U;
        return; /* the frame comes with everything off */
    }
    if (self->begun == 0U) {
        self->begun = self->line.good_half_cycles >= GOOD_HALF_CYCLES_TO_BEGIN ? 1U : 0U;
        return;
    }
    ramp(self, outputs);
    ++self->ticks;
}

const char* runup_variable_name(uint32_t variable) {
    return variable == 0U ? "angle_deg" : 0;
}

int64_t runup_variable(const struct runup_controller* self, uint32_t variable) {
    (void)variable;
    return self->angle_deg;
}
