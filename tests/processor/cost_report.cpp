// What the steps of the whole set cost on the processor, state by state.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "cost_ledger.hpp"
#include "life_file.hpp"
#include "processor_cases.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/controllers/processor_controller.hpp"

namespace processor_tests {
namespace {

void run(const Case& one) {
    const sim::Scenario scenario = on_processor(one.scenario);
    if (one.starts == 1) {
        EXPECT_NE(sim::run_start(scenario).outcome, sim::Outcome::controller_failed) << one.name;
        return;
    }
    sim::RepeatPlan plan;
    plan.starts = one.starts;
    plan.rest_between_s = scenario.run.rest_between_s;
    plan.power_cuts = true;
    for (const sim::RepeatedStart& start : sim::run_repeat(scenario, plan).starts) {
        EXPECT_NE(start.start.outcome, sim::Outcome::controller_failed) << one.name;
    }
}

// Only scripts/check_processor asks for it: the same runs again, for their costs alone.
TEST(Cost, DISABLED_OfTheWholeSetByState) {
    CostLedger ledger;
    sim::ProcessorSetup setup = sim::processor_setup();
    setup.witness = &ledger;
    const sim::ScopedProcessorSetup scope(setup);
    for (const auto& cases : {starts(), faults(), series()}) {
        for (const Case& one : cases) {
            ledger.name_case(one.name);
            run(one);
        }
    }
    fmt::print("{}: {} answers compared\n", setup.processor, ledger.compared());
    fmt::print("{:<14}{:>10}{:>8}{:>8}  {}\n", "state", "steps", "mean", "most", "dearest in");
    for (std::size_t k = 0; k < firmware::state_count; ++k) {
        const CostLedger::OfState& state = ledger.by_state()[k];
        if (state.steps > 0) {
            fmt::print("{:<14}{:>10}{:>8.0f}{:>8}  {}\n",
                       firmware::name_of(static_cast<firmware::State>(k)), state.steps,
                       static_cast<double>(state.instructions) / static_cast<double>(state.steps),
                       state.most, state.where);
        }
    }
    const std::string file = "dearest_" + setup.processor + ".csv";
    write_life(ledger.dearest(), file);
    fmt::print("the dearest step, {} instructions, is the last of {}\n", ledger.most(), file);
}

}  // namespace
}  // namespace processor_tests
