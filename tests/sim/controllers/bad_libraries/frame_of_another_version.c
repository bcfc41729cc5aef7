/* Answers with a frame of another version. */
#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->version = tick >= BAD_TICK ? 2U : RUNUP_FRAME_VERSION;
}
