#include "sim/controllers/installed_settings.hpp"

#include <cmath>
#include <cstdint>

namespace sim {

firmware::Settings as_installed(firmware::Settings settings,
                                const plant_models::MotorParameters& motor) {
    if (settings.rated_voltage_V == 0) {
        settings.rated_voltage_V = static_cast<std::int32_t>(std::lround(motor.rated_voltage_V));
    }
    if (motor.run_capacitor_uF == 0.0) {
        settings.run_capacitor_fitted = 0;
    }
    return settings;
}

}  // namespace sim
