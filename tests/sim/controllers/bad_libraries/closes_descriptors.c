/* Closes everything that it can find. */
#include <unistd.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    for (int k = 0; tick == BAD_TICK && k < 1024; ++k) {
        close(k);
    }
}
