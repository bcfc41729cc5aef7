// Supplies that a direct start breaks, and what the limiter makes of them (common practice).
#include <gtest/gtest.h>

#include <algorithm>

#include "facts/facts_bench.hpp"

namespace {

TEST(Contactor, ChattersOnThinCableAndIsQuietOnThick) {
    const auto drop_outs = [](const char* size, sim::Outcome* outcome) {
        sim::Scenario scenario = sim_test::bundled("farm_contactor_chatter");
        scenario.wiring.branch_size = size;
        int count = 0;
        facts::Watch watch(
            [&](const sim::TickView& view) { count = view.plant.contactor_drop_outs; });
        *outcome = sim::run_start(scenario, &watch).outcome;
        return count;
    };
    sim::Outcome thin{};
    sim::Outcome thick{};
    EXPECT_GT(drop_outs("2.5 mm2", &thin), 10);
    EXPECT_EQ(thin, sim::Outcome::stalled);
    EXPECT_EQ(drop_outs("6 mm2", &thick), 0);
    EXPECT_EQ(thick, sim::Outcome::running);
}

TEST(BatteryProtection, OpensDuringADirectStartAndNotDuringALimitedOne) {
    const sim::Scenario cabin = sim_test::bundled("cabin_battery_trip");
    const sim::StartResult direct = sim::run_start(cabin);
    EXPECT_EQ(direct.outcome, sim::Outcome::supply_tripped);
    EXPECT_EQ(direct.cause, "battery_protection");
    const sim::StartResult limited = sim::run_start(facts::with_default_limiter(cabin));
    EXPECT_EQ(limited.outcome, sim::Outcome::running);
    EXPECT_TRUE(limited.monitors.empty());
}

/// Lowest, and last, of a generator's frequency.
struct Frequency {
    double first_Hz = 0.0;
    double lowest_Hz = 1e9;
    double last_Hz = 0.0;
};

sim::StartResult run_on_generator(const sim::Scenario& scenario, Frequency* frequency) {
    const std::size_t at = facts::channel(scenario, "generator_frequency_Hz");
    facts::Watch watch([&](const sim::TickView& view) {
        frequency->last_Hz = view.plant.model_channels[at];
        if (frequency->first_Hz == 0.0) {
            frequency->first_Hz = frequency->last_Hz;
        }
        frequency->lowest_Hz = std::min(frequency->lowest_Hz, frequency->last_Hz);
    });
    return sim::run_start(scenario, &watch);
}

TEST(SmallGenerator, BreaksDownUnderADirectStart) {
    Frequency frequency;
    const sim::StartResult direct =
        run_on_generator(sim::without_limiter(sim_test::bundled("camp_generator")), &frequency);
    EXPECT_EQ(direct.outcome, sim::Outcome::stalled);
    EXPECT_LT(direct.figures.line_voltage_one_cycle_rms_min_V.value(), 0.2 * 230.0);
}

TEST(SmallGenerator, BearsALimitedStartWithADipOfItsFrequency) {
    Frequency frequency;
    const sim::StartResult limited =
        run_on_generator(sim_test::bundled("camp_generator"), &frequency);
    EXPECT_EQ(limited.outcome, sim::Outcome::running);
    EXPECT_GT(limited.figures.line_voltage_one_cycle_rms_min_V.value(), 0.8 * 230.0);
    EXPECT_LT(frequency.lowest_Hz, frequency.first_Hz - 2.0);
    EXPECT_GT(frequency.last_Hz, frequency.lowest_Hz + 2.0);
    EXPECT_LT(frequency.last_Hz, frequency.first_Hz);
}

}  // namespace
