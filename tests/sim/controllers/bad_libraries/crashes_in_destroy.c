/* Crashes as power goes. */
#include <stdlib.h>
#define ANOTHER_DESTROY
#include "ordinary.h"
NOTHING_ELSE
void runup_destroy(struct runup_controller* self) {
    (void)self;
    abort();
}
