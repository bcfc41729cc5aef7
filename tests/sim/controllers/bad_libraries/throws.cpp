// Throws through a boundary that is plain C.
#include <stdexcept>

extern "C" {
#include "ordinary.h"
}

static void misbehave(uint32_t tick, struct runup_actuator_frame* /*outputs*/) {
    if (tick == BAD_TICK) {
        throw std::runtime_error("no such register");
    }
}
