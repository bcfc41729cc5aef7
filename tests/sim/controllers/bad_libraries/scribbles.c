/* Writes over all that it can write to, the memory shared with the bench first. */
#include <stdio.h>
#include <string.h>

#include "ordinary.h"
static void fill(const char* only) {
    char line[512];
    FILE* maps = fopen("/proc/self/maps", "r");
    while (maps != 0 && fgets(line, sizeof line, maps) != 0) {
        unsigned long from = 0;
        unsigned long to = 0;
        char rights[8] = "";
        if (sscanf(line, "%lx-%lx %7s", &from, &to, rights) == 3 && rights[1] == 'w' &&
            strstr(line, only) != 0) {
            /* Some programs reserve terabytes. */
            const unsigned long most = 1UL << 24;
            memset((void*)from, 0xA5, to - from < most ? to - from : most);
        }
    }
}
static void misbehave(uint32_t tick, struct runup_actuator_frame* outputs) {
    (void)outputs;
    if (tick == BAD_TICK) {
        fill("controller exchange");
        fill("");
    }
}
