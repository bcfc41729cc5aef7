// One experiment, as read from a scenario file: a motor with its load and what is fitted around it,
// a supply with its wiring, perhaps a limiter, how long to watch, what to expect, and what the
// monitors hold the controller to.
//
// Quantities carry their unit in the name and are in the bounds of their tables; whoever gets a
// Scenario from the reader need not check them again.
#pragma once

#include <string>
#include <vector>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/load_list.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"
#include "plant_models/supplies/supply_list.hpp"
#include "plant_models/unit/unit_parameters.hpp"
#include "plant_models/wiring/wiring_parameters.hpp"
#include "sim/scenario/expectation.hpp"
#include "sim/scenario/fault_choice.hpp"
#include "sim/scenario/library_choice.hpp"
#include "sim/scenario/limiter_choice.hpp"
#include "sim/scenario/run_settings.hpp"
#include "sim/scenario/safety_limits.hpp"
#include "sim/scenario/scenario_change.hpp"

namespace sim {

struct Scenario {
    std::string name;   ///< the file's name without folder and ending
    std::string title;  ///< for people; the name if the file gives none
    LibraryChoice library;
    plant_models::Conditions conditions;
    plant_models::MotorParameters motor;
    plant_models::AnyLoadParameters load;
    plant_models::RefrigerantParameters refrigerant;  ///< used by compressor loads
    plant_models::UnitParameters unit;
    plant_models::AnySupplyParameters source;
    plant_models::WiringParameters wiring;
    LimiterChoice limiter;
    Faults faults;
    RunSettings run;
    Expectation expect;
    SafetyLimits limits;
    std::vector<ScenarioChange> changes;  ///< by rising before_start
    std::vector<std::string> warnings;    ///< what fits together badly, a sentence each
};

}  // namespace sim
