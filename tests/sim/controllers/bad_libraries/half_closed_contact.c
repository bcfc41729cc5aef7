/* A coil is on or off. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->bypass_contact = tick >= BAD_TICK ? 2U : 0U;
}
