#include "sim/sizing/decision.hpp"

#include <algorithm>
#include <tuple>

namespace sim {

namespace {

SupplyDecision decide_on(const SupplyFindings& on, double least_rate,
                         std::optional<double> running_current_A) {
    SupplyDecision decision;
    decision.carries_running_current = carries(on.supply, running_current_A);
    const auto good = std::find_if(on.ways.begin(), on.ways.end(), [&](const WayOnSupply& way) {
        return is_good(way, least_rate);
    });
    const bool unfinished = std::any_of(on.ways.begin(), on.ways.end(), [](const auto& way) {
        return way.fits && (!way.normal_day || (way.starts_normally() && way.bad_days.trials == 0));
    });
    if (good == on.ways.end()) {
        decision.answer = unfinished ? Answer::not_finished : Answer::nothing_starts_it;
        return decision;
    }
    if (!decision.carries_running_current) {
        decision.answer = Answer::too_small_to_run_it;
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

SmallestSupply smallest_for(Way way, const SizingFindings& findings, const Decision& decision,
                            const CostAssumptions& costs) {
    SmallestSupply smallest;
    smallest.way = way;
    const auto size_of = [&](std::size_t k) {
        const SupplyAtHand& supply = findings.supplies[k].supply;
        return std::make_tuple(supply.rated_VA().value_or(0.0),
                               cost_of(way, supply, costs).total());
    };
    for (std::size_t k = 0; k < findings.supplies.size(); ++k) {
        const SupplyFindings& on = findings.supplies[k];
        if (on.supply.role() == SupplyRole::utility || !is_good(on.by(way), decision.least_rate) ||
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

bool carries(const SupplyAtHand& supply, std::optional<double> running_current_A) {
    const std::optional<double> rated_VA = supply.rated_VA();
    return !rated_VA || !running_current_A || *rated_VA >= supply.voltage_V() * *running_current_A;
}

bool is_good(const WayOnSupply& way, double least_rate) {
    return way.starts_normally() && way.bad_days.trials > 0 && way.bad_days.lowest() >= least_rate;
}

Decision decide(const SizingFindings& findings, double least_rate, const CostAssumptions& costs) {
    Decision decision;
    decision.least_rate = least_rate;
    for (const SupplyFindings& on : findings.supplies) {
        decision.supplies.push_back(decide_on(on, least_rate, findings.running_current_A));
    }
    for (const Way way : every_way) {
        decision.smallest.push_back(smallest_for(way, findings, decision, costs));
    }
    return decision;
}

}  // namespace sim
