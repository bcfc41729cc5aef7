// The controller that is compiled into this program: the firmware's own code.
#pragma once

#include "firmware/controller.hpp"
#include "sim/controllers/controller_port.hpp"

namespace sim {

class BuiltinController final : public ControllerPort {
  public:
    explicit BuiltinController(const firmware::Settings& settings) : controller_(settings) {}

    firmware::ActuatorFrame step(const firmware::SensorFrame& samples) override {
        return controller_.step(samples);
    }
    void rest(firmware::Ticks ticks) override { controller_.rest(ticks); }
    const firmware::Telemetry& telemetry() const override { return controller_.telemetry(); }

  private:
    firmware::Controller controller_;
};

}  // namespace sim
