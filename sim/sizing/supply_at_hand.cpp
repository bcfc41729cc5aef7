#include "sim/sizing/supply_at_hand.hpp"

#include <cmath>
#include <variant>

#include "sim/library/library.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

using plant_models::GeneratorParameters;
using plant_models::InverterParameters;
using plant_models::TransformerInverterParameters;

SupplyRole SupplyAtHand::role() const {
    if (std::holds_alternative<InverterParameters>(source) ||
        std::holds_alternative<TransformerInverterParameters>(source)) {
        return SupplyRole::storage;
    }
    return std::holds_alternative<GeneratorParameters>(source) ? SupplyRole::engine
                                                               : SupplyRole::utility;
}

std::string_view SupplyAtHand::kind() const {
    return std::visit([](const auto& one) { return one.kind; }, source);
}

std::optional<double> SupplyAtHand::rated_VA() const {
    if (const auto* inverter = std::get_if<InverterParameters>(&source)) {
        return inverter->voltage_V * inverter->completed().rated_current_A;
    }
    if (const auto* inverter = std::get_if<TransformerInverterParameters>(&source)) {
        return inverter->rated_power_W;
    }
    if (const auto* generator = std::get_if<GeneratorParameters>(&source)) {
        return generator->rated_power_VA;
    }
    return std::nullopt;
}

std::optional<double> SupplyAtHand::idle_draw_W() const {
    if (const auto* inverter = std::get_if<InverterParameters>(&source)) {
        return inverter->idle_draw_W > 0.0 ? std::optional<double>(inverter->idle_draw_W)
                                           : std::nullopt;
    }
    if (const auto* inverter = std::get_if<TransformerInverterParameters>(&source)) {
        return inverter->completed().idle_draw_W;
    }
    return std::nullopt;
}

bool suits(const SupplyAtHand& supply, const plant_models::MotorParameters& motor) {
    return std::abs(supply.voltage_V() / motor.rated_voltage_V - 1.0) <= most_voltage_difference &&
           std::abs(supply.frequency_Hz() - motor.rated_frequency_Hz) <=
               most_frequency_difference_Hz;
}

std::optional<SupplyAtHand> library_supply(std::string_view name) {
    const LibraryEntry* entry = find_entry(library_supplies(), name);
    if (entry == nullptr) {
        return std::nullopt;
    }
    const Scenario parsed = parse_library_entry(*entry);
    return SupplyAtHand{std::string(name), parsed.title, parsed.source, parsed.wiring};
}

std::vector<SupplyAtHand> library_supplies_for(const plant_models::MotorParameters& motor) {
    std::vector<SupplyAtHand> suitable;
    for (const LibraryEntry& entry : library_supplies()) {
        SupplyAtHand supply = *library_supply(entry.name);
        if (suits(supply, motor)) {
            suitable.push_back(std::move(supply));
        }
    }
    return suitable;
}

Scenario on_supply(const Scenario& unit, const SupplyAtHand& supply) {
    Scenario scenario = unit;
    scenario.source = supply.source;
    scenario.wiring = supply.wiring;
    return scenario;
}

}  // namespace sim
