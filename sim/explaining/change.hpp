// Something about a scenario that could be different, as one number on the way from what the
// scenario gives to the boldest value that is still reasonable.
//
// A rerun takes one change at one value and nothing else. What is given by itself stays as it is:
// who raises an inverter's current limit does not get a larger battery with it.
//
// Origins: how far each change goes is engineering judgement, unless its file says otherwise.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

/// How values lie between the given one and the boldest.
enum class Spacing {
    ratio,       ///< each the same share more than the one before; both ends above 0
    difference,  ///< each the same amount more
    steps,       ///< only those of a list
    yes_no       ///< nothing between: done or not done
};

struct Change {
    std::string name;  ///< one word for machines: "peak_current_limit"
    std::string what;  ///< a noun phrase: "current limit of the inverter"
    std::string unit;  ///< of the value, in text and JSON; empty for yes_no
    /// Two changes of the same subject exclude each other.
    std::string subject;
    Spacing spacing = Spacing::yes_no;
    double given = 0.0;
    double boldest = 1.0;
    double resolution = 0.0;    ///< of a difference: the closest that two values are told apart
    std::vector<double> steps;  ///< for Spacing::steps, in the order in which they are tried
    /// Makes the scenario have this value. Whether that is still a scenario is asked afterwards
    /// (problem_with).
    std::function<void(Scenario&, double value)> set;
    /// The value as a practitioner says it; empty: three digits and the unit.
    std::function<std::string(double value)> say;
};

/// The scenario with this one change.
Scenario with_change(const Scenario& scenario, const Change& change, double value);

/// "72 A of peak current"
std::string words_for(const Change& change, double value);

/// To three digits, or to whole resolutions of a difference: what is printed is what was run.
double round_value(const Change& change, double value);

/// The value at a share of the way from the given one (0) to the boldest (1), rounded. Not for
/// steps.
double value_at(const Change& change, double share);

/// Why the bench could not run this; empty if it can. The reader's own rules, after a change.
std::string problem_with(const Scenario& scenario);

}  // namespace sim
