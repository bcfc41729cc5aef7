#include "sim/explaining/change.hpp"

#include <fmt/format.h>

#include <cmath>

#include "sim/files/input_error.hpp"
#include "sim/scenario/controller_settings.hpp"
#include "sim/scenario/fitting_together.hpp"
#include "sim/scenario/parameter_bounds.hpp"

namespace sim {

namespace {

double to_three_digits(double value) {
    if (value == 0.0) {
        return 0.0;
    }
    const double unit = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2.0);
    // A division by a power of ten that is exact keeps 0.7 from becoming 0.7000000000000001.
    return unit >= 1.0 ? std::round(value / unit) * unit
                       : std::round(value / unit) / std::round(1.0 / unit);
}

template <class... P>
std::string problem_of(const std::variant<P...>& choice) {
    return std::visit([](const auto& one) { return out_of_bounds(one); }, choice);
}

std::string problem_of_limiter(const LimiterChoice& limiter) {
    const auto* parts = parts_of(limiter);
    const std::string problem = parts != nullptr ? out_of_bounds(*parts) : std::string();
    const auto* settings = settings_of(limiter);
    return problem.empty() && settings != nullptr ? controller_problem(*settings) : problem;
}

}  // namespace

Scenario with_change(const Scenario& scenario, const Change& change, double value) {
    Scenario changed = scenario;
    change.set(changed, value);
    return changed;
}

std::string words_for(const Change& change, double value) {
    if (change.say) {
        return change.say(value);
    }
    const std::string digits =
        std::abs(value) >= 1000.0 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
    return change.unit.empty() ? digits : digits + " " + change.unit;
}

double round_value(const Change& change, double value) {
    if (change.spacing == Spacing::difference && change.resolution > 0.0) {
        return std::round(value / change.resolution) * change.resolution;
    }
    return to_three_digits(value);
}

double value_at(const Change& change, double share) {
    if (share <= 0.0) {
        return change.given;
    }
    if (share >= 1.0) {
        return change.boldest;
    }
    const double value = change.spacing == Spacing::ratio
                             ? change.given * std::pow(change.boldest / change.given, share)
                             : change.given + share * (change.boldest - change.given);
    return round_value(change, value);
}

std::string problem_with(const Scenario& scenario) {
    const plant_models::UnitParameters& unit = scenario.unit;
    for (const std::string& problem :
         {out_of_bounds(scenario.conditions), out_of_bounds(scenario.motor),
          problem_of(scenario.load), out_of_bounds(scenario.refrigerant), problem_of(unit.heat),
          problem_of(unit.protector), problem_of(unit.protection_module),
          problem_of(unit.contactor), problem_of(unit.start_aid), problem_of(scenario.source),
          out_of_bounds(scenario.wiring), problem_of_limiter(scenario.limiter)}) {
        if (!problem.empty()) {
            return problem;
        }
    }
    try {
        check_fits_together(scenario,
                            [](std::string_view, std::string_view) { return TablePlace{}; });
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

}  // namespace sim
