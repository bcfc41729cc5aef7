#include "sim/timeline/plant_run.hpp"

#include <variant>

#include "sim/timeline/integrated_plant.hpp"
#include "sim/timeline/plants/plants_on.hpp"

namespace sim {

namespace detail {

using plant_models::ContactTiming;

namespace {
ContactTiming limiter_contact(const PlantDescription& description) {
    const auto& limiter = description.limiter;
    return ContactTiming::from_milliseconds(limiter.contact_close_ms, limiter.contact_open_ms,
                                            limiter.contact_bounce_ms);
}
}  // namespace

ContactTiming line_contact(const PlantDescription& description) {
    if (const auto timing = plant_models::contactor_timing(description.unit)) {
        return *timing;
    }
    return bypass_contact(description);
}

ContactTiming start_contact(const PlantDescription& description) {
    if (const auto timing = plant_models::start_contact_timing(description.unit)) {
        return *timing;
    }
    return bypass_contact(description);
}

/// Without a limiter the main path is closed for good.
ContactTiming bypass_contact(const PlantDescription& description) {
    return description.connection == Connection::direct ? ContactTiming{}
                                                        : limiter_contact(description);
}

}  // namespace detail

std::unique_ptr<PlantRun> make_plant_run(const PlantDescription& description) {
    PlantDescription full = description;
    if (full.connection == Connection::direct) {
        // No limiter: no drop in the main path, and the start capacitor of a start aid, if any.
        full.limiter = plant_models::start_aid_capacitor(full.unit);
    }
    return std::visit(
        [&](const auto& supply) {
            return make_plant_on<decltype(plant_models::supply_model(supply))>(supply, full);
        },
        full.supply);
}

}  // namespace sim
