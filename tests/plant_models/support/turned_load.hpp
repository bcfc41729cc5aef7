// A compressor load whose shaft is turned by hand: the angle is a given function of time, the
// load's other states are integrated (Runge-Kutta, small steps), and its guards are located by
// halving the step, as the contract in load_interface.hpp asks of whoever drives a load.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>

#include "plant_models/loads/load_interface.hpp"

namespace support {

template <class Load>
class TurnedLoad {
  public:
    using State = std::array<double, Load::state_count>;

    explicit TurnedLoad(const Load& fresh) : load(fresh), x(fresh.initial_state()) {}

    /// Turns by `angle_rad` at a constant speed, in steps of at most `step_rad`.
    void turn(double angle_rad, double speed_rad_per_s, double step_rad = 0.002) {
        speed = angle_rad < 0.0 ? -std::abs(speed_rad_per_s) : std::abs(speed_rad_per_s);
        const double step_s = step_rad / std::abs(speed);
        double left_s = angle_rad / speed;
        while (left_s > 0.0) {
            const double wanted_s = left_s < step_s ? left_s : step_s;
            left_s -= advance(wanted_s);
            if (left_s < 1e-12) {
                break;
            }
        }
    }
    /// Stands still for a time.
    void rest(double duration_s, double step_s = 0.001) {
        speed = 0.0;
        load.on_standstill(x.data());
        double left_s = duration_s;
        while (left_s > 1e-12) {
            left_s -= advance(left_s < step_s ? left_s : step_s);
        }
    }
    double torque_Nm() const { return load.torque(x.data(), {speed, 1.0}).driving_Nm; }
    double suction_kPa() const { return x[Load::first_circuit_state]; }
    double discharge_kPa() const { return x[Load::first_circuit_state + 1]; }
    void set_pressures(double suction_kPa, double discharge_kPa) {
        x[Load::first_circuit_state] = suction_kPa;
        x[Load::first_circuit_state + 1] = discharge_kPa;
    }
    double angle_rad() const { return x[Load::crank_angle]; }

    Load load;
    State x;
    double speed = 0.0;
    bool pressures_held = false;  ///< suction and discharge as if the volumes were infinite
    double work_J = 0.0;          ///< given to the load by the shaft, without friction
    double pumped_kg = 0.0;       ///< into the discharge, when the pressures are held or not
    int events = 0;               ///< other than kinks

  private:
    int events_without_progress_ = 0;
    struct Rates {
        State state{};
        double work_W = 0.0;
        double flow_kg_per_s = 0.0;
    };
    Rates rates(const State& at) const {
        Rates r;
        load.derivatives(at.data(), r.state.data(), {speed, 1.0});
        r.work_W = load.torque(at.data(), {speed, 1.0}).driving_Nm * speed;
        const double* circuit = at.data() + Load::first_circuit_state;
        const bool running = std::abs(speed) > 20.0;
        r.flow_kg_per_s = r.state[Load::first_circuit_state + 1] *
                              load.circuit().discharge_capacitance_kg_per_kPa() +
                          load.circuit().expansion_flow_kg_per_s(circuit[0], circuit[1], running);
        if (pressures_held) {
            r.state[Load::first_circuit_state] = r.state[Load::first_circuit_state + 1] = 0.0;
        }
        return r;
    }
    static State moved(const State& from, const State& rate, double by) {
        State to = from;
        for (std::size_t k = 0; k < to.size(); ++k) {
            to[k] += by * rate[k];
        }
        return to;
    }
    struct Trial {
        State state;
        double work_J, pumped_kg;
    };
    Trial tried(double h) const {
        const Rates a = rates(x);
        const Rates b = rates(moved(x, a.state, 0.5 * h));
        const Rates c = rates(moved(x, b.state, 0.5 * h));
        const Rates d = rates(moved(x, c.state, h));
        Trial t{x, work_J, pumped_kg};
        for (std::size_t k = 0; k < x.size(); ++k) {
            t.state[k] += h / 6.0 * (a.state[k] + 2.0 * b.state[k] + 2.0 * c.state[k] + d.state[k]);
        }
        t.work_J += h / 6.0 * (a.work_W + 2.0 * b.work_W + 2.0 * c.work_W + d.work_W);
        t.pumped_kg +=
            h / 6.0 *
            (a.flow_kg_per_s + 2.0 * b.flow_kg_per_s + 2.0 * c.flow_kg_per_s + d.flow_kg_per_s);
        return t;
    }
    using Guards = std::array<double, Load::guard_count>;
    Guards guards(const State& at) const {
        Guards values{};
        load.guards(at.data(), {speed, 1.0}, values.data());
        return values;
    }
    static bool fired(const Guards& before, const Guards& after, std::size_t k) {
        if (Load::guard_is_kink(k)) {
            return before[k] * after[k] < 0.0;
        }
        return after[k] < 0.0 || (after[k] == 0.0 && before[k] > 0.0);
    }
    static std::size_t first_fired(const Guards& before, const Guards& after) {
        std::size_t k = 0;
        while (k < Load::guard_count && !fired(before, after, k)) {
            ++k;
        }
        return k;
    }
    /// Advances by at most `h`, to the first event; returns how far it came.
    double advance(double h) {
        const Guards before = guards(x);
        Trial t = tried(h);
        std::size_t which = first_fired(before, guards(t.state));
        if (which < Load::guard_count) {
            double low = 0.0;
            double high = h;
            for (int k = 0; k < 50; ++k) {
                const double middle = 0.5 * (low + high);
                const std::size_t there = first_fired(before, guards(tried(middle).state));
                (there < Load::guard_count ? high : low) = middle;
                which = there < Load::guard_count ? there : which;
            }
            h = high;
            t = tried(h);
        }
        x = t.state;
        work_J = t.work_J;
        pumped_kg = t.pumped_kg;
        if (which < Load::guard_count) {
            events += Load::guard_is_kink(which) ? 0 : 1;
            load.on_guard(which, x.data());
        }
        events_without_progress_ =
            which < Load::guard_count && h < 1e-12 ? events_without_progress_ + 1 : 0;
        if (events_without_progress_ > 20) {
            throw std::runtime_error("events of a turned load without progress");
        }
        return h;
    }
};

}  // namespace support
