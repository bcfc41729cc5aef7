// Body of plants_on.hpp.
#pragma once

#include "plant_models/unit/fitted_unit.hpp"
#include "sim/timeline/integrated_plant.hpp"
#include "sim/timeline/plants/plants_on.hpp"

namespace sim {

namespace detail {

template <class Supply, class Load>
std::unique_ptr<PlantRun> make_fitted(const Supply& supply, const Load& load,
                                      const PlantDescription& description) {
    using plant_models::FittedUnit;
    return std::make_unique<IntegratedPlant<Supply, Load, FittedUnit>>(
        description, supply, load,
        FittedUnit(description.unit, description.motor, description.conditions));
}

}  // namespace detail

template <class Supply>
std::unique_ptr<PlantRun> make_plant_on(const typename Supply::Parameters& supply_parameters,
                                        const PlantDescription& description) {
    using namespace plant_models;
    const Supply supply(supply_parameters);
    return std::visit(
        [&](const auto& load_parameters) -> std::unique_ptr<PlantRun> {
            const auto load =
                load_model(load_parameters, description.refrigerant, description.conditions);
            using Load = std::decay_t<decltype(load)>;
            // Only the plain load has a bare unit: a compressor's run costs more than its fittings.
            if constexpr (std::is_same_v<Load, PolynomialLoad>) {
                if (description.unit.is_bare()) {
                    return std::make_unique<IntegratedPlant<Supply, Load, BareUnit>>(
                        description, supply, load, BareUnit());
                }
            }
            return detail::make_fitted(supply, load, description);
        },
        description.load);
}

}  // namespace sim
