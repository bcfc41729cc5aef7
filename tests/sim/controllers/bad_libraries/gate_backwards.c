/* A gate pulse that ends before it begins. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->gate_on_us = tick >= BAD_TICK ? 60U : 0U;
}
