/* Says on standard error that it hangs from now on, and does. */
#include <unistd.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    volatile uint32_t turns = 0U;
    if (tick == BAD_TICK && write(2, "hanging\n", 8) == 8) {
        for (;;) {
            ++turns;
        }
    }
}
