// An inverter on a resistive-inductive load, in time; the load may be changed at any instant.
#pragma once

#include <array>
#include <boost/numeric/odeint/stepper/runge_kutta4_classic.hpp>
#include <cmath>
#include <cstddef>

#include "plant_models/supplies/inverter.hpp"

namespace support {

class InverterBench {
  public:
    using Inverter = plant_models::Inverter;
    static constexpr std::size_t load_current = Inverter::state_count;
    /// The inverter's states, the load's current, the energy from the DC source and out of the bus.
    static constexpr std::size_t source_energy = load_current + 1;
    static constexpr std::size_t state_count = source_energy + 1;
    using State = std::array<double, state_count>;

    explicit InverterBench(const plant_models::InverterParameters& parameters)
        : inverter(parameters),
          bus_capacitance_F_(1e-6 * parameters.completed().bus_capacitance_uF) {
        const auto initial = inverter.initial_state();
        for (std::size_t k = 0; k < Inverter::state_count; ++k) {
            x[k] = initial[k];
        }
    }

    void open_circuit() {
        loaded_ = false;
        x[load_current] = 0.0;
    }
    void connect(double resistance_ohm, double inductance_mH) {
        loaded_ = true;
        resistance_ohm_ = resistance_ohm;
        inductance_H_ = 1e-3 * inductance_mH;
    }

    /// Calls `look` after each step. Trips are polled there: late by a step at most.
    template <class Look>
    void run_for(double duration_s, Look look) {
        const int steps = static_cast<int>(std::ceil(duration_s / step_s - 1e-9));
        for (int k = 0; k < steps; ++k) {
            step();
            look();
        }
    }
    void run_for(double duration_s) {
        run_for(duration_s, [] {});
    }
    /// RMS of the output voltage over the next cycle.
    double next_cycle_rms_V() {
        double sum = 0.0;
        int count = 0;
        run_for(1.0 / inverter.frequency_Hz(), [&] {
            sum += x[Inverter::output_voltage] * x[Inverter::output_voltage];
            ++count;
        });
        return std::sqrt(sum / count);
    }
    bool tripped() const { return !inverter.trip_cause().empty(); }
    double bus_energy_J() const {
        return 0.5 * bus_capacitance_F_ * x[Inverter::bus_voltage] * x[Inverter::bus_voltage];
    }

    static constexpr double step_s = 10e-6;
    Inverter inverter;
    State x{};
    double time_s = 0.0;

  private:
    plant_models::SupplyLoading loading(const State& at) const {
        return {at[load_current], 0.0, at[Inverter::output_voltage]};
    }
    void step() {
        std::array<double, Inverter::guard_count> before{};
        std::array<double, Inverter::guard_count> after{};
        inverter.set_origin(time_s);
        inverter.guards(x.data(), time_s, loading(x), before.data());
        const auto system = [this](const State& at, State& rate, double t) {
            const auto power = inverter.derivatives(at.data(), rate.data(), t, loading(at));
            rate[source_energy] = power.source_W;
            rate[load_current] =
                loaded_ ? (at[Inverter::output_voltage] - resistance_ohm_ * at[load_current]) /
                              inductance_H_
                        : 0.0;
        };
        boost::numeric::odeint::runge_kutta4_classic<State> stepper;
        stepper.do_step(system, x, time_s, step_s);
        time_s += step_s;
        inverter.set_origin(time_s);
        inverter.guards(x.data(), time_s, loading(x), after.data());
        for (std::size_t k = 0; k < Inverter::guard_count; ++k) {
            if (!Inverter::guard_is_kink(k) && before[k] > 0.0 && after[k] <= 0.0) {
                inverter.on_guard(k, x.data());
            }
        }
    }

    double bus_capacitance_F_;
    bool loaded_ = false;
    double resistance_ohm_ = 0.0;
    double inductance_H_ = 1.0;
};

}  // namespace support
