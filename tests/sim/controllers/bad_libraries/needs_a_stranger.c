/* Calls a function that nobody has. */
#include "ordinary.h"
void a_function_that_nobody_has(void);
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    if (tick == BAD_TICK) {
        a_function_that_nobody_has();
    }
}
