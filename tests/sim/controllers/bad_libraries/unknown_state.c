/* Says that it tells its states, and tells one that does not exist. */
#include "ordinary.h"
uint32_t runup_tells_states(void) {
    return 1U;
}
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    outputs->status = tick >= BAD_TICK ? 200U : 0U;
}
