/* Hopes to find after a power cut what it kept in a variable: tells in its status how often it was
 * created. */
#define ANOTHER_CREATE
#include "ordinary.h"
static uint16_t created = 0U;
struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    (void)at;
    (void)refusal;
    ++created;
    return &the_controller;
}
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)tick;
    outputs->status = created;
}
