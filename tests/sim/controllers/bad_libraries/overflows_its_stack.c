/* Calls itself without end. */
#include "ordinary.h"
static uint32_t deeper(volatile uint32_t* above) {
    volatile uint32_t here[256];
    here[0] = *above + 1U;
    return deeper(here) + here[0];
}
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    if (tick == BAD_TICK) {
        volatile uint32_t first = tick;
        outputs->status = (uint16_t)deeper(&first);
    }
}
