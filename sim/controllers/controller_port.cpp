#include "sim/controllers/controller_port.hpp"

#include <cmath>
#include <cstdint>
#include <variant>

#include "sim/controllers/builtin_controller.hpp"

namespace sim {

namespace {

std::unique_ptr<ControllerPort> controller_of(const NoLimiter& /*limiter*/,
                                              const plant_models::MotorParameters& /*motor*/) {
    return nullptr;
}

std::unique_ptr<ControllerPort> controller_of(const BuiltinLimiter& limiter,
                                              const plant_models::MotorParameters& motor) {
    firmware::Settings settings = limiter.settings;
    if (settings.rated_voltage_V == 0) {
        settings.rated_voltage_V = static_cast<std::int32_t>(std::lround(motor.rated_voltage_V));
    }
    if (motor.run_capacitor_uF == 0.0) {
        settings.run_capacitor_fitted = 0;
    }
    return std::make_unique<BuiltinController>(settings);
}

}  // namespace

std::unique_ptr<ControllerPort> make_controller(const LimiterChoice& limiter,
                                                const plant_models::MotorParameters& motor) {
    return std::visit([&motor](const auto& choice) { return controller_of(choice, motor); },
                      limiter);
}

}  // namespace sim
