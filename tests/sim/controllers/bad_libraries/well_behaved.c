/* Nothing is wrong with it. */
#include "ordinary.h"
NOTHING_ELSE
