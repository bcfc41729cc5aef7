// The list of supplies. Adding one: write its file beside grid.hpp, name it here, and give its
// plants a file in sim/timeline/plants.
#pragma once

#include <variant>

#include "plant_models/supplies/generator.hpp"
#include "plant_models/supplies/grid.hpp"
#include "plant_models/supplies/inverter.hpp"
#include "plant_models/supplies/split_phase.hpp"
#include "plant_models/supplies/transformer_inverter.hpp"

namespace plant_models {

using AnySupplyParameters = std::variant<GridParameters, SplitPhaseParameters, InverterParameters,
                                         TransformerInverterParameters, GeneratorParameters>;

inline Grid supply_model(const GridParameters& supply) {
    return Grid(supply);
}
inline SplitPhase supply_model(const SplitPhaseParameters& supply) {
    return SplitPhase(supply);
}
inline Inverter supply_model(const InverterParameters& supply) {
    return Inverter(supply);
}
inline TransformerInverter supply_model(const TransformerInverterParameters& supply) {
    return TransformerInverter(supply);
}
inline Generator supply_model(const GeneratorParameters& supply) {
    return Generator(supply);
}

/// RMS, unloaded.
inline double nominal_voltage_V(const AnySupplyParameters& supply) {
    return std::visit([](const auto& one) { return one.nominal_voltage_V(); }, supply);
}
inline double nominal_frequency_Hz(const AnySupplyParameters& supply) {
    return std::visit([](const auto& one) { return one.frequency_Hz; }, supply);
}

}  // namespace plant_models
