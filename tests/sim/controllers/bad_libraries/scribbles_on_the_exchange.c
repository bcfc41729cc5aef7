/* Writes over the memory shared with the bench, and goes on. */
#include <stdio.h>
#include <string.h>

#include "ordinary.h"
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    char line[512];
    FILE* maps = tick == BAD_TICK ? fopen("/proc/self/maps", "r") : 0;
    while (maps != 0 && fgets(line, sizeof line, maps) != 0) {
        unsigned long from = 0;
        unsigned long to = 0;
        if (sscanf(line, "%lx-%lx", &from, &to) == 2 && strstr(line, "controller exchange") != 0) {
            memset((void*)from, 0xA5, to - from);
        }
    }
}
