#include "sim/bench/library_overview.hpp"

#include <cmath>
#include <variant>

#include "plant_models/motor/steady_state.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

template <class List>
std::string kind_of(const List& list) {
    return std::visit([](const auto& one) { return std::string(one.kind); }, list);
}

double locked_rotor_A(const plant_models::MotorParameters& motor) {
    return std::abs(plant_models::locked_rotor(motor,
                                               {motor.rated_voltage_V, motor.rated_frequency_Hz},
                                               plant_models::run_connection(motor))
                        .line_current_A);
}

}  // namespace

std::vector<CompressorOverview> overview_of_compressors() {
    std::vector<CompressorOverview> rows;
    for (const LibraryEntry& entry : library_compressors()) {
        const Scenario unit = parse_library_entry(entry);
        const bool pumps =
            !std::holds_alternative<plant_models::PolynomialLoadParameters>(unit.load);
        rows.push_back({std::string(entry.name), unit.title, kind_of(unit.load),
                        pumps ? std::string(unit.refrigerant.gas) : std::string(),
                        unit.motor.rated_voltage_V, unit.motor.rated_frequency_Hz,
                        locked_rotor_A(unit.motor), unit.motor.run_capacitor_uF});
    }
    return rows;
}

std::vector<SupplyOverview> overview_of_supplies() {
    std::vector<SupplyOverview> rows;
    for (const LibraryEntry& entry : library_supplies()) {
        const Scenario unit = parse_library_entry(entry);
        rows.push_back({std::string(entry.name), unit.title, kind_of(unit.source),
                        plant_models::nominal_voltage_V(unit.source),
                        plant_models::nominal_frequency_Hz(unit.source)});
    }
    return rows;
}

}  // namespace sim
