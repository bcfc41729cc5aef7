/* Built for an interface that does not exist yet. */
#define ANOTHER_VERSION
#include "ordinary.h"
NOTHING_ELSE
uint32_t runup_abi_version(void) {
    return 7U;
}
