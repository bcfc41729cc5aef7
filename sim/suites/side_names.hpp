// What the names on the sides of a block stand for. All throw InputError, at the place given, for a
// name that stands for nothing or is there twice.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "sim/suites/case_building.hpp"

namespace sim {

struct SidePlace {
    TablePlace place;
    std::string key;
};

/// No names: one choice that chooses nothing. A table of the suite goes before a bundled one.
std::vector<SideChoice> library_choices(const std::vector<std::string>& names,
                                        const std::deque<SideEntry>& own,
                                        const std::vector<LibraryEntry>& library,
                                        const SidePlace& at);
std::vector<SideChoice> own_choices(const std::vector<std::string>& names,
                                    const std::deque<SideEntry>& own, const SidePlace& at);
/// Own ones, and ways of starting.
std::vector<SideChoice> setting_choices(const std::vector<std::string>& names,
                                        const std::deque<SideEntry>& own, const SidePlace& at);
/// Own ones, none, and single faults at each of the instants.
std::vector<FaultChoice> fault_choices(const std::vector<std::string>& names,
                                       const std::vector<double>& at_s,
                                       const std::deque<SideEntry>& own, const SidePlace& at);

/// "give one of a, b": what could have been given.
template <class List>
std::string names_that_are_there(const List& list) {
    std::string names;
    for (const auto& one : list) {
        names += (names.empty() ? "give one of " : ", ") + one.name;
    }
    return names.empty() ? "it has none" : names;
}

}  // namespace sim
