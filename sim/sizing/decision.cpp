#include "sim/sizing/decision.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace sim {

namespace {

/// Of those that hold the voltage, if there are any, the one that comes up most often.
std::optional<Way> nearest_of(const SupplyFindings& on, const Demands& demands) {
    const WayOnSupply* best = nullptr;
    const auto merit = [&](const WayOnSupply& way) {
        return std::make_pair(holds_voltage(on.supply, way, demands), way.bad_days.share());
    };
    for (const WayOnSupply& way : on.ways) {
        const bool starts = way.starts_normally() && way.bad_days.trials > 0;
        if (starts && (best == nullptr || merit(way) > merit(*best))) {
            best = &way;
        }
    }
    return best != nullptr ? std::optional<Way>(best->way) : std::nullopt;
}

/// Ended early, and a way could still turn out good.
bool is_open(const SupplyFindings& on, int draws, const Demands& demands) {
    return std::any_of(on.ways.begin(), on.ways.end(), [&](const WayOnSupply& way) {
        const bool may_be_good = way.starts_normally() && way.bad_days.trials < draws &&
                                 way.bad_days.highest() >= demands.least_rate &&
                                 holds_voltage(on.supply, way, demands);
        return way.fits && (!way.normal_day || may_be_good);
    });
}

SupplyDecision decide_on(const SupplyFindings& on, int draws, const Demands& demands,
                         std::optional<double> running_current_A) {
    SupplyDecision decision;
    decision.carries_running_current = carries(on.supply, running_current_A);
    if (!decision.carries_running_current) {
        decision.answer = Answer::too_small_to_run_it;
        return decision;
    }
    const auto good = std::find_if(on.ways.begin(), on.ways.end(), [&](const WayOnSupply& way) {
        return is_good(on.supply, way, demands);
    });
    if (good == on.ways.end()) {
        decision.nearest = nearest_of(on, demands);
        decision.answer = is_open(on, draws, demands) ? Answer::not_finished
                          : decision.nearest          ? Answer::not_sure_enough
                                                      : Answer::nothing_starts_it;
        return decision;
    }
    decision.way = good->way;
    switch (good->way) {
        case Way::directly:
            decision.answer = on.supply.role() == SupplyRole::utility ? Answer::utility_carries_it
                                                                      : Answer::surge_to_spare;
            break;
        case Way::thermistor:
        case Way::capacitor_relay:
            decision.answer = Answer::start_aid_will_do;
            break;
        case Way::limiter:
            decision.answer = Answer::limiter_needed;
            break;
    }
    return decision;
}

SmallestSupply find_smallest(SupplyRole role, Way way, const SizingFindings& findings,
                             const Decision& decision, const CostAssumptions& costs) {
    SmallestSupply smallest;
    smallest.role = role;
    smallest.way = way;
    const auto size_of = [&](std::size_t k) {
        const SupplyAtHand& supply = findings.supplies[k].supply;
        return std::make_tuple(supply.rated_VA().value_or(0.0),
                               cost_of(way, supply, costs).total());
    };
    for (std::size_t k = 0; k < findings.supplies.size(); ++k) {
        const SupplyFindings& on = findings.supplies[k];
        if (on.supply.role() != role || !is_good(on.supply, on.by(way), decision.demands) ||
            !decision.supplies[k].carries_running_current) {
            continue;
        }
        if (!smallest.index || size_of(k) < size_of(*smallest.index)) {
            smallest.index = k;
        }
    }
    if (smallest.index) {
        smallest.cost = cost_of(way, findings.supplies[*smallest.index].supply, costs);
    }
    return smallest;
}

}  // namespace

std::string_view word_of(Answer answer) {
    switch (answer) {
        case Answer::utility_carries_it:
            return "utility_carries_it";
        case Answer::surge_to_spare:
            return "surge_to_spare";
        case Answer::start_aid_will_do:
            return "start_aid_will_do";
        case Answer::limiter_needed:
            return "limiter_needed";
        case Answer::not_sure_enough:
            return "not_sure_enough";
        case Answer::nothing_starts_it:
            return "nothing_starts_it";
        case Answer::too_small_to_run_it:
            return "too_small_to_run_it";
        case Answer::not_finished:
            return "not_finished";
    }
    return "";
}

bool Decision::anything_starts_it() const {
    return std::any_of(supplies.begin(), supplies.end(),
                       [](const SupplyDecision& one) { return one.way.has_value(); });
}

const SmallestSupply* Decision::smallest_for(SupplyRole role, Way way) const {
    const auto found =
        std::find_if(smallest.begin(), smallest.end(),
                     [&](const SmallestSupply& one) { return one.role == role && one.way == way; });
    return found != smallest.end() ? &*found : nullptr;
}

bool carries(const SupplyAtHand& supply, std::optional<double> running_current_A) {
    const std::optional<double> rated_VA = supply.rated_VA();
    return !rated_VA || !running_current_A || *rated_VA >= supply.voltage_V() * *running_current_A;
}

std::optional<double> lowest_voltage_share(const SupplyAtHand& supply, const WayOnSupply& way) {
    if (!way.normal_day || !way.normal_day->lowest_voltage_V) {
        return std::nullopt;
    }
    return *way.normal_day->lowest_voltage_V / supply.voltage_V();
}

bool holds_voltage(const SupplyAtHand& supply, const WayOnSupply& way, const Demands& demands) {
    const std::optional<double> share = lowest_voltage_share(supply, way);
    return supply.role() == SupplyRole::utility || !share || *share >= demands.least_voltage_share;
}

bool is_good(const SupplyAtHand& supply, const WayOnSupply& way, const Demands& demands) {
    return way.starts_normally() && way.bad_days.trials > 0 &&
           way.bad_days.lowest() >= demands.least_rate && holds_voltage(supply, way, demands);
}

int fewest_draws(double least_rate) {
    int draws = 1;
    while (SuccessRate{draws, draws}.lowest() < least_rate) {
        ++draws;
    }
    return draws;
}

Decision decide(const SizingFindings& findings, int draws, const Demands& demands,
                const CostAssumptions& costs) {
    Decision decision;
    decision.demands = demands;
    for (const SupplyFindings& on : findings.supplies) {
        decision.supplies.push_back(decide_on(on, draws, demands, findings.running_current_A));
    }
    for (const SupplyRole role : {SupplyRole::storage, SupplyRole::engine}) {
        const bool is_listed =
            std::any_of(findings.supplies.begin(), findings.supplies.end(),
                        [role](const SupplyFindings& on) { return on.supply.role() == role; });
        for (const Way way : every_way) {
            if (is_listed) {
                decision.smallest.push_back(find_smallest(role, way, findings, decision, costs));
            }
        }
    }
    return decision;
}

}  // namespace sim
