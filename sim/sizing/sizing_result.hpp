// What was found out about a compressor on the supplies at hand: for every supply and every way of
// starting it, a normal day and many bad ones.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/scenario/outcome.hpp"
#include "sim/sizing/supply_at_hand.hpp"
#include "sim/sizing/way.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

/// One start. It has come up if it ended running and broke no monitor; a trip of the supply, a
/// protector that opens, a controller that lets go are all failures.
struct OneStart {
    bool came_up = false;
    /// Outcome with its cause, "stalled (rotor_never_turned)", or the monitor that was broken.
    std::string ending;
    Outcome outcome = Outcome::not_started;
    std::string cause;
    std::optional<double> clamp_A;  ///< largest RMS over 100 ms
    std::optional<double> half_cycle_A;
    std::optional<double> lowest_voltage_V;  ///< half-cycle RMS
    std::optional<double> time_to_speed_s;
};

/// Of the clamp's readings over the bad days on which it came up.
struct ClampSpread {
    double lowest_A = 0.0;
    double median_A = 0.0;
    double highest_A = 0.0;
};

struct WayOnSupply {
    Way way{};
    bool fits = false;                    ///< it can be fitted to this unit
    std::optional<OneStart> normal_day;   ///< none if it does not fit, or was not run
    SuccessRate bad_days;                 ///< no trials if the normal day failed
    std::map<std::string, int> failures;  ///< endings of the bad days on which it did not come up
    std::optional<ClampSpread> bad_clamp;

    bool starts_normally() const { return normal_day && normal_day->came_up; }
};

struct SupplyFindings {
    SupplyAtHand supply;
    std::vector<WayOnSupply> ways;  ///< in the order of every_way

    const WayOnSupply& by(Way way) const { return ways.at(static_cast<std::size_t>(way)); }
};

struct SizingFindings {
    std::vector<SupplyFindings> supplies;
    /// Line current of the unit as it runs on a stiff line on a hot day, once the pressures have
    /// built up; and what its direct start draws there. None if it does not come up there.
    std::optional<double> running_current_A;
    std::optional<OneStart> on_stiff_line;
    int starts = 0;  ///< simulated
    bool ended_early = false;
};

}  // namespace sim
