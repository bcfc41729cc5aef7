/* Waits for something that never comes. */
#include <unistd.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    while (tick >= BAD_TICK) {
        pause();
    }
}
