/* Writes to a field that is not its own. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->reserved = tick >= BAD_TICK ? 1U : 0U;
}
