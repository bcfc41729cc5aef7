// The controller's program on an emulated processor, in lock-step: one request over the wire, one
// answer back (firmware/board/wire.hpp). Between them the processor stands still, and while it
// computes, nobody else does.
//
// Every power-up starts the emulator anew, so nothing survives but what the store holds; losing
// power ends it. The emulator counts instructions and its clock runs by that count, so the
// processor's timer tells what a step cost, and the same inputs cost the same on any machine.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "firmware/board/wire.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/emulator_process.hpp"
#include "sim/controllers/processor_setup.hpp"

namespace sim {

class EmulatedProcessor {
  public:
    /// Without power. Throws InputError if there is no emulator, or no program for the processor.
    explicit EmulatedProcessor(const ProcessorSetup& setup);

    /// Each tells what has failed, if anything; then the power is gone.
    using Failed = std::optional<ControllerFailure>;
    Failed power_up(const firmware::Settings& settings, const firmware::StorePages& store);
    Failed step(const firmware::SensorFrame& samples);
    Failed rest(firmware::Ticks ticks);
    void power_down() { process_.reset(); }

    /// To the last of them that did not fail.
    const firmware::board::Answer& answer() const { return answer_; }
    /// Executed for it by the controller; 0 for a power-up.
    std::int64_t instructions() const;
    /// Of the life that goes on; none without power, or without an answer.
    std::optional<firmware::board::StackUse> stack_use();

  private:
    Failed greet();
    Failed ask(const firmware::board::Request& request);
    Failed take_answer();
    Failed receive(void* bytes, std::size_t count);
    ControllerFailure failure(const std::string& cause, const std::string& words);

    ProcessorSetup setup_;
    EmulatedBoard board_;
    std::string image_;
    std::unique_ptr<EmulatorProcess> process_;  ///< null without power
    firmware::board::Answer answer_;
    std::uint64_t steps_ = 0;  ///< since power-up
};

}  // namespace sim
