#include "plant_models/wiring/wiring_parameters.hpp"

#include <vector>

#include "plant_models/wiring/conductor.hpp"

namespace plant_models {

namespace {

std::vector<std::string_view> sizes_and_none() {
    std::vector<std::string_view> sizes = {"none"};
    for (const Conductor& conductor : conductors()) {
        sizes.push_back(conductor.size);
    }
    return sizes;
}

ConductorMaterial material_of(const WiringParameters& wiring) {
    return wiring.material == "aluminium" ? ConductorMaterial::aluminium
                                          : ConductorMaterial::copper;
}

SeriesImpedance run_impedance(std::string_view size, double length_m,
                              const WiringParameters& wiring) {
    const Conductor* conductor = find_conductor(size);
    if (conductor == nullptr) {
        return {};
    }
    const double there_and_back_km = 2e-3 * length_m;
    return {there_and_back_km * conductor->resistance_ohm_per_km(material_of(wiring),
                                                                 wiring.conductor_temperature_C),
            there_and_back_km * 1e-3 * conductor->inductance_mH_per_km};
}

bool is_not_made(std::string_view size, const WiringParameters& wiring) {
    const Conductor* conductor = find_conductor(size);
    return conductor != nullptr && !conductor->is_made_of(material_of(wiring));
}

}  // namespace

const ParameterTable<WiringParameters>& WiringParameters::table() {
    using W = WiringParameters;
    static const ParameterTable<W> rows = {
        {"service_length_m", &W::service_length_m, 0, 1000, 0.0,
         "from the supply to the panel, one way; 0: none"},
        {"branch_length_m", &W::branch_length_m, 0, 1000, 0.0,
         "from the panel to the unit, one way; 0: none"},
        {"conductor_temperature_C", &W::conductor_temperature_C, 0, 90, 75.0,
         "temperature of the conductors"},
    };
    return rows;
}

const WordTable<WiringParameters>& WiringParameters::word_table() {
    using W = WiringParameters;
    static const WordTable<W> rows = {
        {"service_size", &W::service_size, sizes_and_none(), "none",
         "conductors from the supply to the panel"},
        {"branch_size", &W::branch_size, sizes_and_none(), "none",
         "conductors from the panel to the unit"},
        {"material", &W::material, {"copper", "aluminium"}, "copper", "material of both runs"},
    };
    return rows;
}

std::string_view WiringParameters::inconsistency() const {
    if ((service_size == "none") != (service_length_m == 0.0)) {
        return "service_size and service_length_m must be given together";
    }
    if ((branch_size == "none") != (branch_length_m == 0.0)) {
        return "branch_size and branch_length_m must be given together";
    }
    if (is_not_made(service_size, *this) || is_not_made(branch_size, *this)) {
        return "material must be \"copper\" for sizes below 10 mm2";
    }
    return {};
}

SeriesImpedance series_impedance(const WiringParameters& wiring) {
    const SeriesImpedance service =
        run_impedance(wiring.service_size, wiring.service_length_m, wiring);
    const SeriesImpedance branch =
        run_impedance(wiring.branch_size, wiring.branch_length_m, wiring);
    return {service.resistance_ohm + branch.resistance_ohm,
            service.inductance_H + branch.inductance_H};
}

}  // namespace plant_models
