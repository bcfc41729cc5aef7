// How controllers of kind "processor" are run in this program: with what emulator, what image, on
// what processor. It is a matter of the machine, not of a scenario, so it comes from the
// environment:
//
//   RUNUP_EMULATOR         program (qemu-system-arm)
//   RUNUP_PROCESSOR        cortex-m4 (the default) or cortex-m0plus
//   RUNUP_PROCESSOR_IMAGE  file with the controller's program, instead of the one built in
//   RUNUP_DEBUGGER_PORT    the processor waits for a debugger at this port of localhost
//   RUNUP_BESIDE_HOST      1: this build's controller runs beside it, and a difference is a failure
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

namespace sim {

class ProcessorWitness;

struct ProcessorSetup {
    std::string emulator = "qemu-system-arm";
    std::string processor = "cortex-m4";
    std::string image;  ///< empty: the one built in
    std::optional<int> debugger_port;
    bool beside_host = false;
    ProcessorWitness* witness = nullptr;  ///< looks on instead of it; outlives the controllers
    /// Longer without an answer: it hangs. The slowest emulated tick takes a millisecond; this
    /// bears a machine that is busy with other things. (Engineering judgement.)
    std::chrono::milliseconds patience = std::chrono::seconds(20);
};

/// From the environment, unless somebody has set another. Throws InputError for a value that cannot
/// be.
ProcessorSetup processor_setup();

/// As long as this exists, processor_setup() gives this one. For programs that look on, before
/// they have threads.
class ScopedProcessorSetup {
  public:
    explicit ScopedProcessorSetup(const ProcessorSetup& setup);
    ~ScopedProcessorSetup();
    ScopedProcessorSetup(const ScopedProcessorSetup&) = delete;
    ScopedProcessorSetup& operator=(const ScopedProcessorSetup&) = delete;
};

/// A processor that the emulator knows a board for, and that board.
struct EmulatedBoard {
    std::string machine;         ///< the emulator's name of it
    double timer_frequency_MHz;  ///< of the processor's own timer (SysTick) on it
};
/// Throws InputError.
EmulatedBoard board_for(const std::string& processor);

}  // namespace sim
