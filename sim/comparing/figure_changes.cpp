#include "sim/comparing/figure_changes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "sim/comparing/same_bits.hpp"

namespace sim {

namespace {

struct FigurePair {
    double old_value = 0.0;
    double new_value = 0.0;
    bool identical = false;
};

struct Collected {
    std::vector<FigurePair> pairs;
    std::int64_t only_old = 0;
    std::int64_t only_new = 0;
};

/// Means over the starts that both have; those that only one has are counted.
void collect(const CasePair& pair, const FigurePlaces& places, Collected& collected) {
    FigurePair sum{0.0, 0.0, true};
    int both = 0;
    bool only_old = false;
    bool only_new = false;
    for (const StartPair& start : pair.starts) {
        const std::optional<double> old_value = figure_of(*start.old_start, places.in_old);
        const std::optional<double> new_value = figure_of(*start.new_start, places.in_new);
        if (old_value && new_value) {
            ++both;
            sum.old_value += *old_value;
            sum.new_value += *new_value;
            sum.identical = sum.identical && same_bits(*old_value, *new_value);
        } else {
            only_old = only_old || old_value.has_value();
            only_new = only_new || new_value.has_value();
        }
    }
    collected.only_old += only_old ? 1 : 0;
    collected.only_new += only_new ? 1 : 0;
    if (both > 0) {
        collected.pairs.push_back({sum.old_value / both, sum.new_value / both, sum.identical});
    }
}

bool moved(const FigurePair& pair, const Figure& figure, const ComparisonRules& rules) {
    const double size = std::max(std::abs(pair.old_value), std::abs(pair.new_value));
    const double least = std::max(rules.least_change * size, meaningless_change(figure));
    return !pair.identical && std::abs(pair.new_value - pair.old_value) > least;
}

}  // namespace

double meaningless_change(const Figure& figure) {
    constexpr double tenth_of_the_bound_percent = 0.01;
    return figure.name == "energy_closure_percent" ? tenth_of_the_bound_percent : 0.0;
}

std::optional<FigureChange> figure_change(const std::vector<const CasePair*>& pairs,
                                          const std::string& block, const FigurePlaces& places,
                                          const ComparisonRules& rules) {
    Collected collected;
    for (const CasePair* pair : pairs) {
        collect(*pair, places, collected);
    }
    if (collected.pairs.empty() && collected.only_old + collected.only_new == 0) {
        return std::nullopt;
    }
    FigureChange change;
    change.block = block;
    change.figure = places.figure->name;
    change.better = places.figure->better;
    change.only_old = collected.only_old;
    change.only_new = collected.only_new;
    change.pairs = static_cast<std::int64_t>(collected.pairs.size());
    std::vector<double> old_values;
    std::vector<double> new_values;
    std::vector<double> differences;
    std::vector<double> of_those_that_moved;
    for (const FigurePair& pair : collected.pairs) {
        change.identical += pair.identical ? 1 : 0;
        old_values.push_back(pair.old_value);
        new_values.push_back(pair.new_value);
        differences.push_back(pair.new_value - pair.old_value);
        of_those_that_moved.push_back(moved(pair, *places.figure, rules) ? differences.back()
                                                                         : 0.0);
    }
    change.moved = signed_rank_test(of_those_that_moved);
    if (const auto difference = median_with_interval(std::move(differences))) {
        change.difference = *difference;
        change.old_median = median_with_interval(std::move(old_values))->median;
        change.new_median = median_with_interval(std::move(new_values))->median;
    }
    return change;
}

Change judged(const FigureChange& one, const ComparisonRules& rules) {
    const SignedRank& moved = one.moved;
    if (one.identical == one.pairs && one.only_old + one.only_new == 0) {
        return Change::identical;
    }
    if (moved.positive + moved.negative == 0) {
        return Change::same;
    }
    if (one.adjusted_p >= rules.error) {
        return Change::noise;
    }
    if (one.better == Better::neither) {
        return Change::changed;
    }
    const bool up_by_size = moved.lean() > 0.0;
    if (moved.positive != moved.negative && up_by_size != (moved.positive > moved.negative)) {
        return Change::mixed;
    }
    return up_by_size == (one.better == Better::higher) ? Change::better : Change::worse;
}

}  // namespace sim
