#include "sim/results/fit_json.hpp"

#include <optional>
#include <variant>

#include "sim/fitting/acceptance.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json nameplate_json(const Nameplate& plate) {
    return {{"voltage_V", or_null(plate.voltage_V)},
            {"lowest_voltage_V", or_null(plate.lowest_voltage_V)},
            {"highest_voltage_V", or_null(plate.highest_voltage_V)},
            {"frequency_Hz", plate.frequency_Hz},
            {"rated_load_current_A", plate.rated_load_current_A},
            {"locked_rotor_current_A", plate.locked_rotor_current_A},
            {"run_capacitor_uF", plate.run_capacitor_uF},
            {"start_thermistor_ohm", or_null(plate.start_thermistor_ohm)},
            {"power_hp", or_null(plate.power_hp)},
            {"shaft_power_W", or_null(plate.shaft_power_W)},
            {"cooling_capacity_W", or_null(plate.cooling_capacity_W)},
            {"poles", plate.poles ? Json(plate.pole_count()) : Json(nullptr)},
            {"compressor", or_null(plate.compressor)},
            {"gas", or_null(plate.gas)}};
}

Json printed_json(const NameplateFit& fit) {
    Json rows = Json::array();
    for (const HardFigure& hard : fit.motor_class.hard) {
        rows.push_back({{"name", hard.name},
                        {"asked", hard.asked},
                        {"fitted", fit.fitted.figures.*hard.member},
                        {"difference_percent", 100.0 * difference(hard, fit.fitted.figures)}});
    }
    return rows;
}

Json bands_json(const NameplateFit& fit) {
    Json rows = Json::array();
    for (const SoftFigure& soft : fit.motor_class.soft) {
        rows.push_back({{"name", soft.name},
                        {"lowest", soft.lowest},
                        {"highest", soft.highest},
                        {"fitted", fit.fitted.figures.*soft.member},
                        {"inside", inside_band(soft, fit.fitted.figures)},
                        {"origin", soft.origin}});
    }
    return rows;
}

Json open_json(const NameplateFit& fit) {
    Json rows = Json::array();
    for (const OpenRange& range : fit.open) {
        rows.push_back({{"name", range.name},
                        {"of", range.is_parameter ? "motor" : "figures"},
                        {"fitted", range.fitted},
                        {"lowest", range.lowest},
                        {"highest", range.highest}});
    }
    return rows;
}

/// Every key that a scenario has for this struct.
template <class P>
Json parameters_json(const P& parameters) {
    Json json = Json::object();
    for (const auto& row : P::table()) {
        json[std::string(row.key)] =
            std::visit([&parameters](auto member) { return Json(parameters.*member); }, row.member);
    }
    return json;
}

}  // namespace

nlohmann::ordered_json fit_json(const NameplateFit& fit) {
    Json json;
    json["schema"] = "runup.fit/1";
    json["title"] = fit.nameplate.title;
    json["nameplate"] = nameplate_json(fit.nameplate);
    json["printed"] = printed_json(fit);
    json["bands"] = bands_json(fit);
    json["bands_held"] = fit.bands_held;
    json["motor"] = parameters_json(fit.fitted.motor);
    json["load"] = {{"kind", plant_models::PolynomialLoadParameters::kind}};
    json["load"].update(parameters_json(fit.load));
    json["start_aid"] =
        fit.nameplate.has_run_capacitor()
            ? Json(nullptr)
            : Json{{"kind", "thermistor"},
                   {"cold_resistance_ohm", fit.nameplate.starting_resistance_ohm()}};
    json["displacement_cm3"] = or_null(fit.displacement_cm3);
    json["open"] = open_json(fit);
    json["assumptions"] = fit.assumptions;
    return json;
}

}  // namespace sim
