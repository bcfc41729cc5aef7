// The controller's program on an emulated processor answers every tick as this build's controller
// does, to the bit, and a run with it comes to the same result.
//
// RUNUP_PROCESSOR chooses the processor, as for the program itself.
#include <gtest/gtest.h>

#include <random>

#include "cost_ledger.hpp"
#include "processor_cases.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/processor_controller.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/start_json.hpp"

namespace processor_tests {
namespace {

class SameBits : public testing::TestWithParam<Case> {
  protected:
    void SetUp() override {
        const std::string why = why_no_processor();
        if (!why.empty()) {
            GTEST_SKIP() << why;
        }
        setup_ = sim::processor_setup();
        setup_.witness = &ledger_;
    }

    sim::ProcessorSetup setup_;
    CostLedger ledger_;
};

std::string result_of(const Case& one, const sim::Scenario& scenario) {
    if (one.starts == 1) {
        return sim::start_json(sim::run_start(scenario)).dump(1);
    }
    sim::RepeatPlan plan;
    plan.starts = one.starts;
    plan.rest_between_s = scenario.run.rest_between_s;
    plan.power_cuts = true;
    return sim::repeat_json(sim::run_repeat(scenario, plan)).dump(1);
}

TEST_P(SameBits, AsThisBuildsControllerInEveryTickAndInTheResult) {
    const std::string here = result_of(GetParam(), GetParam().scenario);
    const sim::ScopedProcessorSetup scope(setup_);
    const std::string there = result_of(GetParam(), on_processor(GetParam().scenario));
    EXPECT_EQ(here, there);
    EXPECT_GT(ledger_.compared(), 1000) << "nobody was there to compare";
}

std::string test_name(const testing::TestParamInfo<Case>& info) {
    std::string name = info.param.name;
    for (char& letter : name) {
        letter = std::isalnum(static_cast<unsigned char>(letter)) != 0 ? letter : '_';
    }
    return name + "_" + std::to_string(info.index);
}

INSTANTIATE_TEST_SUITE_P(Starts, SameBits, testing::ValuesIn(starts()), test_name);
INSTANTIATE_TEST_SUITE_P(Faults, SameBits, testing::ValuesIn(faults()), test_name);
INSTANTIATE_TEST_SUITE_P(Series, SameBits, testing::ValuesIn(series()), test_name);

}  // namespace
}  // namespace processor_tests
