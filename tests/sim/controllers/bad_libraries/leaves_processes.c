/* Starts a process of its own that would go on for ever, and tells its number in the status. */
#include <unistd.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    static int child = 0;
    if (tick == 1U) {
        child = fork();
        while (child == 0) {
            pause();
        }
    }
    outputs->status = (uint16_t)child;
}
