// Every variable of the controller that changes while it runs, by name: for traces and debuggers.
//
// A name is the part that the variable belongs to, a point, and what it is, with its unit at the
// end; Q20 and the like say how many of its bits are a fraction. States and steps are numbers as in
// their enumeration, flags 0 or 1. Reading changes nothing, and a program that never asks for the
// list does not hold it.
//
// Limits that the settings fix are not listed: they do not change. Adding a variable: its row in
// the file of its part; a test in tests/architecture fails for one that has none.
#pragma once

#include <cstddef>
#include <cstdint>

namespace firmware {

class Controller;

struct WatchedVariable {
    const char* name;
    const char* meaning;
    std::int64_t (*value)(const Controller& controller);
};

/// The variables of one part, one after another in memory.
struct WatchedPart {
    const WatchedVariable* first = nullptr;
    std::size_t count = 0;
};

/// A friend of everything that it looks into.
class Watch {
  public:
    static constexpr std::size_t part_count = 12;

    /// `index` below `part_count`; an empty part beyond.
    static WatchedPart part(std::size_t index);

  private:
    static WatchedPart line();
    static WatchedPart meters();
    static WatchedPart seen();
    static WatchedPart sequence();
    static WatchedPart probing();
    static WatchedPart climbing();
    static WatchedPart run_up();
    static WatchedPart hand_over();
    static WatchedPart guards();
    static WatchedPart learning();
    static WatchedPart memory();
    static WatchedPart gate();
};

}  // namespace firmware
