// Measured order of convergence of our integrator, with the plant's events in the run: thyristors
// that fire at given instants and block at their current's zero, a rotor that breaks away, turns
// back, sticks and slips. The method between events is of fourth order; it stays so only if the
// events are located as accurately as that.
// Reference: SUNDIALS CVODE at a relative tolerance of 1e-13 (computed, by a solver of other
// hands), which finds its own events.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "fixed_starts.hpp"
#include "plant_models/supplies/grid.hpp"
#include "published_motors.hpp"
#include "start_script.hpp"

namespace {

using namespace published;

constexpr double least_order = 3.7;

/// Every number as a share of its largest value, the worst over time, all of them as one distance.
double distance(const ScriptResult& result, const ScriptResult& reference) {
    const Observed size = largest(reference.rows);
    const Observed difference = largest_difference(result.rows, reference.rows);
    double sum = 0.0;
    for (std::size_t k = 0; k < observed_count; ++k) {
        sum += difference[k] * difference[k] / (size[k] * size[k]);
    }
    return std::sqrt(sum);
}

/// Slope of the straight line through log2(error) when the step is halved from row to row.
double order(const std::vector<double>& errors) {
    const double middle = 0.5 * static_cast<double>(errors.size() - 1);
    double up = 0.0;
    double down = 0.0;
    for (std::size_t k = 0; k < errors.size(); ++k) {
        const double x = static_cast<double>(k) - middle;
        up -= x * std::log2(errors[k]);
        down += x * x;
    }
    return up / down;
}

/// Halves the step from the largest that the plant allows. Each of them divides every interval
/// between two commands of the script, so that the steps taken are really halved.
void expect_fourth_order(const StartScript& script, const plant_models::GridParameters& grid,
                         int fewest_events) {
    const auto reference = run_by_cvode(script, plant_models::Grid(grid), 1e-13);
    std::vector<double> errors;
    std::vector<double> closures;
    for (const int step_ns : {200'000, 100'000, 50'000, 25'000}) {
        const auto result = run_from_stop_to_stop(script, sim::Instant(step_ns));
        EXPECT_EQ(result.events, reference.events);
        errors.push_back(distance(result, reference));
        closures.push_back(result.closure);
    }
    EXPECT_GE(reference.events, fewest_events);
    EXPECT_GE(order(errors), least_order);
    EXPECT_GE(order(closures), least_order) << "of the energy audit's closure";
    EXPECT_LT(errors.front(), 1e-3);
}

TEST(OrderOfConvergence, IsFourWithoutEvents) {
    expect_fourth_order(reference_start(120.0), reference_grid(), 0);
}

TEST(OrderOfConvergence, StaysFourThroughBreakawayAndStandstill) {
    expect_fourth_order(reference_start(0.0), reference_grid(), 5);
}

TEST(OrderOfConvergence, StaysFourThroughFiringCurrentZerosAndStickSlip) {
    expect_fourth_order(thyristor_fed_start(), fifty_hertz_grid(), 20);
}

}  // namespace
