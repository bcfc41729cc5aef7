// Searches everything that a controller can come to, by its real code.
//
// Breadth first: from every controller that was found, each input class is applied to a copy for as
// long as nothing changes that can be told apart from outside, at most `longest_stretch`. What can
// be told apart (`Seen`) is what the controller says of itself, its orders, and in which class of
// length each time lies that a requirement speaks of. A controller that differs in that from all
// that were found before is kept, and searched from in its turn; the search ends when there is none
// left. In every tick on the way `Always` looks on.
//
// What this is not: two controllers that look alike in all of `Seen` may still differ inside (in a
// reading, in a count of half cycles), and only the first two of them are searched from. The random
// tests (controller/garbage.cpp) and the campaigns of faults go other ways.
#pragma once

#include <cstddef>
#include <cstdint>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "firmware/sequence/state.hpp"
#include "firmware/settings/settings.hpp"
#include "memory/flash.hpp"

namespace reachable_states {

/// The state changed, or the reason within a state.
struct Transition {
    firmware::State from;
    firmware::State to;
    firmware::Reason reason;

    friend bool operator<(const Transition& a, const Transition& b) {
        return std::tie(a.from, a.to, a.reason) < std::tie(b.from, b.to, b.reason);
    }
};

struct Found {
    std::set<Transition> transitions;
    std::size_t controllers = 0;  ///< that could be told apart
    std::uint64_t ticks = 0;      ///< of all stretches together
    bool complete = false;        ///< false: more were found than `most_controllers`
    std::string broken;           ///< a rule that was broken, and the way there; empty: none
};

/// @param memories what the store may hold at power-up
/// @param most_controllers the bound of the search; it is meant to end sooner
Found explore(const firmware::Settings& settings, const std::vector<memory_test::Flash>& memories,
              std::size_t most_controllers);

}  // namespace reachable_states
