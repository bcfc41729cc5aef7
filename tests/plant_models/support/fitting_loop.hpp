// One fitting by itself, with made-up signals: integrates its states, locates its guards and
// carries them out.
//
// Classical Runge-Kutta of order 4 in equal steps; a guard's zero is found by halving the step on
// which it fired. Written apart from the bench's timeline, so that the two check each other.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

#include "plant_models/unit/fitting_interface.hpp"

namespace support {

template <class Fitting>
class FittingLoop {
  public:
    using State = std::array<double, Fitting::state_count>;
    /// May look at the loop, so that a fitting's decision can change its own signals.
    using Signals = std::function<plant_models::UnitSignals(double time_s)>;
    struct Event {
        double time_s;
        std::size_t guard;
    };

    FittingLoop(Fitting the_fitting, double step_s)
        : fitting(std::move(the_fitting)), x(fitting.initial_state()), step_s_(step_s) {}
    FittingLoop(const FittingLoop&) = delete;
    FittingLoop& operator=(const FittingLoop&) = delete;

    /// Signals that stay as they are.
    void set_signals(const plant_models::UnitSignals& constant) {
        signals = [constant](double) { return constant; };
    }

    void run_until(double end_s) {
        while (time_s < end_s) {
            advance(end_s);
        }
    }
    /// Runs to the next event; false if there is none by `latest_s`.
    bool run_to_event(double latest_s) {
        const std::size_t before = events.size();
        while (time_s < latest_s && events.size() == before) {
            advance(latest_s);
        }
        return events.size() > before;
    }

    Fitting fitting;
    State x;
    double time_s = 0.0;
    Signals signals = [](double) { return plant_models::UnitSignals{}; };
    /// Called after each step, with its length, and after each event, with 0.
    std::function<void(double)> after_step = [](double) {};
    std::vector<Event> events;

  private:
    using Guards = std::array<double, Fitting::guard_count>;

    State slope(const State& at, double at_s) const {
        State rate{};
        fitting.derivatives(at.data(), rate.data(), signals(at_s));
        return rate;
    }
    static State moved(const State& from, const State& rate, double length_s) {
        State to = from;
        for (std::size_t k = 0; k < to.size(); ++k) {
            to[k] += length_s * rate[k];
        }
        return to;
    }
    State stepped(double length_s) const {
        const double half_s = 0.5 * length_s;
        const State a = slope(x, time_s);
        const State b = slope(moved(x, a, half_s), time_s + half_s);
        const State c = slope(moved(x, b, half_s), time_s + half_s);
        const State d = slope(moved(x, c, length_s), time_s + length_s);
        State next = x;
        for (std::size_t k = 0; k < next.size(); ++k) {
            next[k] += length_s / 6.0 * (a[k] + 2.0 * b[k] + 2.0 * c[k] + d[k]);
        }
        return next;
    }
    /// Which plain guard has fired at the end of a step; guard_count if none.
    std::size_t fired_after(double length_s) const {
        Guards values{};
        const State next = stepped(length_s);
        fitting.guards(next.data(), signals(time_s + length_s), values.data());
        for (std::size_t k = 0; k < values.size(); ++k) {
            if (!Fitting::guard_is_kink(k) && values[k] <= 0.0) {
                return k;
            }
        }
        return Fitting::guard_count;
    }
    void advance(double end_s) {
        double length_s = std::fmin(step_s_, end_s - time_s);
        std::size_t guard = fired_after(length_s);
        const bool fired = guard < Fitting::guard_count;
        if (fired) {
            double low_s = 0.0;
            for (int k = 0; k < 60; ++k) {
                const double middle_s = 0.5 * (low_s + length_s);
                const std::size_t at_middle = fired_after(middle_s);
                if (at_middle < Fitting::guard_count) {
                    guard = at_middle;
                    length_s = middle_s;
                } else {
                    low_s = middle_s;
                }
            }
        }
        x = stepped(length_s);
        // A remainder that adding cannot represent counts as the end.
        time_s = end_s - (time_s + length_s) < 1e-12 ? end_s : time_s + length_s;
        after_step(length_s);
        if (fired) {
            events.push_back({time_s, guard});
            fitting.on_guard(guard, x.data());
            after_step(0.0);
        }
    }

    double step_s_;
};

}  // namespace support
