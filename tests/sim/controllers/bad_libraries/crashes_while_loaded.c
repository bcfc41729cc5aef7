/* Crashes before anybody has asked it for anything. */
#include <signal.h>

#include "ordinary.h"
NOTHING_ELSE
__attribute__((constructor)) static void begin(void) {
    raise(SIGSEGV);
}
