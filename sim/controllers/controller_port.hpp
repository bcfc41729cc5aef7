// Where a controller plugs into the bench: a pure step from a sensor frame to an actuator frame,
// with the store that it keeps its memory in and the power that it runs on.
// No simulated time passes while it computes; its real cost is the one-tick delay of the step
// order in sim/timeline/plant_run.hpp.
//
// Power: without it every output is off and the telemetry is blank; when it comes back, a new
// controller begins that knows nothing but what the store holds.
//
// Store: a controller's command is carried out from its tick on. While the erase of a page lasts,
// the controller is not stepped (its processor stalls): the coils stay as they were, no gate pulse
// is given.
//
// A kind of controller derives from this and fills in the private functions. Nothing here
// allocates once the port is made.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/store.hpp"
#include "firmware/telemetry.hpp"
#include "firmware/units/units.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "sim/controllers/commissioned_store.hpp"
#include "sim/controllers/controller_failure.hpp"
#include "sim/controllers/flash_store.hpp"
#include "sim/controllers/seen_doing.hpp"
#include "sim/scenario/limiter_choice.hpp"

namespace sim {

class ControllerPort {
  public:
    virtual ~ControllerPort() = default;
    ControllerPort(const ControllerPort&) = delete;
    ControllerPort& operator=(const ControllerPort&) = delete;

    /// One tick, with power or without.
    firmware::ActuatorFrame step(const firmware::SensorFrame& samples);
    /// So many ticks pass, at least one, all without a call; the frame before them is void and
    /// everything is off. The controller may sleep meanwhile.
    void rest(firmware::Ticks ticks);
    /// As of the last step or rest; blank without power.
    const firmware::Telemetry& telemetry() const;

    /// The controller is gone, and a command of its last step that was still being carried out is
    /// torn. Without power already: nothing happens.
    void lose_power(Torn torn = Torn::in_part, std::uint32_t seed = 0);
    /// A new controller, on what the store holds. With power already: nothing happens.
    void power_up();
    bool has_power() const { return has_power_; }
    /// No command is on its way; a controller that has more to store gives one in every tick.
    bool store_is_quiet() const { return !store_.busy(); }

    const FlashStore& store() const { return store_; }

    /// The first failure. From its tick on every output is off, whatever happens to the power: the
    /// run goes on to its end, and keeps its figures.
    const std::optional<ControllerFailure>& failure() const { return failure_; }

    /// Of a telemetry that is somebody else's, at most state and reason say anything.
    virtual bool tells_only_states() const { return false; }
    /// What it is seen to do, if it does not tell its states; then those of its telemetry are
    /// `nearest_state` of this.
    virtual std::optional<SeenDoing> seen() const { return std::nullopt; }
    /// What people should know of it though it is no failure: one sentence, or nothing.
    virtual std::string remark() const { return {}; }

    /// What can be watched of the controller beside its telemetry, by name, in the order of
    /// `watched()`; the same as long as the controller exists.
    virtual std::vector<std::string> watchable() const { return {}; }
    /// One of them, as of the last step; 0 without power.
    virtual std::int64_t watched(std::size_t /*variable*/) const { return 0; }

  protected:
    /// Without power at first.
    explicit ControllerPort(const FlashStore& store) : store_(store) {}

    /// For a kind that runs outside this program, in any of the functions below.
    void fail(ControllerFailure failure);

  private:
    virtual void begin(const firmware::StorePages& at_power_up) = 0;
    virtual void end() = 0;
    virtual firmware::ActuatorFrame answer(const firmware::SensorFrame& samples) = 0;
    virtual void sleep(firmware::Ticks ticks) = 0;
    /// Of the last answer; none after a sleep.
    virtual firmware::StoreCommand store_command() const = 0;
    virtual const firmware::Telemetry& told() const = 0;

    FlashStore store_;
    firmware::ActuatorFrame answered_;
    std::optional<ControllerFailure> failure_;
    bool has_power_ = false;
};

/// The controller of a limiter, with power; null for kind "none". It is told what an installer
/// reads off the plate: the rated voltage, unless the settings give one, and that no run capacitor
/// is fitted.
std::unique_ptr<ControllerPort> make_controller(
    const LimiterChoice& limiter, const plant_models::MotorParameters& motor,
    const FlashStore& store = FlashStore(commissioned_store()));

}  // namespace sim
