#include "plant_models/wiring/conductor.hpp"

#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {

constexpr double kilofeet_per_km = 1.0 / 0.3048;

/// As the NEC prints it: per thousand feet, at 75 C and 60 Hz.
constexpr Conductor gauge(std::string_view size, double copper_ohm_per_kft,
                          double aluminium_ohm_per_kft, double reactance_ohm_per_kft) {
    return {size, kilofeet_per_km * copper_ohm_per_kft, kilofeet_per_km * aluminium_ohm_per_kft,
            75.0, 1e3 * kilofeet_per_km * reactance_ohm_per_kft / (2.0 * pi * 60.0)};
}

/// As IEC 60228 prints it: per kilometre, at 20 C.
constexpr Conductor area(std::string_view size, double copper_ohm_per_km,
                         double aluminium_ohm_per_km) {
    return {size, copper_ohm_per_km, aluminium_ohm_per_km, 20.0, 1e3 * 0.08 / (2.0 * pi * 50.0)};
}

double coefficient_per_K(ConductorMaterial material, double reference_temperature_C) {
    const bool copper = material == ConductorMaterial::copper;
    if (reference_temperature_C == 75.0) {
        return copper ? 0.00323 : 0.00330;
    }
    return copper ? 0.00393 : 0.00403;
}

}  // namespace

const std::vector<Conductor>& conductors() {
    static const std::vector<Conductor> all = {
        gauge("14 AWG", 3.07, 5.06, 0.058),
        gauge("12 AWG", 1.93, 3.18, 0.054),
        gauge("10 AWG", 1.21, 2.00, 0.050),
        gauge("8 AWG", 0.764, 1.26, 0.052),
        gauge("6 AWG", 0.491, 0.808, 0.051),
        gauge("4 AWG", 0.308, 0.508, 0.048),
        gauge("3 AWG", 0.245, 0.403, 0.047),
        gauge("2 AWG", 0.194, 0.319, 0.045),
        gauge("1 AWG", 0.154, 0.253, 0.046),
        gauge("1/0 AWG", 0.122, 0.201, 0.044),
        gauge("2/0 AWG", 0.0967, 0.159, 0.043),
        gauge("3/0 AWG", 0.0766, 0.126, 0.042),
        gauge("4/0 AWG", 0.0608, 0.100, 0.041),
        area("1.5 mm2", 12.1, 0.0),
        area("2.5 mm2", 7.41, 0.0),
        area("4 mm2", 4.61, 0.0),
        area("6 mm2", 3.08, 0.0),
        area("10 mm2", 1.83, 3.08),
        area("16 mm2", 1.15, 1.91),
        area("25 mm2", 0.727, 1.20),
        area("35 mm2", 0.524, 0.868),
        area("50 mm2", 0.387, 0.641),
        area("70 mm2", 0.268, 0.443),
        area("95 mm2", 0.193, 0.320),
    };
    return all;
}

const Conductor* find_conductor(std::string_view size) {
    for (const Conductor& conductor : conductors()) {
        if (conductor.size == size) {
            return &conductor;
        }
    }
    return nullptr;
}

bool Conductor::is_made_of(ConductorMaterial material) const {
    return material == ConductorMaterial::copper || aluminium_ohm_per_km > 0.0;
}

double Conductor::resistance_ohm_per_km(ConductorMaterial material, double temperature_C) const {
    const double at_reference =
        material == ConductorMaterial::copper ? copper_ohm_per_km : aluminium_ohm_per_km;
    return at_reference * (1.0 + coefficient_per_K(material, reference_temperature_C) *
                                     (temperature_C - reference_temperature_C));
}

}  // namespace plant_models
