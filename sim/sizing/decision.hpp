// From the findings to an answer: what each supply asks for, and which is the smallest for each
// way.
//
// A way is good on a supply if the compressor comes up on the normal day, the lower end of the
// interval of its bad days' rate is at least `least_rate`, the supply's voltage does not fall below
// `least_voltage_share` of nominal meanwhile on the normal day (an inverter's or a generator's: the
// other loads on it would drop out; a utility's is told as its own figure), and the supply carries
// the running compressor for ever (its rated current is at least that of a hot day). The cheapest
// good way in the order directly, thermistor, relay, limiter is the supply's answer. Where none is
// good, the one of the highest rate is told as the nearest.
//
// The smallest supply for a way is, of inverters and of generators each, the good one of the least
// rating, of equal ones the cheaper. Only supplies that are listed are looked at;
// nothing is scaled to sizes in between.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/sizing/costs.hpp"
#include "sim/sizing/sizing_result.hpp"

namespace sim {

enum class Answer {
    utility_carries_it,  ///< starts directly, no storage behind it: no limiter needed
    surge_to_spare,      ///< starts directly: no limiter needed
    start_aid_will_do,   ///< the trade's cheaper start aid is enough
    limiter_needed,      ///< only the limiter brings it up
    not_sure_enough,     ///< something starts it on the normal day, but too seldom on bad ones
    nothing_starts_it,
    too_small_to_run_it,  ///< it may come up, but its running current is too much for ever
    not_finished,         ///< ended early, before anything could be said
};

std::string_view word_of(Answer answer);

/// What is asked of a way.
struct Demands {
    double least_rate = 0.9;
    /// Equipment is made to ride through 80 % of its voltage for up to 10 s (the ITIC curve,
    /// recalled); 0 where nothing else hangs on the supply.
    double least_voltage_share = 0.8;
};

struct SupplyDecision {
    Answer answer{};
    std::optional<Way> way;      ///< the cheapest good one
    std::optional<Way> nearest;  ///< if none is good: the one that starts most often
    bool carries_running_current = true;
};

struct SmallestSupply {
    SupplyRole role{};  ///< storage or engine
    Way way{};
    std::optional<std::size_t> index;  ///< in SizingFindings::supplies; none if no supply is good
    WayCost cost;
};

struct Decision {
    Demands demands;
    std::vector<SupplyDecision> supplies;  ///< in the order of the findings
    /// For every way, in the order of every_way, of inverters; then of generators. Only roles that
    /// are listed.
    std::vector<SmallestSupply> smallest;

    /// Whether some supply has an answer with a way.
    bool anything_starts_it() const;
    /// None if no supply of this role is listed.
    const SmallestSupply* smallest_for(SupplyRole role, Way way) const;
};

bool carries(const SupplyAtHand& supply, std::optional<double> running_current_A);

/// Lowest half-cycle RMS of the normal day over nominal; none if there is no such figure.
std::optional<double> lowest_voltage_share(const SupplyAtHand& supply, const WayOnSupply& way);

bool holds_voltage(const SupplyAtHand& supply, const WayOnSupply& way, const Demands& demands);

bool is_good(const SupplyAtHand& supply, const WayOnSupply& way, const Demands& demands);

/// Fewest bad days with which a way that never fails can be good.
int fewest_draws(double least_rate);

/// `draws`: how many bad days were asked for; fewer were run if the work was ended early.
Decision decide(const SizingFindings& findings, int draws, const Demands& demands,
                const CostAssumptions& costs);

}  // namespace sim
