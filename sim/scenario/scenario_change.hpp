// Table [[change]]: what becomes different in the middle of a series of starts. The controller with
// its memory stays; what stands around it is not what it was.
//
// A change is in force from the rest before its start on: once the rotor stands, the plant goes on
// with the other numbers. Pressures, heat, charge and what has tripped stay as they are; where the
// ambient changes, the charge moves to its new equalised pressure at once. A factor is of what the
// scenario gives, and holds until another change gives it anew. A drift multiplies its factor
// before each start, the change's own included. Another compressor comes with factors of 1 and
// without drift, and has stood for a day.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plant_models/loads/load_list.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/refrigerant/refrigerant_parameters.hpp"
#include "plant_models/unit/unit_parameters.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

inline constexpr std::string_view change_table = "change";

/// What another compressor brings along; the rest of the unit is the scenario's.
struct ExchangedUnit {
    plant_models::MotorParameters motor;
    plant_models::AnyLoadParameters load;
    plant_models::RefrigerantParameters refrigerant;
    plant_models::UnitParameters unit;
};

/// What is not given stays as it was.
struct ScenarioChange {
    int before_start = 0;  ///< number of a start, from 1
    std::optional<double> ambient_C;
    std::optional<double> rest_between_s;
    std::optional<double> line_voltage_factor;
    std::optional<double> run_capacitor_factor;
    std::optional<double> friction_factor;
    std::optional<double> run_capacitor_factor_per_start;
    std::optional<double> friction_factor_per_start;
    const LibraryEntry* compressor = nullptr;
    std::optional<ExchangedUnit> exchanged;  ///< with `compressor`
    std::string file;                        ///< where it stands, for messages
    int line = 0;
};

TableForm form_of(ScenarioChange& target);

/// In a few words, for tables of results: "ambient 38 C, run capacitor x 0.8".
std::string words_for(const ScenarioChange& change);

}  // namespace sim
