#include "sim/controllers/emulated_processor.hpp"

#include <fmt/format.h>

#include <cmath>
#include <exception>
#include <string>
#include <utility>
#include <vector>

#include "sim/controllers/legal_answer.hpp"
#include "sim/controllers/processor_image.hpp"
#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"

namespace sim {

namespace {

using firmware::board::Answer;
using firmware::board::Hello;
using firmware::board::Request;
using firmware::board::RequestKind;
using firmware::board::StackUse;

/// One instruction takes 2^10 ns of the emulated clock: then the timer, which is at least as fast
/// as a count per 62.5 ns, tells single instructions apart.
constexpr int clock_shift = 10;
constexpr double instruction_us = 1.024;

constexpr std::size_t most_image_bytes = 16U << 20U;

std::string image_for(const ProcessorSetup& setup) {
    if (!setup.image.empty()) {
        return read_bounded_input(setup.image, most_image_bytes);
    }
    for (const ProcessorImage& image : embedded_processor_images()) {
        if (image.processor == setup.processor) {
            return std::string(image.elf);
        }
    }
    throw InputError(
        "limiter.kind", 0, "",
        "\"processor\" needs the controller's program for it, and this runup was built "
        "without the ARM compiler; install the Debian packages gcc-arm-none-eabi and "
        "libstdc++-arm-none-eabi-newlib and build again, or name a program in "
        "RUNUP_PROCESSOR_IMAGE");
}

std::vector<std::string> command_of(const ProcessorSetup& setup, const EmulatedBoard& board) {
    std::vector<std::string> command = {
        setup.emulator, "-M", board.machine, "-kernel", EmulatorProcess::image_path(),
        // Nothing of the user's, no windows, no sockets.
        "-no-user-config", "-display", "none", "-serial", "none", "-monitor", "none", "-parallel",
        "none", "-semihosting-config", "enable=on,target=native", "-icount",
        fmt::format("shift={},align=off,sleep=off", clock_shift)};
    if (setup.debugger_port) {
        command.insert(command.end(),
                       {"-gdb", fmt::format("tcp:127.0.0.1:{}", *setup.debugger_port), "-S"});
    }
    return command;
}

}  // namespace

EmulatedProcessor::EmulatedProcessor(const ProcessorSetup& setup)
    : setup_(setup), board_(board_for(setup.processor)), image_(image_for(setup)) {
    if (!can_be_started(setup.emulator)) {
        throw InputError(
            "limiter.kind", 0, "",
            fmt::format("\"processor\" needs an emulator, and {} is not there; install "
                        "the Debian package qemu-system-arm, or name one in "
                        "RUNUP_EMULATOR",
                        setup.emulator));
    }
}

EmulatedProcessor::Failed EmulatedProcessor::power_up(const firmware::Settings& settings,
                                                      const firmware::StorePages& store) {
    steps_ = 0;
    try {
        process_ = std::make_unique<EmulatorProcess>(command_of(setup_, board_), image_);
    } catch (const std::exception& error) {
        return ControllerFailure{"emulator_not_started",
                                 fmt::format("The emulator was not started: {}", error.what())};
    }
    if (Failed failed = greet()) {
        return failed;
    }
    process_->send(&settings, sizeof settings);
    process_->send(&store, sizeof store);
    return take_answer();
}

EmulatedProcessor::Failed EmulatedProcessor::greet() {
    Hello hello;
    if (Failed failed = receive(&hello, sizeof hello)) {
        return failed;
    }
    const Hello ours;
    if (hello.version != ours.version || hello.frames != ours.frames ||
        hello.settings_bytes != ours.settings_bytes ||
        hello.telemetry_bytes != ours.telemetry_bytes) {
        return failure(
            "wrong_version",
            fmt::format("the program on the processor speaks wire version {} with frames "
                        "of version {}, {} bytes of settings and {} of telemetry, and "
                        "this runup {}, {}, {} and {}; build both from the same sources",
                        hello.version, hello.frames, hello.settings_bytes, hello.telemetry_bytes,
                        ours.version, ours.frames, ours.settings_bytes, ours.telemetry_bytes));
    }
    return std::nullopt;
}

EmulatedProcessor::Failed EmulatedProcessor::step(const firmware::SensorFrame& samples) {
    Request request;
    request.samples = samples;
    ++steps_;
    return ask(request);
}

EmulatedProcessor::Failed EmulatedProcessor::rest(firmware::Ticks ticks) {
    Request request;
    request.kind = RequestKind::rest;
    request.rest_ticks = ticks.count();
    return ask(request);
}

EmulatedProcessor::Failed EmulatedProcessor::ask(const Request& request) {
    process_->send(&request, sizeof request);
    return take_answer();
}

EmulatedProcessor::Failed EmulatedProcessor::take_answer() {
    Answer answer;
    if (Failed failed = receive(&answer, sizeof answer)) {
        return failed;
    }
    const std::string fault = fault_of(answer);
    if (!fault.empty()) {
        return failure("answer_without_sense", "the processor's answer makes no sense: " + fault);
    }
    answer_ = answer;
    return std::nullopt;
}

EmulatedProcessor::Failed EmulatedProcessor::receive(void* bytes, std::size_t count) {
    switch (process_->receive(bytes, count, setup_.patience)) {
        case EmulatorProcess::Delivery::whole:
            return std::nullopt;
        case EmulatorProcess::Delivery::silent:
            return failure("hung", fmt::format("the processor gave no answer within {:g} s",
                                               static_cast<double>(setup_.patience.count()) / 1e3));
        case EmulatorProcess::Delivery::ended:
            break;
    }
    const std::string how = process_->end();
    return failure("crashed", "the processor is gone; its emulator " + how);
}

ControllerFailure EmulatedProcessor::failure(const std::string& cause, const std::string& words) {
    process_.reset();
    const std::string when =
        steps_ == 0 ? "At power-up" : fmt::format("In step {} since power-up", steps_);
    return {cause, fmt::format("{} {}", when, words)};
}

std::int64_t EmulatedProcessor::instructions() const {
    return std::llround(answer_.cost / board_.timer_frequency_MHz / instruction_us);
}

std::optional<StackUse> EmulatedProcessor::stack_use() {
    if (process_ == nullptr) {
        return std::nullopt;
    }
    Request request;
    request.kind = RequestKind::stack_use;
    process_->send(&request, sizeof request);
    StackUse use;
    if (receive(&use, sizeof use)) {
        return std::nullopt;
    }
    return use;
}

}  // namespace sim
