#include "sim/controllers/processor_setup.hpp"

#include <cstdlib>

#include "sim/files/input_error.hpp"

namespace sim {

namespace {

std::string from_environment(const char* name, const std::string& otherwise) {
    // Read by everybody, written by nobody: safe on several threads.
    const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe)
    return value != nullptr && *value != '\0' ? value : otherwise;
}

int port_from(const std::string& text) {
    constexpr int largest_port = 65535;
    int port = 0;
    for (const char digit : text) {
        port = digit >= '0' && digit <= '9' && port <= largest_port ? port * 10 + (digit - '0')
                                                                    : largest_port + 1;
    }
    if (port < 1 || port > largest_port) {
        throw InputError("environment", 0, "RUNUP_DEBUGGER_PORT",
                         text + " is no port; give a whole number from 1 to 65535");
    }
    return port;
}

std::optional<ProcessorSetup>& scoped() {
    static std::optional<ProcessorSetup> setup;
    return setup;
}

}  // namespace

ScopedProcessorSetup::ScopedProcessorSetup(const ProcessorSetup& setup) {
    scoped() = setup;
}

ScopedProcessorSetup::~ScopedProcessorSetup() {
    scoped().reset();
}

ProcessorSetup processor_setup() {
    if (scoped()) {
        return *scoped();
    }
    ProcessorSetup setup;
    setup.emulator = from_environment("RUNUP_EMULATOR", setup.emulator);
    setup.processor = from_environment("RUNUP_PROCESSOR", setup.processor);
    setup.image = from_environment("RUNUP_PROCESSOR_IMAGE", "");
    setup.beside_host = from_environment("RUNUP_BESIDE_HOST", "0") == "1";
    const std::string port = from_environment("RUNUP_DEBUGGER_PORT", "");
    if (!port.empty()) {
        setup.debugger_port = port_from(port);
        // Whoever sits at a debugger takes as long as they like.
        setup.patience = std::chrono::milliseconds(-1);
    }
    return setup;
}

// The emulator has no board with a Cortex-M0+; a Cortex-M0 runs the same instructions.
EmulatedBoard board_for(const std::string& processor) {
    if (processor == "cortex-m4") {
        return {"mps2-an386", 25.0};
    }
    if (processor == "cortex-m0plus") {
        return {"microbit", 16.0};
    }
    throw InputError("environment", 0, "RUNUP_PROCESSOR",
                     processor + " has no board; give cortex-m4 or cortex-m0plus");
}

}  // namespace sim
