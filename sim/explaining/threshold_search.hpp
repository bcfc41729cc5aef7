// Where on the way of one change a start begins to come up, or ceases to: by reruns.
//
// First some values are looked at: the boldest, the middle of the way, its quarter and so on,
// closer where a practitioner begins. Then the first turn among them is bisected. A turn is taken
// for real only after both sides of it have been run to their end. What lies between the values
// that were tried is not known, and a way may turn more than once; so every value that was tried is
// kept.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/explaining/change.hpp"
#include "sim/explaining/trial.hpp"

namespace sim {

/// How closely a way is looked at.
struct Fineness {
    int looks = 4;                ///< values on the way, the boldest included
    double ratio = 1.02;          ///< between both sides of a turn
    int most_halvings = 20;       ///< of a turn; more are never needed
    double share_of_way = 0.005;  ///< of a difference; its own resolution at the least
    /// Where a guess would save little, it is not worth confirming.
    Patience patience = Patience::until_decided;
};

struct TriedValue {
    double value = 0.0;
    bool comes_up = false;
    std::string ended;  ///< outcome, and its cause: "supply_tripped (inverter overload)"
};

struct WayOfChange {
    Change change;
    bool begins_up = false;         ///< the scenario itself
    std::vector<TriedValue> tried;  ///< from the given value on, which is not among them
    /// The first turn: the last value before it, and the first one after it.
    struct Turn {
        double before = 0.0;
        double after = 0.0;
    };
    std::optional<Turn> turn;
    int reruns = 0;

    /// Whether everything tried beyond the turn ends as the first value after it; true if there is
    /// none.
    bool stays_turned() const;
};

/// Asked before each rerun; true ends the search, with nothing to show for it.
using Interrupted = std::function<bool()>;

/// None if it was interrupted. `begins_up`: whether the scenario itself comes up. Throws
/// NumericFailure.
std::optional<WayOfChange> search_way(const Scenario& scenario, const Change& change,
                                      bool begins_up, const Fineness& fineness,
                                      const Interrupted& interrupted);

/// In words, as in TriedValue.
std::string ending_of(const Trial& trial);

}  // namespace sim
