// Where a controller plugs into the bench: a pure step from a sensor frame to an actuator frame.
// No simulated time passes while it computes; its real cost is the one-tick delay of the step
// order in sim/timeline/plant_run.hpp.
#pragma once

#include <memory>

#include "firmware/contract/frames.hpp"
#include "firmware/telemetry.hpp"
#include "firmware/units/units.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "sim/scenario/limiter_choice.hpp"

namespace sim {

class ControllerPort {
  public:
    virtual ~ControllerPort() = default;
    virtual firmware::ActuatorFrame step(const firmware::SensorFrame& samples) = 0;
    /// So many ticks pass, at least one, all without a call; the frame before them is void and
    /// everything is off. The controller may sleep meanwhile.
    virtual void rest(firmware::Ticks ticks) = 0;
    /// Everything is forgotten but what the store holds; the next step is the first after power-up.
    virtual void lose_power() = 0;
    virtual const firmware::Telemetry& telemetry() const = 0;
};

/// The controller of a limiter; null for kind "none". It is told what an installer reads off the
/// plate: the rated voltage, unless the settings give one, and that no run capacitor is fitted.
std::unique_ptr<ControllerPort> make_controller(const LimiterChoice& limiter,
                                                const plant_models::MotorParameters& motor);

}  // namespace sim
