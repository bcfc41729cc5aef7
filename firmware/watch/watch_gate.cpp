// The gate timer, and the list of all parts.
#include "firmware/controller.hpp"
#include "firmware/watch/watched_number.hpp"

namespace firmware {

WatchedPart Watch::gate() {
    static constexpr WatchedVariable list[] = {
        {"gate.half_cycle", "0 armed, 1 on, 2 done",
         [](const Controller& c) { return number(c.gate_timer_.half_cycle_); }},
        {"gate.second_half", "1 in the half cycle that begins with the falling zero",
         [](const Controller& c) { return number(c.gate_timer_.second_half_); }},
    };
    return part_of(list);
}

WatchedPart Watch::part(std::size_t index) {
    // Asked for all of them rather than through a pointer (RULES.md): it costs nothing here.
    const WatchedPart parts[part_count] = {line(),    meters(),   seen(),   sequence(),
                                           probing(), climbing(), run_up(), hand_over(),
                                           guards(),  learning(), memory(), gate()};
    return index < part_count ? parts[index] : WatchedPart{};
}

}  // namespace firmware
