// Kind "processor": the controller's program on an emulated processor, stepped in lock-step.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/controllers/beside_host.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/emulated_processor.hpp"
#include "sim/controllers/processor_witness.hpp"

namespace sim {

class ProcessorController final : public ControllerPort {
  public:
    /// Throws InputError without an emulator or a program.
    ProcessorController(const firmware::Settings& settings, const FlashStore& store,
                        const ProcessorSetup& setup);

    /// "instructions": what the last step cost.
    std::vector<std::string> watchable() const override { return {"instructions"}; }
    std::int64_t watched(std::size_t /*variable*/) const override {
        return has_power() ? processor_.instructions() : 0;
    }

    EmulatedProcessor& processor() { return processor_; }

  private:
    void begin(const firmware::StorePages& at_power_up) override;
    void end() override { processor_.power_down(); }
    firmware::ActuatorFrame answer(const firmware::SensorFrame& samples) override;
    void sleep(firmware::Ticks ticks) override;
    firmware::StoreCommand store_command() const override { return processor_.answer().command; }
    const firmware::Telemetry& told() const override { return processor_.answer().telemetry; }

    void note(const ProcessorWitness::Objection& failure);

    firmware::Settings settings_;
    EmulatedProcessor processor_;
    BesideHost beside_host_;
    ProcessorWitness* witness_;  ///< may be null
};

}  // namespace sim
