// The plant in time: advances it to an instant, and lets its coils and its gate be commanded there.
//
// This is the one place where the order of a step and the tie-break of equal times are written.
//
//   For every tick k, at t_k = k * 100 us:
//     1. the plant has been advanced to t_k: every plant event located in (t_{k-1}, t_k] is done
//     2. the outputs at t_k are read; sensors, metrics, monitors and the trace see the same values
//     3. what breaks or is mended at t_k does so (sim/faults/fault_schedule.hpp); then the frame
//     that
//        answers tick k-1 is applied: coils first, then the gate window [t_k, t_k+1)
//     4. the controller is stepped with the samples of t_k; its frame waits for t_k+1
//     5. the plant is advanced to t_k+1
//   Advancing from one instant to the next known stop (contact edge, gate edge, target):
//     a. edges that are due now: line contactor, start contact, bypass contact, gate, in this order
//     b. integrate to the stop in equal steps no longer than the plant's largest step
//     c. if a guard fired within a step: locate the earliest zero, step to it, carry it out (equal
//        times: the lower guard index first), evaluate the derivative again, go on
//   An edge exactly at the target belongs to the next interval: intervals are half-open [a, b).
//
//   A step without events may reach beyond the target, to twice the distance: the point at the
//   target is then read from the step's cubic interpolant, and the step is only given up if a
//   command changes something before its end. Between the pulses of a start most ticks change
//   nothing.
//
// Timeline instants are integer nanoseconds. A located event restarts the integration from where it
// was found, without rounding, so that locating keeps the order of the method.
//
// Between events Boost.Odeint's classical Runge-Kutta of order 4 integrates; the derivative at the
// end of a step serves the guards, the outputs and the next step's first stage.
#pragma once

#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string_view>
#include <vector>

#include "plant_models/conditions.hpp"
#include "plant_models/damage.hpp"
#include "plant_models/loads/load_list.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/numeric/instant.hpp"
#include "plant_models/plant.hpp"
#include "plant_models/plant_outputs.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"
#include "plant_models/supplies/supply_list.hpp"
#include "plant_models/switches/limiter_parameters.hpp"
#include "plant_models/unit/unit_parameters.hpp"

namespace sim {

using plant_models::Instant;

/// What the bench commands at a tick.
struct PowerCommands {
    bool line_coil = false;
    bool start_capacitor_coil = false;
    bool bypass_coil = false;
    Instant gate_on{0};   ///< from the start of the tick
    Instant gate_off{0};  ///< equal to gate_on: no pulse; a whole tick: goes on into the next
};

/// How the motor is connected.
enum class Connection {
    through_limiter,
    direct  ///< no limiter: main winding and run capacitor straight on the contactor
};

struct PlantDescription {
    plant_models::MotorParameters motor;
    plant_models::AnyLoadParameters load;
    plant_models::AnySupplyParameters supply;
    plant_models::LimiterParameters limiter;  ///< ignored when direct
    Connection connection = Connection::direct;
    plant_models::SeriesImpedance wiring;
    plant_models::UnitParameters unit;                ///< what is fitted around the motor
    plant_models::RefrigerantParameters refrigerant;  ///< ignored by a load without one
    plant_models::Conditions conditions;
    double initial_speed_rad_per_s = 0.0;
    /// Upper bound for the integration step; the plant's own bound applies as well.
    Instant largest_step{200000};
};

/// The numbers left the range in which they mean anything; says where and when.
class NumericFailure : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// What of a plant goes on in another one.
struct KeptParts {
    bool supply = true;
    bool unit = true;  ///< motor, load, refrigerant and what is fitted around them
};

class PlantRun {
  public:
    virtual ~PlantRun() = default;

    /// Another plant in the same state, which goes its own way from here.
    virtual std::unique_ptr<PlantRun> copy() const = 0;

    /// Throws NumericFailure. Allocates nothing.
    virtual void advance_to(Instant target) = 0;
    virtual void apply(const PowerCommands& commands) = 0;
    /// What is broken from now on; replaces what was broken before.
    virtual void set_damage(const plant_models::Damage& damage) = 0;
    /// At `now`; valid until the plant is advanced or commanded.
    virtual const plant_models::PlantOutputs& outputs() = 0;
    /// Since the run began, or since the audit was restarted.
    virtual plant_models::EnergyAudit energy() const = 0;
    /// The audit begins anew here. Each start of a series has its own: a rest books nothing.
    virtual void restart_audit() = 0;
    /// Whether a rest may begin here: nothing is commanded, every contact has come to rest, the
    /// line is open, the windings' currents have died away, the rotor stands, and the supply has
    /// settled. Until then the plant has to be advanced.
    virtual bool at_rest() const = 0;
    /// Advances by `duration` at rest, at a cost that hardly depends on it: only pressures, heat,
    /// timers and charge move, in closed form or in steps of their own. What the supply has left of
    /// a cycle is integrated. Throws std::logic_error if the plant is not at rest.
    virtual void rest(Instant duration) = 0;
    /// Goes on from where `before`, which is at rest, stands: its clock, and what is kept of it
    /// with this run's own numbers (a kept supply keeps its old ones, too). What is not kept is as
    /// when a run begins. Before anything else is done with this run. Throws std::bad_cast if a
    /// part that should be kept is of another kind here.
    virtual void continue_from(const PlantRun& before, const KeptParts& kept) = 0;
    virtual Instant now() const = 0;
    /// Of what the models show beyond the plant's own outputs (PlantOutputs::model_channels).
    virtual const std::vector<std::string_view>& channel_names() const = 0;
    /// How many events were located so far, and how many steps were taken.
    virtual std::int64_t events() const = 0;
    virtual std::int64_t steps() const = 0;
};

std::unique_ptr<PlantRun> make_plant_run(const PlantDescription& description);

}  // namespace sim
