// A plant that lives by itself: it is integrated, and whatever its guards call for is located and
// carried out. A test only moves the contacts. (live_plant.hpp carries nothing out by itself.)
//
// Classical Runge-Kutta of order 4 in equal steps; a guard's zero is found by halving the step on
// which it fired. Written apart from the bench's timeline, so that the two check each other.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <stdexcept>
#include <vector>

#include "plant_models/plant.hpp"

namespace support {

template <class Supply, class Load, class Unit>
class ActingPlant {
  public:
    using Plant = plant_models::Plant<Supply, Load, Unit>;
    using State = typename Plant::State;
    struct Event {
        double time_s;
        std::size_t guard;
    };

    explicit ActingPlant(const Plant& the_plant, double initial_speed_rad_per_s = 0.0)
        : plant(the_plant), x(plant.initial_state(initial_speed_rad_per_s)) {
        refresh();
    }

    /// To be called after a test has written into `x` or `time_s`.
    void refresh() {
        plant.set_origin(time_s);
        plant.derivative(x, rate, time_s);
    }

    void coil(bool commanded) {
        plant.set_coil_commanded(commanded);
        refresh();
    }
    void line(bool touching) {
        plant.set_line_contact(touching, x);
        refresh();
    }
    void start(bool touching) {
        plant.set_start_contact(touching, x, time_s);
        refresh();
    }
    void bypass(bool touching) {
        plant.set_bypass_contact(touching, x);
        refresh();
    }
    void gate(bool on) {
        plant.set_gate(on, x, rate, time_s);
        refresh();
    }
    /// Carries out an event that is not due.
    void fire(std::size_t guard) {
        plant.on_guard(guard, x, rate, time_s);
        refresh();
    }

    double guard(std::size_t index) const { return guards()[index]; }
    plant_models::PlantOutputs outputs() const {
        plant_models::PlantOutputs out;
        plant.read_outputs(x, rate, time_s, out);
        return out;
    }
    plant_models::EnergyAudit energy() const { return plant.energy(x, time_s); }
    /// Energy that the audit cannot account for, in joules.
    double unexplained_J() const {
        const plant_models::EnergyAudit e = energy();
        return e.source_J - e.loss_J() - e.load_J - e.stored_J;
    }
    double line_current_A() const { return x[Plant::main_current] + x[Plant::aux_current]; }

    void run_until(double end_s, double longest_step_s = 100e-6) {
        while (end_s - time_s > 1e-12) {
            const double longest = std::min(longest_step_s, plant.largest_step_s(x));
            const double left_s = end_s - time_s;
            advance(left_s / std::ceil(left_s / longest - 1e-9));
        }
        time_s = end_s;
        refresh();
    }
    /// Runs to the next event that `wanted` accepts; false if there is none by `latest_s`.
    bool run_to_event(const std::function<bool(std::size_t)>& wanted, double latest_s,
                      double step_s = 100e-6) {
        std::size_t seen = events.size();
        while (time_s < latest_s) {
            advance(std::min(step_s, plant.largest_step_s(x)));
            for (; seen < events.size(); ++seen) {
                if (wanted(events[seen].guard)) {
                    return true;
                }
            }
        }
        return false;
    }
    bool run_to_event(std::size_t guard, double latest_s, double step_s = 100e-6) {
        return run_to_event([guard](std::size_t index) { return index == guard; }, latest_s,
                            step_s);
    }

    Plant plant;
    State x;
    State rate{};
    double time_s = 0.0;
    std::vector<Event> events;  ///< kinks left out

  private:
    using Guards = typename Plant::Guards;

    Guards guards() const {
        Guards values{};
        plant.guards(x, rate, time_s, values);
        return values;
    }
    static State moved(const State& from, const State& rate, double length_s) {
        State to = from;
        for (std::size_t k = 0; k < to.size(); ++k) {
            to[k] += length_s * rate[k];
        }
        return to;
    }
    State slope(const State& at, double at_s) const {
        State result{};
        plant.derivative(at, result, at_s);
        return result;
    }
    State stepped(double length_s) const {
        const double half_s = 0.5 * length_s;
        const State b = slope(moved(x, rate, half_s), time_s + half_s);
        const State c = slope(moved(x, b, half_s), time_s + half_s);
        const State d = slope(moved(x, c, length_s), time_s + length_s);
        State next = x;
        for (std::size_t k = 0; k < next.size(); ++k) {
            next[k] += length_s / 6.0 * (rate[k] + 2.0 * b[k] + 2.0 * c[k] + d[k]);
        }
        return next;
    }
    static bool fired(const Guards& before, const Guards& after, std::size_t k) {
        if (Plant::guard_is_kink(k)) {
            return before[k] * after[k] < 0.0;
        }
        return after[k] < 0.0 || (after[k] == 0.0 && before[k] > 0.0);
    }
    std::size_t first_fired(const Guards& before, double length_s) const {
        const State at = stepped(length_s);
        Guards after{};
        plant.guards(at, slope(at, time_s + length_s), time_s + length_s, after);
        std::size_t k = 0;
        while (k < Plant::guard_count && !fired(before, after, k)) {
            ++k;
        }
        return k;
    }
    void advance(double length_s) {
        plant.set_origin(time_s);
        const Guards before = guards();
        std::size_t which = first_fired(before, length_s);
        const bool acts = which < Plant::guard_count;
        if (acts) {
            double low_s = 0.0;
            for (int k = 0; k < 50; ++k) {
                const double middle_s = 0.5 * (low_s + length_s);
                const std::size_t there = first_fired(before, middle_s);
                if (there < Plant::guard_count) {
                    which = there;
                    length_s = middle_s;
                } else {
                    low_s = middle_s;
                }
            }
        }
        x = stepped(length_s);
        time_s += length_s;
        refresh();
        events_without_progress_ = acts && length_s < 1e-12 ? events_without_progress_ + 1 : 0;
        if (events_without_progress_ > 20) {
            throw std::runtime_error("events of a plant without progress");
        }
        if (acts) {
            if (!Plant::guard_is_kink(which)) {
                events.push_back({time_s, which});
            }
            fire(which);
        }
    }

    int events_without_progress_ = 0;
};

/// source - losses - load - d(stored)/dt along the derivative, which should be nothing. The audit
/// is quadratic in the state, so a central difference is exact but for rounding.
template <class Acting>
double missing_power_W(const Acting& acting) {
    const double h = 1e-5;
    Acting ahead = acting;
    Acting behind = acting;
    for (std::size_t k = 0; k < acting.x.size(); ++k) {
        ahead.x[k] += h * acting.rate[k];
        behind.x[k] -= h * acting.rate[k];
    }
    ahead.time_s += h;
    behind.time_s -= h;
    return (ahead.unexplained_J() - behind.unexplained_J()) / (2.0 * h);
}

}  // namespace support
