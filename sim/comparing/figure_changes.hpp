// The figures of pairs of cases, before the correction for many tests.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/comparing/comparison.hpp"

namespace sim {

/// A figure's places in the two files.
struct FigurePlaces {
    const Figure* figure = nullptr;
    std::size_t in_old = 0;
    std::size_t in_new = 0;
};

/// None if no pair has the figure.
std::optional<FigureChange> figure_change(const std::vector<const CasePair*>& pairs,
                                          const std::string& block, const FigurePlaces& places,
                                          const ComparisonRules& rules);

/// Once `adjusted_p` is known.
Change judged(const FigureChange& one, const ComparisonRules& rules);

/// A change of at most this much, in the figure's own unit, is none, whatever its share; 0 for
/// most. What the energy balance leaves open is numeric, and means nothing until it comes near the
/// bound that every result must keep (0.1 %).
double meaningless_change(const Figure& figure);

}  // namespace sim
