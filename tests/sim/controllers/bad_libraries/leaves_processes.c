/* Starts a process of its own that would go on for ever, and tells its number as a variable. */
#include <unistd.h>

#include "ordinary.h"
static int child = 0;
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    if (tick == 1U) {
        child = fork();
        while (child == 0) {
            pause();
        }
    }
}
const char* runup_variable_name(uint32_t variable) {
    return variable == 0U ? "child" : 0;
}
int64_t runup_variable(const struct runup_controller* self, uint32_t variable) {
    (void)self;
    return variable == 0U ? child : 0;
}
