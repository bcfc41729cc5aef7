#include "sim/timeline/plant_run.hpp"

#include <variant>

#include "sim/timeline/integrated_plant.hpp"

namespace sim {

namespace detail {

plant_models::ContactTiming limiter_contact(const PlantDescription& description) {
    if (description.connection == Connection::direct) {
        return {};
    }
    const auto& limiter = description.limiter;
    return plant_models::ContactTiming::from_milliseconds(
        limiter.contact_close_ms, limiter.contact_open_ms, limiter.contact_bounce_ms);
}

// The models that belong to the parameter structs of the lists.
plant_models::Grid model(const plant_models::GridParameters& p) {
    return plant_models::Grid(p);
}
plant_models::Inverter model(const plant_models::InverterParameters& p) {
    return plant_models::Inverter(p);
}
plant_models::PolynomialLoad model(const plant_models::PolynomialLoadParameters& p) {
    return plant_models::PolynomialLoad(p);
}

/// A direct start has no limiter: no start capacitor, no drop in the main path.
plant_models::LimiterParameters no_limiter() {
    return {};
}

}  // namespace detail

std::unique_ptr<PlantRun> make_plant_run(const PlantDescription& description) {
    PlantDescription full = description;
    if (full.connection == Connection::direct) {
        full.limiter = detail::no_limiter();
    }
    return std::visit(
        [&](const auto& supply, const auto& load) -> std::unique_ptr<PlantRun> {
            const auto supply_model = detail::model(supply);
            const auto load_model = detail::model(load);
            using Supply = std::decay_t<decltype(supply_model)>;
            using Load = std::decay_t<decltype(load_model)>;
            return std::make_unique<IntegratedPlant<Supply, Load>>(full, supply_model, load_model);
        },
        full.supply, full.load);
}

}  // namespace sim
