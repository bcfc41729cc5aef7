// The controller that is compiled into this program: the firmware's own code.
#pragma once

#include <optional>

#include "firmware/controller.hpp"
#include "sim/controllers/controller_port.hpp"

namespace sim {

class BuiltinController final : public ControllerPort {
  public:
    BuiltinController(const firmware::Settings& settings, const FlashStore& store)
        : ControllerPort(store), settings_(settings) {}

  private:
    void begin(const firmware::StorePages& at_power_up) override {
        controller_.emplace(settings_, at_power_up);
    }
    void end() override { controller_.reset(); }
    firmware::ActuatorFrame answer(const firmware::SensorFrame& samples) override {
        return controller_->step(samples);
    }
    void sleep(firmware::Ticks ticks) override { controller_->rest(ticks); }
    firmware::StoreCommand store_command() const override { return controller_->store_command(); }
    const firmware::Telemetry& told() const override { return controller_->telemetry(); }

    firmware::Settings settings_;
    std::optional<firmware::Controller> controller_;  ///< none without power
};

}  // namespace sim
