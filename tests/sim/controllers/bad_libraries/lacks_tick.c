/* Lacks a function that it must have. */
#define WITHOUT_TICK
#include "firmware/contract/controller_abi.h"
uint32_t runup_abi_version(void) {
    return RUNUP_ABI_VERSION;
}
struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    (void)at;
    (void)refusal;
    return 0;
}
void runup_destroy(struct runup_controller* self) {
    (void)self;
}
