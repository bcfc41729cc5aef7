#include "facts/facts_bench.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>
#include <string>

namespace facts {

plant_models::GridParameters& grid_of(sim::Scenario& scenario) {
    return std::get<plant_models::GridParameters>(scenario.source);
}

plant_models::ReciprocatingParameters& pistons_of(sim::Scenario& scenario) {
    return std::get<plant_models::ReciprocatingParameters>(scenario.load);
}

sim::Scenario bakery_after(double rest_s) {
    sim::Scenario scenario = sim_test::bundled("bakery_short_rest");
    scenario.conditions.rest_s = rest_s;
    return scenario;
}

sim::Scenario with_default_limiter(sim::Scenario scenario) {
    sim::BuiltinLimiter limiter;
    // The form writes the defaults into its target.
    form_of(limiter);
    scenario.limiter = limiter;
    return scenario;
}

bool comes_up(const sim::Scenario& scenario) {
    return sim::run_start(scenario).outcome == sim::Outcome::running;
}

double run_up_s(const sim::Scenario& scenario) {
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::running) << scenario.name;
    return result.figures.time_to_speed_s.value_or(1e9);
}

double mean_run_up_s(sim::Scenario scenario) {
    double sum_s = 0.0;
    for (const double phase_deg : points_on_wave_deg) {
        grid_of(scenario).phase_deg = phase_deg;
        sum_s += run_up_s(scenario);
    }
    return sum_s / static_cast<double>(points_on_wave_deg.size());
}

std::size_t channel(const sim::Scenario& scenario, std::string_view name) {
    const auto plant = sim::make_plant_run(sim::describe_plant(scenario));
    const auto& names = plant->channel_names();
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) {
        throw std::invalid_argument("no channel " + std::string(name));
    }
    return static_cast<std::size_t>(found - names.begin());
}

}  // namespace facts
