#include "sim/explaining/change_list.hpp"

#include <utility>

namespace sim {

namespace {

using ChangesOf = Changes (*)(const Scenario&);

constexpr ChangesOf remedies[] = {
    without_each_fault,
    without_sag,
    longer_sag,
    fit_a_limiter,
    start_directly,
    bolder_ladder,
    gentler_ladder,
    larger_start_capacitor,
    smaller_start_capacitor,
    capacitor_and_relay,
    thermistor_across_run_capacitor,
    larger_relay_capacitor,
    fresh_run_capacitor,
    larger_run_capacitor,
    smaller_run_capacitor,
    longer_rest,
    cooler_day,
    warmer_day,
    warmer_oil,
    higher_line_voltage,
    stiffer_line,
    shorter_cable,
    thicker_cable,
    steadier_contactor,
    module_set_lower,
    higher_current_limit,
    longer_overload_time,
    more_bus_storage,
    more_refill_power,
    larger_inverter,
    larger_battery,
    fuller_battery,
    larger_generator,
};

constexpr ChangesOf strains[] = {
    lower_line_voltage,
    weaker_line,
    longer_cable,
    shorter_rest,
    hotter_day,
    colder_day,
    tighter_compressor,
    aged_run_capacitor,
    gentler_ladder,
    bolder_ladder,
    smaller_start_capacitor,
    larger_start_capacitor,
    lower_current_limit,
    less_bus_storage,
    less_refill_power,
    smaller_inverter,
    smaller_battery,
    emptier_battery,
    smaller_generator,
};

/// Halfway back often enough, a value is found that the tables allow; else the change is none.
constexpr int most_retreats = 6;

bool retreat_into_bounds(const Scenario& scenario, Change& change) {
    const bool has_between =
        change.spacing == Spacing::ratio || change.spacing == Spacing::difference;
    for (int k = 0; k < most_retreats; ++k) {
        if (problem_with(with_change(scenario, change, change.boldest)).empty()) {
            return change.boldest != change.given;
        }
        if (!has_between) {
            return false;
        }
        change.boldest = value_at(change, 0.5);
    }
    return false;
}

template <class List>
Changes applying(const List& list, const Scenario& scenario) {
    Changes found;
    for (const ChangesOf changes_of : list) {
        for (Change& change : changes_of(scenario)) {
            if (change.spacing != Spacing::steps && change.spacing != Spacing::yes_no) {
                change.boldest = round_value(change, change.boldest);
            }
            if (retreat_into_bounds(scenario, change)) {
                found.push_back(std::move(change));
            }
        }
    }
    return found;
}

}  // namespace

Changes remedies_for(const Scenario& scenario) {
    return applying(remedies, scenario);
}

Changes strains_for(const Scenario& scenario) {
    return applying(strains, scenario);
}

}  // namespace sim
