// What a scenario fits around the motor: one choice each for heat, protector, protection module,
// contactor and start aid. The first kind of every list is the one that needs no model.
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "plant_models/parameter_table.hpp"
#include "plant_models/switches/contact.hpp"
#include "plant_models/switches/limiter_parameters.hpp"
#include "plant_models/unit/contactor_coil.hpp"
#include "plant_models/unit/heat_network.hpp"
#include "plant_models/unit/line_break_protector.hpp"
#include "plant_models/unit/potential_relay.hpp"
#include "plant_models/unit/protection_module.hpp"
#include "plant_models/unit/thermistor.hpp"

namespace plant_models {

/// Resistances and oil stay as the parameters give them.
struct ConstantTemperatures {
    static constexpr std::string_view kind = "constant";
    static const ParameterTable<ConstantTemperatures>& table();
};
struct NoProtector {
    static constexpr std::string_view kind = "none";
    static const ParameterTable<NoProtector>& table();
};
struct NoProtectionModule {
    static constexpr std::string_view kind = "none";
    static const ParameterTable<NoProtectionModule>& table();
};
/// Follows the call at once, whatever the line does.
struct IdealContactor {
    static constexpr std::string_view kind = "ideal";
    static const ParameterTable<IdealContactor>& table();
};
struct NoStartAid {
    static constexpr std::string_view kind = "none";
    static const ParameterTable<NoStartAid>& table();
};

struct UnitParameters {
    std::variant<ConstantTemperatures, HeatParameters> heat;
    std::variant<NoProtector, LineBreakParameters> protector;
    std::variant<NoProtectionModule, ProtectionModuleParameters> protection_module;
    std::variant<IdealContactor, ContactorParameters> contactor;
    std::variant<NoStartAid, PotentialRelayParameters, ThermistorParameters> start_aid;

    /// Nothing is fitted: a BareUnit will do.
    bool is_bare() const;
};

/// Timing of the contacts that the unit moves by itself; none where it moves none.
std::optional<ContactTiming> contactor_timing(const UnitParameters& unit);
std::optional<ContactTiming> start_contact_timing(const UnitParameters& unit);

/// A limiter's power parts that hold nothing but the start capacitor of the start aid, if any.
LimiterParameters start_aid_capacitor(const UnitParameters& unit);

}  // namespace plant_models
