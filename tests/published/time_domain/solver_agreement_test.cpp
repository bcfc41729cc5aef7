// Our integrator against SUNDIALS CVODE on the same right-hand side, in the middle of transients.
// Certainty of the reference: computed, by a solver of other hands at a relative tolerance of
// 1e-12. Ours runs as the bench drives it: commanded and read at every tick.
//
// How far apart they may be is not guessed but estimated from our own runs alone: with fourth order
// the error at step h is 16/15 of what halving the step changes. The difference to CVODE has to be
// that estimate within half of itself, but for the solver's own error: our results are right to
// what we claim of them, and the claim means something.
#include <gtest/gtest.h>

#include "fixed_starts.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "published_motors.hpp"
#include "start_script.hpp"

namespace {

using namespace published;

constexpr double solver_tolerance = 1e-12;
/// What that tolerance leaves of the solver's own error after a few thousand steps, as a share.
constexpr double solver_error = 1e-9;

void expect_agreement(const ScriptResult& coarse, const ScriptResult& fine,
                      const ScriptResult& solver) {
    const Observed change = largest_difference(coarse.rows, fine.rows);
    const Observed error = largest_difference(coarse.rows, solver.rows);
    const Observed size = largest(solver.rows);
    for (std::size_t k = 0; k < observed_count; ++k) {
        const double estimate = 16.0 / 15.0 * change[k];
        const double floor = solver_error * size[k];
        EXPECT_LE(error[k], 1.5 * estimate + floor) << observed_names[k];
        EXPECT_GE(error[k], 0.5 * estimate - floor) << observed_names[k];
        EXPECT_LT(error[k], 1e-4 * size[k]) << observed_names[k];
    }
}

/// Odd ticks, where the bench reads in the middle of a step that spans two of them.
StartScript read_at_odd_ticks(StartScript script) {
    for (sim::Instant& read : script.reads) {
        read += sim::Instant(100'000);
    }
    return script;
}

void expect_agreement_on_a_grid(const StartScript& start, const plant_models::GridParameters& grid,
                                int fewest_events, int most_events) {
    const StartScript script = read_at_odd_ticks(start);
    const auto solver = run_by_cvode(script, plant_models::Grid(grid), solver_tolerance);
    const auto coarse = run_tick_by_tick(script, sim::Instant(200'000));
    expect_agreement(coarse, run_tick_by_tick(script, sim::Instant(100'000)), solver);
    EXPECT_EQ(solver.events, coarse.events);
    EXPECT_GE(solver.events, fewest_events);
    EXPECT_LE(solver.events, most_events);
}

// The rotor turns from the start: between closing and the end nothing happens.
TEST(SolverAgreement, RunUpWithoutEventsIsCvodes) {
    expect_agreement_on_a_grid(reference_start(120.0), reference_grid(), 0, 0);
}

// The rotor breaks away, turns back, and passes through standstill.
TEST(SolverAgreement, RunUpFromRestIsCvodes) {
    expect_agreement_on_a_grid(reference_start(0.0), reference_grid(), 5, 50);
}

// Firing edges, current zeros, and a rotor that sticks and slips.
TEST(SolverAgreement, ThyristorFedStartIsCvodes) {
    expect_agreement_on_a_grid(thyristor_fed_start(), fifty_hertz_grid(), 20, 100);
}

void expect_agreement_on_an_inverter(double peak_current_limit_A, int fewest_events) {
    const auto inverter = default_inverter(peak_current_limit_A);
    const StartScript script = inverter_start(inverter);
    const auto solver = run_by_cvode(script, plant_models::Inverter(inverter), solver_tolerance);
    // The inverter bounds the step: 7 to a tick, and 14.
    const auto coarse = run_tick_by_tick(script, sim::Instant(100'000));
    const auto fine = run_tick_by_tick(script, sim::Instant(7'143));
    expect_agreement(coarse, fine, solver);
    EXPECT_EQ(solver.events, coarse.events);
    EXPECT_GE(solver.events, fewest_events);
}

// Seven states of the supply, its loops unsaturated.
TEST(SolverAgreement, StartOnALargeInverterIsCvodes) {
    expect_agreement_on_an_inverter(400.0, 0);
}

// The same with its current limit reached in every half cycle.
TEST(SolverAgreement, StartOnAnInverterThatLimitsIsCvodes) {
    expect_agreement_on_an_inverter(60.0, 20);
}

}  // namespace
