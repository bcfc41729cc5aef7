#include "sim/controllers/controller_port.hpp"

#include <cstdint>
#include <utility>
#include <variant>

#include "sim/controllers/builtin_controller.hpp"
#include "sim/controllers/installed_settings.hpp"
#include "sim/controllers/library/library_controller.hpp"
#include "sim/controllers/processor_controller.hpp"

namespace sim {

namespace {

bool has_outputs_on(const firmware::ActuatorFrame& frame) {
    return frame.gate_off_us > frame.gate_on_us || frame.start_capacitor_contact != 0 ||
           frame.bypass_contact != 0 || frame.contactor_permit != 0;
}

/// What the outputs do while the processor stalls: pins stay, the timer of the gate is not set.
firmware::ActuatorFrame while_stalled(firmware::ActuatorFrame frame) {
    frame.gate_on_us = 0;
    frame.gate_off_us = 0;
    return frame;
}

std::unique_ptr<ControllerPort> controller_of(const NoLimiter& /*limiter*/,
                                              const plant_models::MotorParameters& /*motor*/,
                                              const FlashStore& /*store*/) {
    return nullptr;
}

std::unique_ptr<ControllerPort> controller_of(const BuiltinLimiter& limiter,
                                              const plant_models::MotorParameters& motor,
                                              const FlashStore& store) {
    return std::make_unique<BuiltinController>(as_installed(limiter.settings, motor), store);
}

std::unique_ptr<ControllerPort> controller_of(const LibraryLimiter& limiter,
                                              const plant_models::MotorParameters& motor,
                                              const FlashStore& store) {
    return make_library_controller(limiter, motor, store);
}

std::unique_ptr<ControllerPort> controller_of(const ProcessorLimiter& limiter,
                                              const plant_models::MotorParameters& motor,
                                              const FlashStore& store) {
    return std::make_unique<ProcessorController>(as_installed(limiter.settings, motor), store,
                                                 processor_setup());
}

}  // namespace

firmware::ActuatorFrame ControllerPort::step(const firmware::SensorFrame& samples) {
    if (!has_power_ || failure_) {
        return {};
    }
    store_.pass(firmware::Ticks{1U});
    if (store_.busy()) {
        return while_stalled(answered_);
    }
    answered_ = answer(samples);
    if (failure_) {
        answered_ = firmware::ActuatorFrame{};
        return answered_;
    }
    store_.begin(store_command(), has_outputs_on(answered_));
    return answered_;
}

void ControllerPort::rest(firmware::Ticks ticks) {
    if (has_power_ && !failure_) {
        store_.pass(ticks);
        sleep(ticks);
        answered_ = firmware::ActuatorFrame{};
    }
}

const firmware::Telemetry& ControllerPort::telemetry() const {
    static const firmware::Telemetry blank;
    return has_power_ ? told() : blank;
}

void ControllerPort::lose_power(Torn torn, std::uint32_t seed) {
    if (has_power_) {
        has_power_ = false;
        store_.lose_power(torn, seed);
        if (!failure_) {
            end();
        }
    }
}

void ControllerPort::fail(ControllerFailure failure) {
    if (!failure_) {
        failure_ = std::move(failure);
    }
}

void ControllerPort::power_up() {
    if (!has_power_) {
        has_power_ = true;
        answered_ = firmware::ActuatorFrame{};
        if (!failure_) {
            begin(store_.pages());
        }
    }
}

std::unique_ptr<ControllerPort> make_controller(const LimiterChoice& limiter,
                                                const plant_models::MotorParameters& motor,
                                                const FlashStore& store) {
    auto controller = std::visit(
        [&](const auto& choice) { return controller_of(choice, motor, store); }, limiter);
    if (controller != nullptr) {
        controller->power_up();
    }
    return controller;
}

}  // namespace sim
