/* Crashes as power comes. */
#include <stdlib.h>
#define ANOTHER_CREATE
#include "ordinary.h"
NOTHING_ELSE
struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    (void)at;
    (void)refusal;
    abort();
}
