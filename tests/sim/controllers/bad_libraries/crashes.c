/* Reads where nothing is. */
#include "ordinary.h"
static volatile int* volatile nowhere = 0;
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    if (tick == BAD_TICK) {
        outputs->status = (uint16_t)*nowhere;
    }
}
