// A start that is watched only until it is decided ends as one that is watched to its end.
#include "sim/sizing/decided_start.hpp"

#include <gtest/gtest.h>

#include <string>

#include "sim/bench/start_run.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/sizing_run.hpp"
#include "sizing/sizing_cases.hpp"

namespace {

using sim::Way;

struct Case {
    std::string compressor;
    std::string supply;
    Way way;
};

sim::Scenario scenario_of(const Case& one) {
    return sim::brought_up(
               sim::on_supply(sim_test::library_unit(one.compressor), sim_test::supply(one.supply)),
               one.way)
        .value();
}

/// Up, or not; and then the clamp's reading, which later running does not raise.
void expect_the_same(const sim::Scenario& scenario, const std::string& what) {
    sim::Scenario full = scenario;
    full.run.duration_s = sim::longest_watched_start_s;
    const sim::StartResult to_the_end = sim::run_start(full);
    const sim::OneStart decided = sim::decided_start_of(scenario);
    EXPECT_EQ(decided.came_up,
              to_the_end.outcome == sim::Outcome::running && to_the_end.monitors.empty())
        << what << ": " << decided.ending << " against " << sim::word_of(to_the_end.outcome);
    if (decided.came_up) {
        EXPECT_EQ(decided.time_to_speed_s, to_the_end.figures.time_to_speed_s) << what;
        EXPECT_NEAR(decided.clamp_A.value(),
                    to_the_end.figures.line_current_inrush_100ms_rms_A.value(),
                    0.01 * *decided.clamp_A)
            << what;
    }
}

TEST(DecidedStart, EndsAsTheWholeStartDoes) {
    const std::vector<Case> cases = {
        {"cold_room_230v_50hz", "hut_inverter_3kva_230v_50hz", Way::directly},
        {"cold_room_230v_50hz", "hut_inverter_3kva_230v_50hz", Way::limiter},
        {"cold_room_230v_50hz", "generator_5kva_230v_50hz", Way::capacitor_relay},
        {"outdoor_3_ton_scroll", "house_inverter_6kva_240v_60hz", Way::directly},
        {"outdoor_3_ton_scroll", "house_inverter_6kva_240v_60hz", Way::limiter},
        {"outdoor_3_ton_scroll", "rural_service_240v_60hz", Way::thermistor},
        {"outdoor_5_ton_scroll", "generator_7kva_240v_60hz", Way::capacitor_relay},
        {"small_refrigerator_115v_60hz", "small_inverter_1500va_120v_60hz", Way::directly},
    };
    int failed_starts = 0;
    for (const Case& one : cases) {
        const sim::Scenario scenario = scenario_of(one);
        const std::string what =
            one.compressor + " on " + one.supply + " by " + std::string(word_of(one.way));
        expect_the_same(scenario, what);
        expect_the_same(sim::on_bad_day(scenario, sim::drawn_bad_day(1, 4)), what + ", bad day");
        failed_starts += sim::decided_start_of(scenario).came_up ? 0 : 1;
    }
    EXPECT_GE(failed_starts, 2) << "the cases must hold both kinds";
}

/// Counts the ticks that were watched.
class Counting final : public sim::TickObserver {
  public:
    explicit Counting(const sim::Scenario& scenario)
        : decided_(scenario.motor.synchronous_speed_rad_per_s(
              plant_models::nominal_frequency_Hz(scenario.source))) {}
    void observe(const sim::TickView& view) override {
        decided_.observe(view);
        last_s_ = view.plant.time_s;
    }
    bool wants_more() const override { return decided_.wants_more(); }
    double last_s() const { return last_s_; }

  private:
    sim::DecidedStart decided_;
    double last_s_ = 0.0;
};

TEST(DecidedStart, EndsATenthOfASecondAfterTheRotorIsUp) {
    sim::Scenario scenario =
        scenario_of({"cold_room_230v_50hz", "house_grid_230v_50hz", Way::directly});
    scenario.run.duration_s = 3.0;
    Counting observer(scenario);
    const sim::StartResult result = sim::run_start(scenario, &observer);
    EXPECT_NEAR(observer.last_s(), *result.figures.time_to_speed_s + 0.1, 0.02);
}

}  // namespace
