// One experiment, as read from a scenario file: a motor with its load, a supply, perhaps a limiter,
// how long to watch, what to expect, and what the monitors hold the controller to.
//
// Quantities carry their unit in the name and are in the bounds of their tables; whoever gets a
// Scenario from the reader need not check them again.
#pragma once

#include <string>

#include "plant_models/loads/load_list.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/supplies/supply_list.hpp"
#include "sim/scenario/expectation.hpp"
#include "sim/scenario/limiter_choice.hpp"
#include "sim/scenario/run_settings.hpp"
#include "sim/scenario/safety_limits.hpp"

namespace sim {

struct Scenario {
    std::string name;   ///< the file's name without folder and ending
    std::string title;  ///< for people; the name if the file gives none
    plant_models::MotorParameters motor;
    plant_models::AnyLoadParameters load;
    plant_models::AnySupplyParameters source;
    LimiterChoice limiter;
    RunSettings run;
    Expectation expect;
    SafetyLimits limits;
};

}  // namespace sim
