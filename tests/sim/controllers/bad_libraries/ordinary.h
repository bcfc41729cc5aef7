/* A controller that does nothing but permit the contactor while it is called. A bad library
 * includes this and gives the one function in which it differs: `misbehave`, called in every tick
 * with the number of the tick. What else it wants to replace it names in a macro before the
 * include. */
#ifndef ORDINARY_H
#define ORDINARY_H

#include "firmware/contract/controller_abi.h"

#define BAD_TICK 100U

static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs);

struct runup_controller {
    uint32_t ticks;
};
__attribute__((unused)) static struct runup_controller the_controller;

#ifndef ANOTHER_VERSION
uint32_t runup_abi_version(void) {
    return RUNUP_ABI_VERSION;
}
#endif

#ifndef ANOTHER_CREATE
struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    (void)at;
    (void)refusal;
    return &the_controller;
}
#endif

#ifndef WITHOUT_TICK
void runup_tick(struct runup_controller* self, const struct runup_sensor_frame* samples,
                struct runup_actuator_frame* outputs, struct runup_store_command* store) {
    (void)store;
    ++self->ticks;
    outputs->contactor_permit = (uint8_t)samples->call_for_cooling;
    misbehave(self->ticks, outputs);
}
#endif

#ifndef ANOTHER_DESTROY
void runup_destroy(struct runup_controller* self) {
    (void)self;
}
#endif

#define NOTHING_ELSE                                                             \
    static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) { \
        (void)tick;                                                              \
        (void)outputs;                                                           \
    }

#endif
