#include "sim/sizing/voltage_change.hpp"

#include <cmath>
#include <variant>

#include "plant_models/motor/steady_state.hpp"
#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

plant_models::SeriesImpedance service_run(const plant_models::WiringParameters& wiring) {
    plant_models::WiringParameters service = wiring;
    service.branch_length_m = 0.0;
    service.branch_size = "none";
    return plant_models::series_impedance(service);
}

std::optional<plant_models::SeriesImpedance> own_impedance(
    const plant_models::AnySupplyParameters& source) {
    if (const auto* grid = std::get_if<plant_models::GridParameters>(&source)) {
        return plant_models::SeriesImpedance{grid->resistance_ohm, 1e-3 * grid->inductance_mH};
    }
    if (const auto* split = std::get_if<plant_models::SplitPhaseParameters>(&source)) {
        const plant_models::SplitPhase model(*split);
        return plant_models::SeriesImpedance{model.series_resistance_ohm(),
                                             model.series_inductance_H()};
    }
    return std::nullopt;
}

}  // namespace

std::optional<double> relative_voltage_change(const Scenario& on_its_supply,
                                              double starting_current_A) {
    std::optional<plant_models::SeriesImpedance> loop = own_impedance(on_its_supply.source);
    if (!loop) {
        return std::nullopt;
    }
    const plant_models::SeriesImpedance service = service_run(on_its_supply.wiring);
    loop->resistance_ohm += service.resistance_ohm;
    loop->inductance_H += service.inductance_H;
    const double frequency_Hz = plant_models::nominal_frequency_Hz(on_its_supply.source);
    const double voltage_V = plant_models::nominal_voltage_V(on_its_supply.source);
    const plant_models::MotorParameters& motor = on_its_supply.motor;
    const double cos_phi = plant_models::steady_state(motor, {voltage_V, frequency_Hz, 0.0, 0.0},
                                                      plant_models::run_connection(motor), 1.0)
                               .power_factor;
    const double sin_phi = std::sqrt(1.0 - cos_phi * cos_phi);
    const double reactance_ohm = 2.0 * plant_models::pi * frequency_Hz * loop->inductance_H;
    return starting_current_A * std::abs(loop->resistance_ohm * cos_phi + reactance_ohm * sin_phi) /
           voltage_V;
}

}  // namespace sim
