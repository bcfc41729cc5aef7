// A plant with its controller and one clock, on which starts are run one after another: the
// controller's code tick by tick against the plant, in the step order of
// sim/timeline/plant_run.hpp. What the plant has kept and what the controller remembers goes from
// each start into the next.
//
// Every start is seen with a clock of its own that begins with it, so its figures and monitors are
// those of a single run. Properties that reach over several starts (a standing rotor's feeding, the
// rest before a retry) are watched over the whole series as well.
//
// Energy: each start has its own audit, from its beginning to its end; coasting and rest are in
// none.
//
// Between two starts: coast(), then perhaps continue_with(), then rest().
#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include "firmware/contract/frames.hpp"
#include "sim/bench/course_recorder.hpp"
#include "sim/bench/start_result.hpp"
#include "sim/bench/tick_view.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/port_listener.hpp"
#include "sim/faults/fault_schedule.hpp"
#include "sim/metrics/start_metrics.hpp"
#include "sim/metrics/winding_heat.hpp"
#include "sim/monitors/monitor_list.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

/// Somebody who looks at every tick, such as the trace.
class TickObserver {
  public:
    virtual ~TickObserver() = default;
    virtual void observe(const TickView& view) = 0;
    /// Asked after every tick; false ends the start there, before the scenario's duration is over.
    virtual bool wants_more() const { return true; }
};

class StartBench {
  public:
    explicit StartBench(const Scenario& scenario);
    StartBench(const StartBench&) = delete;
    StartBench& operator=(const StartBench&) = delete;

    /// A bench on a copy of this plant as it rests now, with a controller of `scenario` that has
    /// just got power and knows nothing. The scenario must be the present one but for its limiter.
    std::unique_ptr<StartBench> copy_with_new_controller(const Scenario& scenario) const;

    /// Is told from now on what the controller goes through; in a direct start, nothing.
    void tell(PortListener& listener) { listener_ = &listener; }
    /// Null in a direct start.
    const ControllerPort* controller() const { return controller_.get(); }

    /// Runs a start over the scenario's duration, or for as long as the observer wants, with its
    /// call. Throws NumericFailure. `observer` may be null. (The result's monitors are those broken
    /// so far.)
    StartResult run_start(TickObserver* observer);

    struct RestPlan {
        double duration_s = 0.0;  ///< coasting included
        /// When the controller loses its power, until the rest is over; at the latest then. None:
        /// it keeps it.
        std::optional<double> power_off_after_s;
        std::uint32_t torn_seed = 0;  ///< of what that leaves of a store command on its way
    };
    /// The call ends. Coasts tick by tick until only slow states move, at most for the whole rest.
    void coast(const RestPlan& plan);
    /// Only slow states move.
    bool at_rest() const;
    /// The world changes, at rest: the plant goes on as the one of `scenario`, the controller
    /// stays.
    void continue_with(const Scenario& scenario, const KeptParts& kept);

    /// What followed a start.
    struct Rest {
        double coasting_s = 0.0;  ///< until only slow states moved; all of it if that never was
        double resting_s = 0.0;   ///< the remainder, taken at once
        /// Broken from the start's beginning until the rest; NamedViolation::time_s counts from
        /// the start's.
        std::vector<NamedViolation> monitors;
    };
    /// What coasting has left of the rest.
    Rest rest();
    /// Both, with power.
    Rest coast_and_rest(double duration_s) {
        coast({duration_s, std::nullopt, 0});
        return rest();
    }

    /// Of the controller's memory so far; all zero in a direct start.
    FlashStore::Wear store_wear() const;

    /// Of the integrator, since the plant was made: what running it costs, on any machine.
    std::int64_t steps() const { return plant_->steps(); }

    Instant now() const { return tick_ * tick_length; }

  private:
    StartBench(const Scenario& scenario, std::unique_ptr<PlantRun> plant);

    using SeriesMonitors = MonitorSet<StandingRotor, RestBeforeRetry>;

    void begin_start();
    void tick(bool called, TickObserver* observer);
    bool call_comes_through(bool call) const { return call && !faults_.effects().call_removed; }
    void carry_out_faults();
    std::optional<SeenDoing> seen_of_controller() const;
    void look(bool call, TickObserver* observer);
    const plant_models::PlantOutputs& in_this_start(const plant_models::PlantOutputs& outputs);
    MonitorContext monitor_context() const;
    std::vector<NamedViolation> broken() const;
    void rest_controller(std::int64_t ticks);
    firmware::ActuatorFrame step_controller(const firmware::SensorFrame& samples);
    void cut_power(Torn torn, std::uint32_t seed);
    void give_power();
    void take_power_away();
    void take_figures_of_motor();

    Scenario scenario_;  ///< as it is now
    double frequency_Hz_ = 0.0;
    double synchronous_rad_per_s_ = 0.0;
    std::unique_ptr<PlantRun> plant_;
    std::unique_ptr<ControllerPort> controller_;  ///< null in a direct start
    PortListener* listener_ = nullptr;            ///< may be null
    FaultSchedule faults_;
    WindingHeat winding_heat_;
    double hottest_winding_C_ = 0.0;  ///< in this start
    PowerCommands commands_;
    firmware::ActuatorFrame answer_;  ///< to the tick before; all outputs off at first
    firmware::SensorFrame samples_;
    std::int64_t tick_ = 0;

    RestPlan rest_plan_;
    std::int64_t rest_begin_ = 0;
    std::int64_t coasting_end_ = 0;
    std::int64_t rest_end_ = 0;
    std::int64_t power_off_at_ = 0;

    SeriesMonitors series_monitors_;
    std::int64_t start_tick_ = 0;  ///< at which this start began
    std::int64_t looked_at_ = -1;  ///< the last tick that metrics and monitors have seen
    int drop_outs_before_ = 0;
    plant_models::PlantOutputs shifted_;  ///< the outputs with the clock of this start
    std::optional<StartMetrics> metrics_;
    std::optional<Monitors> monitors_;
    CourseRecorder* course_ = nullptr;  ///< of the start that runs now
};

}  // namespace sim
