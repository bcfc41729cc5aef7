// Any supply on a resistive-inductive load, in time, with its events located and its energy booked.
// The load may be changed at any instant. The integration is this bench's own.
#pragma once

#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/runge_kutta4_classic.hpp>
#include <cmath>
#include <cstddef>

#include "plant_models/supplies/supply_interface.hpp"

namespace support {

template <class Supply>
class SupplyBench {
  public:
    static constexpr std::size_t load_current = Supply::state_count;
    static constexpr std::size_t source_energy = load_current + 1;
    static constexpr std::size_t loss_energy = source_energy + 1;  ///< of the supply with its R
    static constexpr std::size_t load_energy = loss_energy + 1;
    static constexpr std::size_t state_count = load_energy + 1;
    using State = std::array<double, state_count>;
    using Guards = std::array<double, Supply::guard_count>;

    explicit SupplyBench(const typename Supply::Parameters& parameters) : supply(parameters) {
        const auto initial = supply.initial_state();
        for (std::size_t k = 0; k < Supply::state_count; ++k) {
            x[k] = initial[k];
        }
        initial_stored_J_ = stored_energy_J();
    }

    /// With an inductance of 0 in the whole circuit there would be nothing to integrate.
    void connect(double resistance_ohm, double inductance_mH, double iron_S = 0.0) {
        loaded_ = true;
        resistance_ohm_ = resistance_ohm;
        inductance_H_ = 1e-3 * inductance_mH;
        iron_S_ = iron_S;
    }
    /// What is left in the inductances then is lost in the contact.
    void open_circuit() {
        x[loss_energy] += magnetic_energy_J();
        loaded_ = false;
        x[load_current] = 0.0;
    }

    /// Calls `look` after each step; ends early at a trip if told so.
    template <class Look>
    void run_for(double duration_s, Look look) {
        const double end_s = time_s + duration_s;
        while (end_s - time_s > 1e-12) {
            step(std::min(step_s, end_s - time_s));
            look();
        }
    }
    void run_for(double duration_s) {
        run_for(duration_s, [] {});
    }
    /// Time until the supply trips; NaN if it does not within the limit.
    double time_to_trip_s(double limit_s) {
        const double begin_s = time_s;
        while (supply.trip_cause().empty() && time_s - begin_s < limit_s) {
            step(step_s);
        }
        return supply.trip_cause().empty() ? std::nan("") : trip_time_s - begin_s;
    }
    double terminal_voltage_V() { return loading(x).terminal_voltage_V; }
    double emf_V() {
        supply.set_origin(time_s);
        return supply.emf_V(x.data(), time_s);
    }
    double rms_of_next(double duration_s) {
        double sum = 0.0;
        double weight = 0.0;
        double last_s = time_s;
        run_for(duration_s, [&] {
            const double voltage = terminal_voltage_V();
            sum += voltage * voltage * (time_s - last_s);
            weight += time_s - last_s;
            last_s = time_s;
        });
        return std::sqrt(sum / weight);
    }
    /// Energy that is missing, of what the source gave.
    double closure() const {
        const double stored = stored_energy_J() - initial_stored_J_;
        return (x[source_energy] - x[loss_energy] - x[load_energy] - stored) /
               std::abs(x[source_energy]);
    }
    std::array<double, Supply::channel_count> channels() {
        supply.set_origin(time_s);
        return supply.channels(x.data(), time_s, loading(x));
    }

    double step_s = 20e-6;
    Supply supply;
    State x{};
    double time_s = 0.0;
    double trip_time_s = 0.0;
    int events = 0;

  private:
    using Stepper = boost::numeric::odeint::runge_kutta4_classic<State>;

    double whole_inductance_H() const { return supply.series_inductance_H() + inductance_H_; }
    double magnetic_energy_J() const {
        return 0.5 * whole_inductance_H() * x[load_current] * x[load_current];
    }
    double stored_energy_J() const {
        return supply.stored_energy_J(x.data()) + magnetic_energy_J();
    }
    double current_rate(const State& at, double t) const {
        if (!loaded_) {
            return 0.0;
        }
        return (supply.emf_V(at.data(), t) -
                (supply.series_resistance_ohm() + resistance_ohm_) * at[load_current]) /
               whole_inductance_H();
    }
    plant_models::SupplyLoading loading(const State& at, double t) const {
        const double terminal = supply.emf_V(at.data(), t) -
                                supply.series_resistance_ohm() * at[load_current] -
                                supply.series_inductance_H() * current_rate(at, t);
        return {at[load_current], iron_S_ * terminal, terminal};
    }
    plant_models::SupplyLoading loading(const State& at) {
        supply.set_origin(time_s);
        return loading(at, time_s);
    }
    State tried(double length_s) {
        const auto system = [this](const State& at, State& rate, double t) {
            const plant_models::SupplyLoading now = loading(at, t);
            const auto power = supply.derivatives(at.data(), rate.data(), t, now);
            const double i = at[load_current];
            rate[load_current] = current_rate(at, t);
            rate[source_energy] = power.source_W;
            rate[loss_energy] = power.loss_W + supply.series_resistance_ohm() * i * i;
            rate[load_energy] =
                resistance_ohm_ * i * i + now.iron_current_A * now.terminal_voltage_V;
        };
        supply.set_origin(time_s);
        State trial = x;
        Stepper().do_step(system, trial, time_s, length_s);
        return trial;
    }
    Guards guards(const State& at, double t) const {
        Guards values{};
        supply.guards(at.data(), t, loading(at, t), values.data());
        return values;
    }
    static bool fired(std::size_t k, const Guards& before, const Guards& after) {
        return Supply::guard_is_kink(k) ? before[k] * after[k] < 0.0 : after[k] <= 0.0;
    }

    void step(double length_s) {
        State trial = tried(length_s);
        if constexpr (Supply::guard_count > 0) {
            const Guards before = guards(x, time_s);
            std::size_t first = Supply::guard_count;
            // Bisection to the first event: each round halves what the remaining guards allow.
            for (std::size_t k = 0; k < Supply::guard_count; ++k) {
                if (!fired(k, before, guards(trial, time_s + length_s))) {
                    continue;
                }
                double low_s = 0.0;
                while (length_s - low_s > 1e-13) {
                    const double middle_s = 0.5 * (low_s + length_s);
                    const bool yet = fired(k, before, guards(tried(middle_s), time_s + middle_s));
                    (yet ? length_s : low_s) = middle_s;
                }
                length_s = std::max(length_s, 1e-10);
                trial = tried(length_s);
                first = k;
            }
            x = trial;
            time_s += length_s;
            if (first < Supply::guard_count) {
                take(first);
            }
        } else {
            x = trial;
            time_s += length_s;
        }
    }
    void take(std::size_t guard) {
        ++events;
        const bool ran = supply.trip_cause().empty();
        supply.on_guard(guard, x.data());
        if (ran && !supply.trip_cause().empty()) {
            trip_time_s = time_s;
        }
        if (supply.disconnected() && loaded_) {
            open_circuit();
        }
    }

    bool loaded_ = false;
    double resistance_ohm_ = 0.0;
    double inductance_H_ = 1.0;
    double iron_S_ = 0.0;
    double initial_stored_J_ = 0.0;
};

}  // namespace support
