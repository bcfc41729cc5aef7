#include "sim/bench/library_overview.hpp"

#include <variant>

#include "sim/fitting/motor_figures.hpp"
#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

template <class List>
std::string kind_of(const List& list) {
    return std::visit([](const auto& one) { return std::string(one.kind); }, list);
}

}  // namespace

double locked_rotor_A(const Scenario& unit) {
    OperatingPoint point;
    point.rated_slip = 0.04;  // any slip will do: the figure is of a rotor that is held
    if (const auto* thermistor =
            std::get_if<plant_models::ThermistorParameters>(&unit.unit.start_aid)) {
        point.starting_resistance_ohm = thermistor->cold_resistance_ohm;
    }
    return figures_of(unit.motor, point).locked_rotor_current_A;
}

std::vector<CompressorOverview> overview_of_compressors() {
    std::vector<CompressorOverview> rows;
    for (const LibraryEntry& entry : library_compressors()) {
        const Scenario unit = parse_library_entry(entry);
        const bool pumps =
            !std::holds_alternative<plant_models::PolynomialLoadParameters>(unit.load);
        rows.push_back({std::string(entry.name), unit.title, kind_of(unit.load),
                        pumps ? std::string(unit.refrigerant.gas) : std::string(),
                        unit.motor.rated_voltage_V, unit.motor.rated_frequency_Hz,
                        locked_rotor_A(unit), unit.motor.run_capacitor_uF});
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
