// The instant at which the supply is switched on must not decide whether a limited start succeeds.
#include <gtest/gtest.h>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"

namespace {

TEST(SwitchingPhase, NeverKeepsTheLimitedReferenceFromItsFigures) {
    for (int phase_deg = 0; phase_deg <= 180; phase_deg += 15) {
        sim::Scenario scenario = sim_test::bundled("reference_limited");
        std::get<plant_models::GridParameters>(scenario.source).phase_deg = phase_deg;
        const sim::StartResult result = sim::run_start(scenario);
        SCOPED_TRACE(phase_deg);
        EXPECT_EQ(result.outcome, sim::Outcome::running);
        EXPECT_LE(result.figures.line_current_inrush_100ms_rms_A.value(), 30.0);
        EXPECT_LE(result.figures.time_to_speed_s.value_or(99.0), 1.0);
        EXPECT_TRUE(result.monitors.empty());
    }
}

TEST(SwitchingPhase, MattersMuchInADirectStart) {
    // The other way round: if the phase did not reach the plant, the test above would say nothing.
    const auto peak_A = [](double phase_deg) {
        sim::Scenario scenario = sim_test::bundled("reference_direct");
        std::get<plant_models::GridParameters>(scenario.source).phase_deg = phase_deg;
        scenario.run.duration_s = 0.1;
        return sim::run_start(scenario).figures.line_current_peak_A;
    };
    EXPECT_GT(peak_A(0.0), 1.1 * peak_A(75.0));
    // Half a turn later the same happens with the opposite sign.
    EXPECT_NEAR(peak_A(0.0), peak_A(180.0), 1e-6 * peak_A(0.0));
}

}  // namespace
