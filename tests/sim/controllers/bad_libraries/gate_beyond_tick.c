/* A gate pulse that ends after its tick. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->gate_off_us = tick >= BAD_TICK ? 250U : 0U;
}
