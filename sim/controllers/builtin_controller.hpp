// The controller that is compiled into this program: the firmware's own code.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "firmware/controller.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/watch_list.hpp"

namespace sim {

class BuiltinController final : public ControllerPort {
  public:
    BuiltinController(const firmware::Settings& settings, const FlashStore& store)
        : ControllerPort(store), settings_(settings) {}

    std::vector<std::string> watchable() const override { return watch_names(); }
    std::int64_t watched(std::size_t variable) const override {
        return controller_ ? watch_list().at(variable).value(*controller_) : 0;
    }

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
