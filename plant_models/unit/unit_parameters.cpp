#include "plant_models/unit/unit_parameters.hpp"

namespace plant_models {

namespace {
template <class P>
const ParameterTable<P>& no_rows() {
    static const ParameterTable<P> rows;
    return rows;
}
}  // namespace

const ParameterTable<ConstantTemperatures>& ConstantTemperatures::table() {
    return no_rows<ConstantTemperatures>();
}
const ParameterTable<NoProtector>& NoProtector::table() {
    return no_rows<NoProtector>();
}
const ParameterTable<NoProtectionModule>& NoProtectionModule::table() {
    return no_rows<NoProtectionModule>();
}
const ParameterTable<IdealContactor>& IdealContactor::table() {
    return no_rows<IdealContactor>();
}
const ParameterTable<NoStartAid>& NoStartAid::table() {
    return no_rows<NoStartAid>();
}

bool UnitParameters::is_bare() const {
    return heat.index() == 0 && protector.index() == 0 && protection_module.index() == 0 &&
           contactor.index() == 0 && start_aid.index() == 0;
}

std::optional<ContactTiming> contactor_timing(const UnitParameters& unit) {
    if (const auto* contactor = std::get_if<ContactorParameters>(&unit.contactor)) {
        return contactor->contact_timing();
    }
    return std::nullopt;
}

std::optional<ContactTiming> start_contact_timing(const UnitParameters& unit) {
    if (const auto* relay = std::get_if<PotentialRelayParameters>(&unit.start_aid)) {
        return relay->contact_timing();
    }
    return std::nullopt;
}

LimiterParameters start_aid_capacitor(const UnitParameters& unit) {
    LimiterParameters parts;
    if (const auto* relay = std::get_if<PotentialRelayParameters>(&unit.start_aid)) {
        parts.start_capacitor_uF = relay->start_capacitor_uF;
        parts.start_capacitor_esr_ohm = relay->start_capacitor_esr_ohm;
        parts.start_capacitor_bleed_ohm = relay->start_capacitor_bleed_ohm;
    }
    return parts;
}

}  // namespace plant_models
