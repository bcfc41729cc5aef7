// The unit on a line that does not give way, on a hot day: what it draws as it starts directly, and
// as it runs once the pressures have built up. The first is what a clamp shows on a good supply
// before anything is changed; the second is what every supply must be able to carry.
#pragma once

#include <optional>

#include "sim/sizing/sizing_result.hpp"

namespace sim {

/// How much hotter than its rating: the end of the bad days' range.
inline constexpr double hot_day_K = 10.0;
/// How long it runs before the current is read (by then it changes by less than 1 % in 10 s).
inline constexpr double run_until_s = 60.0;

struct StiffLine {
    OneStart
        direct_start;  ///< on the unit's normal day; by its limiter if it cannot start directly
    std::optional<double> running_current_A;  ///< none if it did not come up
};

StiffLine on_stiff_line(const Scenario& unit);

}  // namespace sim
