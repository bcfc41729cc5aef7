#include "small_suite.hpp"

#include <gtest/gtest.h>

#include "scenario/scenario_text.hpp"

namespace sim_test {

namespace {
const char* const tables = R"([run]
duration_s = 0.02
rest_between_s = 300
[expect]
outcome = "stalled"
)";
}  // namespace

SmallSuite::SmallSuite(std::int64_t cases, const std::string& name)
    : cases_(cases),
      name_(name),
      text_("cases = " + std::to_string(cases) + "\n"),
      scenario_(sim::parse_scenario(right_scenario() + tables, "small.toml")) {}

sim::SuiteCase SmallSuite::case_at(std::int64_t id) const {
    const auto found = instead.find(id);
    if (found != instead.end()) {
        found->second();
    }
    sim::SuiteCase one;
    one.id = id;
    one.place.block = id % 3 == 0 ? "third" : "others";
    one.place.compressor = "unit_" + std::to_string(id % 5);
    one.place.supply = "supply_" + std::to_string(id % 7);
    one.seed = static_cast<std::uint32_t>(1000 + id);
    one.scenario = scenario_;
    const double voltage_V = 200.0 + static_cast<double>(id * 37 % 61);
    std::get<plant_models::GridParameters>(one.scenario.source).voltage_V = voltage_V;
    one.accepted = {sim::Outcome::stalled};
    one.drawn = {{"voltage_V", voltage_V}, {"again_V", voltage_V}};
    // Computed: what flows at 252.5 V; eight of the 61 voltages are above.
    one.limits = {{"line_current_half_cycle_rms_A", std::nullopt, 37.73}};
    one.series.starts = id % 10 == 9 ? 2 : 1;
    one.series.rest_between_s = 300.0;
    if (also) {
        also(one);
    }
    return one;
}

sim::RegressPlan plan_for(const std::string& results, int jobs) {
    sim::RegressPlan plan;
    plan.results = results;
    plan.jobs = jobs;
    return plan;
}

void run_small(const sim::Suite& suite, const sim::RegressPlan& plan) {
    EXPECT_TRUE(sim::run_campaign(suite, plan, [](auto, auto, auto) { return true; }));
}

}  // namespace sim_test
