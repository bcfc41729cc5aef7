// Changes of the limiter: fitted or not, its start capacitor, and how high its ladder reaches.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <variant>

#include "sim/bench/plant_of_scenario.hpp"
#include "sim/explaining/change_list.hpp"
#include "sim/explaining/start_capacitor_sizes.hpp"

namespace sim {

namespace {

constexpr double boldest_ladder = 1.8;
constexpr double gentlest_ladder = 0.5;
constexpr double largest_of_run_capacitor = 5.0;
constexpr double smallest_share = 0.3;

bool has_limiter(const Scenario& scenario) {
    return parts_of(scenario.limiter) != nullptr;
}

/// Every target in proportion, and still climbing to full conduction at the most.
void scale_ladder(firmware::Settings& settings, const firmware::Settings& given, double factor) {
    std::int32_t below = 0;
    for (std::int32_t k = 0; k < given.stage_count; ++k) {
        const auto at = static_cast<std::size_t>(k);
        const std::int32_t highest = 1000 - (given.stage_count - 1 - k);
        const auto scaled =
            static_cast<std::int32_t>(std::lround(given.stages[at].target_permille * factor));
        below = std::max(std::min(scaled, highest), below + 1);
        settings.stages[at].target_permille = below;
    }
}

Changes ladder(const Scenario& scenario, const char* name, const char* what, double factor) {
    const firmware::Settings* settings = settings_of(scenario.limiter);
    if (settings == nullptr) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "times its own";
    change.subject = "ladder";
    change.spacing = Spacing::ratio;
    change.given = 1.0;
    change.boldest = factor;
    change.set = [given = *settings](Scenario& changed, double value) {
        scale_ladder(*settings_of(changed.limiter), given, value);
    };
    return {change};
}

Changes start_capacitor(const Scenario& scenario, const char* name, const char* what,
                        double boldest_uF) {
    const plant_models::LimiterParameters* parts = parts_of(scenario.limiter);
    if (parts == nullptr || parts->start_capacitor_uF <= 0.0) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "uF";
    change.subject = "start capacitor";
    change.spacing = Spacing::ratio;
    change.given = parts->start_capacitor_uF;
    change.boldest = boldest_uF;
    change.set = [](Scenario& changed, double value) {
        parts_of(changed.limiter)->start_capacitor_uF = value;
    };
    return {change};
}

}  // namespace

/// With the controller's default settings. It replaces whatever other start aid there is.
Changes fit_a_limiter(const Scenario& scenario) {
    if (has_limiter(scenario)) {
        return {};
    }
    Change change = fit_start_capacitor("limiter", "a limiter, with a start capacitor", scenario);
    change.set = [](Scenario& changed, double value) {
        changed.unit.start_aid = plant_models::NoStartAid{};
        auto& limiter = changed.limiter.emplace<BuiltinLimiter>();
        form_of(limiter);  // fills in the defaults
        limiter.parts.start_capacitor_uF = value;
    };
    return {change};
}

Changes larger_start_capacitor(const Scenario& scenario) {
    const plant_models::LimiterParameters* parts = parts_of(scenario.limiter);
    const double given_uF = parts != nullptr ? parts->start_capacitor_uF : 0.0;
    return start_capacitor(
        scenario, "larger_start_capacitor", "a larger start capacitor",
        std::max(2.0 * given_uF, largest_of_run_capacitor * scenario.motor.run_capacitor_uF));
}

Changes smaller_start_capacitor(const Scenario& scenario) {
    const plant_models::LimiterParameters* parts = parts_of(scenario.limiter);
    const double given_uF = parts != nullptr ? parts->start_capacitor_uF : 0.0;
    return start_capacitor(scenario, "smaller_start_capacitor", "a smaller start capacitor",
                           smallest_share * given_uF);
}

Changes bolder_ladder(const Scenario& scenario) {
    return ladder(scenario, "bolder_ladder", "a bolder ladder, all its targets", boldest_ladder);
}

Changes gentler_ladder(const Scenario& scenario) {
    return ladder(scenario, "gentler_ladder", "a gentler ladder, all its targets", gentlest_ladder);
}

/// Not where a fault of the limiter would go with it: that would be two changes.
Changes start_directly(const Scenario& scenario) {
    const bool breaks_limiter =
        std::any_of(scenario.faults.begin(), scenario.faults.end(),
                    [](const Fault& fault) { return fault.concerns_limiter(); });
    if (!has_limiter(scenario) || breaks_limiter) {
        return {};
    }
    Change change;
    change.name = "no_limiter";
    change.what = "a direct start, without the limiter";
    change.subject = "start aid";
    change.set = [](Scenario& changed, double /*done*/) { changed = without_limiter(changed); };
    return {change};
}

}  // namespace sim
