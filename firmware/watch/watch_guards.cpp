// What watches the motor while it is fed, and how near it is to letting go.
#include "firmware/controller.hpp"
#include "firmware/watch/watched_number.hpp"

namespace firmware {

WatchedPart Watch::guards() {
    static constexpr WatchedVariable list[] = {
        {"guards.locked_rotor_mA", "estimate that the limits of this start are shares of",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.locked_rotor_); }},
        {"guards.start_terminal_alive", "1: a voltage at S is expected",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.start_terminal_alive_); }},
        {"guards.difference_share_permille",
         "of both half waves, beyond which they count as unequal",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.difference_share_); }},
        {"guards.lost_half_cycles", "in a row without current",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.lost_.clock_); }},
        {"guards.dead_half_cycles", "in a row without a voltage at S",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.dead_.clock_); }},
        {"guards.unequal_half_cycles", "in a row with unequal half waves",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.unequal_.clock_); }},
        {"guards.beyond_order_half_cycles", "in a row with more current than ordered",
         [](const Controller& c) { return number(c.sequence_.fed_watch_.beyond_order_.clock_); }},
        {"guards.stall_current_mA", "running: limit of a stall",
         [](const Controller& c) { return number(c.sequence_.stall_.stall_current_); }},
        {"guards.up_to_speed_current_mA", "running: limit of a motor at speed",
         [](const Controller& c) { return number(c.sequence_.stall_.up_to_speed_current_); }},
        {"guards.lost_current_mA", "running: limit of a motor that is not fed",
         [](const Controller& c) { return number(c.sequence_.stall_.lost_current_); }},
        {"guards.too_much_ticks", "running: in a row above the stall current",
         [](const Controller& c) { return number(c.sequence_.stall_.too_much_.clock_); }},
        {"guards.too_little_ticks", "running: in a row without current",
         [](const Controller& c) { return number(c.sequence_.stall_.too_little_.clock_); }},
        {"guards.pulled_out_ticks", "running: in a row not at speed",
         [](const Controller& c) { return number(c.sequence_.stall_.pulled_out_.clock_); }},
        {"guards.slow_ticks", "running: in a row with the voltage at S of a slow rotor",
         [](const Controller& c) { return number(c.sequence_.stall_.slow_.clock_); }},
        {"guards.start_capacitor_in_ticks", "running: in a row with a voltage at S beyond any run",
         [](const Controller& c) { return number(c.sequence_.stall_.start_capacitor_in_.clock_); }},
    };
    return part_of(list);
}

}  // namespace firmware
