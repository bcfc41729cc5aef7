// A unit's own protection: the protector that lets it try again, the module that misjudges a start
// (common practice).
#include <gtest/gtest.h>

#include <vector>

#include "facts/facts_bench.hpp"

namespace {

struct Switching {
    std::vector<double> opened_s;
    std::vector<double> closed_s;  ///< without the first
};

sim::StartResult run(const sim::Scenario& scenario, Switching* switching) {
    bool was_closed = true;
    facts::Watch watch([&](const sim::TickView& view) {
        if (view.plant.time_s > 0.01 && view.plant.line_connected != was_closed) {
            was_closed = view.plant.line_connected;
            (was_closed ? switching->closed_s : switching->opened_s).push_back(view.plant.time_s);
        }
    });
    return sim::run_start(scenario, &watch);
}

TEST(Protector, OpensOnAStalledStartAndByTheTimeItClosesThePressuresHaveGone) {
    Switching switching;
    const sim::StartResult result = run(sim_test::bundled("shop_protector"), &switching);
    EXPECT_EQ(result.outcome, sim::Outcome::running);
    ASSERT_EQ(switching.opened_s.size(), 1U);
    ASSERT_EQ(switching.closed_s.size(), 1U);
    // Seconds to open, more than a minute to close.
    EXPECT_LT(switching.opened_s[0], 10.0);
    EXPECT_GT(switching.closed_s[0] - switching.opened_s[0], 60.0);
    EXPECT_GT(result.figures.time_to_speed_s.value(), switching.closed_s[0]);
}

TEST(Protector, DoesNotHelpWhereThePauseIsTooShortForThePressures) {
    sim::Scenario scenario = sim_test::bundled("shop_protector");
    scenario.refrigerant.expansion = "bleed_valve";
    Switching switching;
    const sim::StartResult result = run(scenario, &switching);
    ASSERT_EQ(switching.closed_s.size(), 1U);
    EXPECT_NE(result.outcome, sim::Outcome::running);
    EXPECT_FALSE(result.figures.time_to_speed_s.has_value());
}

TEST(WithoutAProtector, TheSameUnitHumsOn) {
    sim::Scenario scenario = sim_test::bundled("shop_protector");
    scenario.unit.protector = plant_models::NoProtector{};
    scenario.run.duration_s = 15.0;
    const sim::StartResult result = sim::run_start(scenario);
    EXPECT_EQ(result.outcome, sim::Outcome::stalled);
    EXPECT_FALSE(result.figures.time_to_speed_s.has_value());
}

sim::Scenario on_stiff_grid(sim::Scenario scenario) {
    scenario.source = sim_test::bundled("reference_direct").source;
    return scenario;
}

TEST(ProtectionModule, TakesALimitedStartForNoneAndIsContentWithADirectOne) {
    const sim::Scenario hut = sim_test::bundled("hut_module_misjudges");
    const sim::StartResult limited = sim::run_start(hut);
    EXPECT_EQ(limited.outcome, sim::Outcome::protector_open);
    EXPECT_EQ(limited.cause, "module_saw_no_start");
    // It was up: the module stops a healthy compressor.
    EXPECT_TRUE(limited.figures.time_to_speed_s.has_value());

    EXPECT_EQ(sim::run_start(on_stiff_grid(hut)).outcome, sim::Outcome::protector_open);
    EXPECT_TRUE(facts::comes_up(sim::without_limiter(on_stiff_grid(hut))));
}

TEST(ProtectionModule, IsContentWithALimitedStartOnceItsFiguresAreTheLimitersOwn) {
    sim::Scenario hut = sim_test::bundled("hut_module_misjudges");
    auto& module = std::get<plant_models::ProtectionModuleParameters>(hut.unit.protection_module);
    module.expected_start_current_A = 22.0;
    module.running_current_A = 15.0;
    EXPECT_TRUE(facts::comes_up(hut));
}

}  // namespace
