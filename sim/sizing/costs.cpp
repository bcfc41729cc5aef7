#include "sim/sizing/costs.hpp"

#include <variant>

namespace sim {

namespace {

double price_per_kVA(const SupplyAtHand& supply, const CostAssumptions& costs) {
    if (supply.role() == SupplyRole::engine) {
        return costs.generator_price_per_kVA;
    }
    return std::holds_alternative<plant_models::TransformerInverterParameters>(supply.source)
               ? costs.transformer_inverter_price_per_kVA
               : costs.inverter_price_per_kVA;
}

double purchase_of(const SupplyAtHand& supply, const CostAssumptions& costs) {
    const auto given = costs.supply_prices.find(supply.name);
    if (given != costs.supply_prices.end()) {
        return given->second;
    }
    const std::optional<double> rated_VA = supply.rated_VA();
    return rated_VA ? 1e-3 * *rated_VA * price_per_kVA(supply, costs) : 0.0;
}

double purchase_of(Way way, const CostAssumptions& costs) {
    switch (way) {
        case Way::directly:
            return 0.0;
        case Way::thermistor:
            return costs.thermistor_price;
        case Way::capacitor_relay:
            return costs.capacitor_relay_price;
        case Way::limiter:
            return costs.limiter_price;
    }
    return 0.0;
}

}  // namespace

IdleCost idle_cost(double draw_W, const CostAssumptions& costs) {
    constexpr double days_per_year = 365.0;
    IdleCost idle;
    idle.draw_W = draw_W;
    const double energy_kWh_per_day = 1e-3 * draw_W * costs.idle_hours_per_day;
    idle.energy_kWh_per_year = energy_kWh_per_day * days_per_year;
    if (costs.idle_energy_is_bought()) {
        idle.price = idle.energy_kWh_per_year * costs.energy_price_per_kWh * costs.years;
        return idle;
    }
    idle.panel_kWp =
        energy_kWh_per_day / (costs.sun_hours_per_day * 0.01 * costs.panel_yield_percent);
    idle.storage_kWh =
        1e-3 * draw_W * costs.storage_hours_per_day / (0.01 * costs.storage_depth_percent);
    idle.price =
        idle.panel_kWp * costs.panel_price_per_kWp + idle.storage_kWh * costs.storage_price_per_kWh;
    return idle;
}

WayCost cost_of(Way way, const SupplyAtHand& supply, const CostAssumptions& costs) {
    WayCost cost;
    cost.supply = purchase_of(supply, costs);
    cost.start_aid = purchase_of(way, costs);
    if (supply.role() == SupplyRole::storage) {
        const std::optional<double> said = supply.idle_draw_W();
        cost.idle = idle_cost(
            said ? *said : 0.01 * costs.idle_draw_percent * supply.rated_VA().value_or(0.0), costs);
        cost.idle.draw_is_assumed = !said;
    }
    return cost;
}

}  // namespace sim
