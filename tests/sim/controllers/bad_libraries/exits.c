/* Ends what it takes for its program. */
#include <stdlib.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    if (tick == BAD_TICK) {
        exit(3);
    }
}
