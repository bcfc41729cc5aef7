#include "sim/controllers/controller_port.hpp"

#include <variant>

#include "sim/controllers/builtin_controller.hpp"

namespace sim {

namespace {

std::unique_ptr<ControllerPort> controller_of(const NoLimiter& /*limiter*/) {
    return nullptr;
}

std::unique_ptr<ControllerPort> controller_of(const BuiltinLimiter& limiter) {
    return std::make_unique<BuiltinController>(limiter.settings);
}

}  // namespace

std::unique_ptr<ControllerPort> make_controller(const LimiterChoice& limiter) {
    return std::visit([](const auto& choice) { return controller_of(choice); }, limiter);
}

}  // namespace sim
