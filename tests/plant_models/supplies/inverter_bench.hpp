// An inverter on a resistive-inductive load, in time; the load may be changed at any instant.
#pragma once

#include <array>
#include <boost/numeric/odeint/stepper/runge_kutta4_classic.hpp>
#include <cmath>
#include <cstddef>

#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/inverter.hpp"

namespace support {

class InverterBench {
  public:
    using Inverter = plant_models::Inverter;
    static constexpr std::size_t load_current = Inverter::state_count;
    /// The inverter's states, the load's current, and what the DC source gave, what was lost inside
    /// the inverter and what left it.
    static constexpr std::size_t source_energy = load_current + 1;
    static constexpr std::size_t loss_energy = source_energy + 1;
    static constexpr std::size_t output_energy = loss_energy + 1;
    static constexpr std::size_t state_count = output_energy + 1;
    using State = std::array<double, state_count>;

    explicit InverterBench(const plant_models::InverterParameters& parameters)
        : inverter(parameters),
          bus_capacitance_F_(1e-6 * parameters.completed().bus_capacitance_uF) {
        const auto initial = inverter.initial_state();
        for (std::size_t k = 0; k < Inverter::state_count; ++k) {
            x[k] = initial[k];
        }
        initial_stored_J_ = inverter.stored_energy_J(x.data());
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

    /// Calls `look` after each step.
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
    double next_cycle_rms_V() { return next_cycle().voltage_rms_V; }

    struct Cycle {
        double voltage_rms_V;
        double current_rms_A;
        double current_crest_A;
        double voltage_distortion;  ///< harmonics and all else / fundamental
        double current_distortion;
    };
    /// What a power analyser shows of the next cycle's output voltage and load current.
    Cycle next_cycle() {
        Sine voltage;
        Sine current;
        double crest_A = 0.0;
        const double cycle_s = 1.0 / inverter.frequency_Hz(x.data());
        const double begin_s = time_s;
        int count = 0;
        run_for(cycle_s, [&] {
            const double angle = 2.0 * plant_models::pi * (time_s - begin_s) / cycle_s;
            voltage.add(x[Inverter::output_voltage], angle);
            current.add(x[load_current], angle);
            crest_A = std::fmax(crest_A, std::abs(x[load_current]));
            ++count;
        });
        return {voltage.rms(count), current.rms(count), crest_A, voltage.distortion(),
                current.distortion()};
    }

    bool tripped() const { return !inverter.trip_cause().empty(); }
    double bus_energy_J() const {
        return 0.5 * bus_capacitance_F_ * x[Inverter::bus_voltage] * x[Inverter::bus_voltage];
    }
    /// What is missing of the source's energy, in joules.
    double unaccounted_J() const {
        return x[source_energy] - x[loss_energy] - x[output_energy] -
               (inverter.stored_energy_J(x.data()) - initial_stored_J_);
    }
    plant_models::SupplyLoading loading() const { return loading(x); }

    static constexpr double step_s = 10e-6;
    Inverter inverter;
    State x{};
    double time_s = 0.0;

  private:
    using Guards = std::array<double, Inverter::guard_count>;

    struct Sine {
        void add(double value, double angle) {
            const double s = std::sin(angle);
            const double c = std::cos(angle);
            square += value * value;
            sine += value * s;
            cosine += value * c;
            sine_square += s * s;
            cosine_square += c * c;
            product += s * c;
        }
        double rms(int count) const { return std::sqrt(square / count); }
        /// Least squares: the samples need not be an exact cycle.
        double distortion() const {
            const double determinant = sine_square * cosine_square - product * product;
            const double a = (sine * cosine_square - cosine * product) / determinant;
            const double b = (cosine * sine_square - sine * product) / determinant;
            const double fundamental = a * sine + b * cosine;
            return fundamental > 0.0 ? std::sqrt(std::fmax(0.0, square - fundamental) / fundamental)
                                     : 0.0;
        }
        double square = 0.0;
        double sine = 0.0;
        double cosine = 0.0;
        double sine_square = 0.0;
        double cosine_square = 0.0;
        double product = 0.0;
    };

    plant_models::SupplyLoading loading(const State& at) const {
        return {at[load_current], 0.0, at[Inverter::output_voltage]};
    }
    Guards guards() {
        Guards values{};
        inverter.set_origin(time_s);
        inverter.guards(x.data(), time_s, loading(x), values.data());
        return values;
    }
    void integrate(double length_s) {
        inverter.set_origin(time_s);
        const auto system = [this](const State& at, State& rate, double t) {
            const auto power = inverter.derivatives(at.data(), rate.data(), t, loading(at));
            rate[source_energy] = power.source_W;
            rate[loss_energy] = power.loss_W;
            rate[output_energy] = at[Inverter::output_voltage] * at[load_current];
            rate[load_current] =
                loaded_ ? (at[Inverter::output_voltage] - resistance_ohm_ * at[load_current]) /
                              inductance_H_
                        : 0.0;
        };
        boost::numeric::odeint::runge_kutta4_classic<State> stepper;
        stepper.do_step(system, x, time_s, length_s);
        time_s += length_s;
    }
    static bool fired(const Guards& values, std::size_t guard) {
        return !Inverter::guard_is_kink(guard) && values[guard] <= 0.0;
    }
    static bool any_fired(const Guards& values) {
        for (std::size_t k = 0; k < Inverter::guard_count; ++k) {
            if (fired(values, k)) {
                return true;
            }
        }
        return false;
    }
    /// One step, in which each event is found by halving and taken. Kinks are passed over.
    void step() {
        double left_s = step_s;
        int events = 0;
        while (left_s > 0.0) {
            const State from = x;
            const double from_s = time_s;
            const auto to = [&](double length_s) {
                x = from;
                time_s = from_s;
                integrate(length_s);
                return guards();
            };
            if (!any_fired(to(left_s)) || ++events > most_events_in_one_step) {
                return;
            }
            double low_s = 0.0;
            double high_s = left_s;
            while (high_s - low_s > 1e-12) {
                const double middle_s = 0.5 * (low_s + high_s);
                (any_fired(to(middle_s)) ? high_s : low_s) = middle_s;
            }
            const Guards at_event = to(high_s);
            for (std::size_t k = 0; k < Inverter::guard_count; ++k) {
                if (fired(at_event, k)) {
                    inverter.on_guard(k, x.data());
                    break;
                }
            }
            left_s -= high_s;
        }
    }

    static constexpr int most_events_in_one_step = 20;
    double bus_capacitance_F_;
    double initial_stored_J_;
    bool loaded_ = false;
    double resistance_ohm_ = 0.0;
    double inductance_H_ = 1.0;
};

}  // namespace support
