/* Never answers. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    volatile uint32_t turns = 0U;
    while (tick >= BAD_TICK) {
        ++turns;
    }
}
