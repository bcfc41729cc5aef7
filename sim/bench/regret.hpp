// What a learned ladder costs over the best that could have been learned, in the same start.
#pragma once

#include <optional>
#include <vector>

#include "firmware/settings/settings.hpp"

namespace sim {

struct Regret {
    /// 100 ms line current of the start that the controller makes with what it has learned; none
    /// if the rotor does not come up in time.
    std::optional<double> learned_A;
    /// The same start, with the best ladder that a search found and with the settings' own; none if
    /// it brings the rotor up in time with none.
    std::optional<double> best_A;
    std::optional<double> as_set_A;
    std::vector<firmware::StageSettings> best;  ///< empty: the learned one
    int starts = 0;                             ///< of the search

    /// Learned over best; none if either is missing.
    std::optional<double> value() const {
        return learned_A && best_A ? std::optional<double>(*learned_A / *best_A) : std::nullopt;
    }
};

}  // namespace sim
