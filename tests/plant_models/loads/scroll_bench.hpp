// A scroll on a shaft of its own: turned at a given speed, or left to its gas and a given torque.
// Classical Runge-Kutta; plain guards are located by bisection, as the plant's timeline does.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <stdexcept>

#include "plant_models/loads/scroll.hpp"

namespace support {

inline plant_models::ScrollParameters three_ton_scroll() {
    plant_models::ScrollParameters scroll;
    scroll.displacement_cm3 = 32.0;
    scroll.reference_speed_rpm = 3500.0;
    scroll.breakaway_torque_Nm = 0.4;
    scroll.bearing_torque_Nm = 0.2;
    scroll.oil_torque_Nm = 0.3;
    return scroll;
}

class ScrollBench {
  public:
    using Scroll = plant_models::Scroll;
    static constexpr std::size_t speed = Scroll::state_count;
    static constexpr std::size_t gas_work = speed + 1;  ///< J into the gas
    using State = std::array<double, gas_work + 1>;

    explicit ScrollBench(const Scroll& scroll) : load(scroll) {
        const auto initial = load.initial_state();
        for (std::size_t k = 0; k < initial.size(); ++k) {
            x[k] = initial[k];
        }
    }

    Scroll load;
    State x{};
    double step_s = 50e-6;
    double time_s = 0.0;
    bool sides_held = false;  ///< both sides of the circuit are infinitely large
    int events = 0;
    int events_without_progress = 0;
    int turns = 0;
    /// Told of each step, before the event that may end it: from, to.
    std::function<void(const State&, const State&)> on_step;
    /// Angular acceleration, rad/s2.
    std::function<double(const State&, double)> acceleration = [](const State&, double) {
        return 0.0;
    };

    void set_pressures(double suction_kPa, double discharge_kPa) {
        x[Scroll::suction_pressure] = suction_kPa;
        x[Scroll::discharge_pressure] = discharge_kPa;
    }
    double driving_Nm() const { return load.torque(x.data(), motion(x)).driving_Nm; }
    double angle_rad() const {
        return turns * plant_models::ScrollPockets::turn_rad + x[Scroll::orbit_angle];
    }

    void run_for(double duration_s) {
        run_until(time_s + duration_s, [](const ScrollBench&) { return false; });
    }
    /// Until the time, or until `done` after a step.
    template <class Done>
    void run_until(double end_s, Done done) {
        while (end_s - time_s > 1e-12 && !done(*this)) {
            take_step(std::min(step_s, end_s - time_s));
        }
    }
    /// Until `count` turns have ended, forwards.
    void run_turns(int count) {
        const int target = turns + count;
        run_until(time_s + 1e3, [&](const ScrollBench& b) { return b.turns >= target; });
    }

  private:
    static plant_models::LoadMotion<double> motion(const State& state) {
        return {state[speed], 1.0};
    }
    State rates(const State& state, double at_s) const {
        State rate{};
        load.derivatives(state.data(), rate.data(), motion(state));
        if (sides_held) {
            rate[Scroll::suction_pressure] = 0.0;
            rate[Scroll::discharge_pressure] = 0.0;
        }
        rate[speed] = acceleration(state, at_s);
        rate[gas_work] = load.torque(state.data(), motion(state)).driving_Nm * state[speed];
        return rate;
    }
    State after(double h) const {
        const auto along = [&](const State& rate, double length) {
            State moved = x;
            for (std::size_t k = 0; k < moved.size(); ++k) {
                moved[k] += length * rate[k];
            }
            return moved;
        };
        const State k1 = rates(x, time_s);
        const State k2 = rates(along(k1, 0.5 * h), time_s + 0.5 * h);
        const State k3 = rates(along(k2, 0.5 * h), time_s + 0.5 * h);
        const State k4 = rates(along(k3, h), time_s + h);
        State end = x;
        for (std::size_t k = 0; k < end.size(); ++k) {
            end[k] += h / 6.0 * (k1[k] + 2.0 * k2[k] + 2.0 * k3[k] + k4[k]);
        }
        return end;
    }
    /// Index of the first plain guard that has fired at a state; guard_count if none has.
    std::size_t fired(const State& state) const {
        std::array<double, Scroll::guard_count> values{};
        load.guards(state.data(), motion(state), values.data());
        std::size_t guard = 0;
        while (guard < values.size() && (Scroll::guard_is_kink(guard) || values[guard] > 0.0)) {
            ++guard;
        }
        return guard;
    }
    void take_step(double h) {
        State next = after(h);
        if (fired(next) < Scroll::guard_count) {
            double low = 0.0;
            while (h - low > 1e-15) {
                const double middle = 0.5 * (low + h);
                if (middle <= low || middle >= h) {
                    break;
                }
                (fired(after(middle)) < Scroll::guard_count ? h : low) = middle;
            }
            next = after(h);
        }
        if (on_step) {
            on_step(x, next);
        }
        x = next;
        time_s += h;
        const std::size_t guard = fired(x);
        if (guard < Scroll::guard_count) {
            const double suction = x[Scroll::suction_pressure];
            load.on_guard(guard, x.data());
            if (sides_held) {
                x[Scroll::suction_pressure] = suction;
            }
            turns += (guard == Scroll::turn_forwards) - (guard == Scroll::turn_backwards);
            ++events;
            events_without_progress = h > 1e-12 ? 0 : events_without_progress + 1;
            if (events_without_progress > 1000) {
                throw std::runtime_error("events pile up");
            }
        }
    }
};

}  // namespace support
