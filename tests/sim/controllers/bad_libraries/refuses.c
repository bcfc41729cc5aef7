/* Accepts no options but "good". */
#include <string.h>
#define ANOTHER_CREATE
#include "ordinary.h"
NOTHING_ELSE
struct runup_controller* runup_create(const struct runup_power_up* at,
                                      char refusal[RUNUP_REFUSAL_BYTES]) {
    if (strcmp(at->options, "good") == 0) {
        return &the_controller;
    }
    strcpy(refusal, "only good options are accepted");
    return 0;
}
