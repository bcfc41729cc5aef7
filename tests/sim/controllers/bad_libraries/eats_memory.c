/* Takes memory until there is none, and uses what it did not get. */
#include <stdlib.h>
#include <string.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    while (tick >= BAD_TICK) {
        const size_t bytes = (size_t)1 << 28;
        volatile char* taken = malloc(bytes);
        taken[bytes - 1] = 1;
    }
}
