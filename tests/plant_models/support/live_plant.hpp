// A plant with its state and its clock, for tests that place the events by hand.
//
// Integrates with the classical Runge-Kutta of order 4 in equal steps. It looks at one guard only,
// the one that a test asks for, and carries nothing out by itself.
#pragma once

#include <algorithm>
#include <boost/numeric/odeint/stepper/runge_kutta4_classic.hpp>
#include <cmath>
#include <cstddef>

#include "plant_models/plant.hpp"

namespace support {

template <class Supply, class Load>
class LivePlant {
  public:
    using Plant = plant_models::Plant<Supply, Load>;
    using State = typename Plant::State;

    LivePlant(const plant_models::MotorParameters& motor,
              const plant_models::LimiterParameters& limiter, const Supply& supply,
              const Load& load, double initial_speed_rad_per_s = 0.0)
        : plant(motor, limiter, supply, load), x(plant.initial_state(initial_speed_rad_per_s)) {
        refresh();
    }

    /// To be called after a test has written into `x` or `time_s`.
    void refresh() {
        plant.set_origin(time_s);
        plant.derivative(x, rate, time_s);
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
    void damage(const plant_models::Damage& damage) {
        plant.set_damage(damage, x, time_s);
        refresh();
    }
    void fire(std::size_t guard) {
        plant.on_guard(guard, x, rate, time_s);
        refresh();
    }

    double guard(std::size_t index) const {
        typename Plant::Guards values{};
        plant.guards(x, rate, time_s, values);
        return values[index];
    }
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

    void run_until(double end_s, double longest_step_s = 50e-6) {
        const double begin_s = time_s;
        const double steps = std::max(1.0, std::ceil((end_s - begin_s) / longest_step_s - 1e-9));
        for (double k = 0.0; k < steps; k += 1.0) {
            step(begin_s + (end_s - begin_s) * (k + 1.0) / steps - time_s);
        }
    }
    /// Runs to the guard's next change from positive to zero or below; false if there was none.
    bool run_to_zero(std::size_t index, double latest_s, double step_s = 20e-6) {
        while (time_s < latest_s) {
            const LivePlant before = *this;
            step(step_s);
            if (before.guard(index) > 0.0 && guard(index) <= 0.0) {
                double low = 0.0;
                double high = step_s;
                for (int k = 0; k < 60; ++k) {
                    const double middle = 0.5 * (low + high);
                    *this = before;
                    step(middle);
                    (guard(index) > 0.0 ? low : high) = middle;
                }
                *this = before;
                step(high);
                return true;
            }
        }
        return false;
    }

    Plant plant;
    State x;
    State rate{};
    double time_s = 0.0;

  private:
    void step(double length_s) {
        boost::numeric::odeint::runge_kutta4_classic<State> stepper;
        plant.set_origin(time_s);
        const auto system = [this](const State& at, State& dxdt, double t) {
            plant.derivative(at, dxdt, t);
        };
        stepper.do_step(system, x, time_s, length_s);
        time_s += length_s;
        refresh();
    }
};

}  // namespace support
