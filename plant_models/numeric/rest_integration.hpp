// Integrates a few states that nothing drives any more, over a long time and in steps as long as
// their own motion allows.
//
// The embedded Runge-Kutta pair of Dormand and Prince (order 5, step from its error estimate);
// where the states hardly move, its stability alone limits the step. It ends early once nothing
// moves: what is left of the time then changes nothing.
#pragma once

#include <algorithm>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_runge_kutta_dopri5.hpp>
#include <boost/numeric/odeint/stepper/generation/make_controlled.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

namespace plant_models {

struct RestAccuracy {
    double absolute;  ///< of a step, in the states' own units
    double relative;
};

/// `rates(x, dxdt)` is the autonomous right-hand side, `still(x, dxdt)` says that nothing moves.
/// Returns how much of the duration was left when it became still; 0 if it never did.
template <class State, class Rates, class Still>
double integrate_rest(State& x, double duration_s, const RestAccuracy& accuracy, Rates rates,
                      Still still) {
    namespace odeint = boost::numeric::odeint;
    auto stepper = odeint::make_controlled(accuracy.absolute, accuracy.relative,
                                           odeint::runge_kutta_dopri5<State>());
    const auto system = [&rates](const State& at, State& dxdt, double) { rates(at, dxdt); };
    constexpr double first_step_s = 1e-4;
    double time_s = 0.0;
    double step_s = first_step_s;
    State rate{};
    while (time_s < duration_s) {
        rates(x, rate);
        if (still(x, rate)) {
            return duration_s - time_s;
        }
        double tried_s = std::min(step_s, duration_s - time_s);
        const bool is_last = tried_s == duration_s - time_s;
        const bool accepted = stepper.try_step(system, x, time_s, tried_s) == odeint::success;
        if (accepted && is_last) {
            return 0.0;
        }
        step_s = tried_s;  // longer after a success, shorter after a failure
    }
    return 0.0;
}

}  // namespace plant_models
