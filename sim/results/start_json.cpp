#include "sim/results/start_json.hpp"

#include "sim/results/json_values.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json steps_json(const std::vector<ControllerStep>& steps) {
    Json list = Json::array();
    for (const ControllerStep& step : steps) {
        if (step.seen) {
            list.push_back({{"time_s", step.time_s},
                            {"state", nullptr},
                            {"reason", nullptr},
                            {"stage", nullptr},
                            {"seen", name_of(*step.seen)}});
            continue;
        }
        list.push_back({{"time_s", step.time_s},
                        {"state", firmware::name_of(step.state)},
                        {"reason", firmware::name_of(step.reason)},
                        {"stage", step.has_stage ? Json(step.stage) : Json(nullptr)}});
    }
    return list;
}

}  // namespace

Json start_json(const StartResult& result) {
    const StartFigures& figures = result.figures;
    const plant_models::EnergyAudit& energy = result.energy;
    Json json;
    json["schema"] = "runup.start/1";
    json["scenario"] = result.scenario;
    json["outcome"] = word_of(result.outcome);
    json["as_expected"] = result.as_expected;
    json["time_to_speed_s"] = number_or_null(figures.time_to_speed_s);
    json["handover_s"] = number_or_null(figures.handover_s);
    json["final_speed_rpm"] = figures.final_speed_rpm;
    json["line_current"] = {
        {"peak_A", figures.line_current_peak_A},
        {"half_cycle_rms_max_A", number_or_null(figures.line_current_half_cycle_rms_max_A)},
        {"one_cycle_rms_max_A", number_or_null(figures.line_current_one_cycle_rms_max_A)},
        {"inrush_100ms_rms_A", number_or_null(figures.line_current_inrush_100ms_rms_A)}};
    json["line_voltage"] = {
        {"half_cycle_rms_min_V", number_or_null(figures.line_voltage_half_cycle_rms_min_V)},
        {"one_cycle_rms_min_V", number_or_null(figures.line_voltage_one_cycle_rms_min_V)}};
    json["energy"] = {{"source_J", energy.source_J},
                      {"loss_J", energy.loss_J()},
                      {"load_J", energy.load_J},
                      {"stored_J", energy.stored_J},
                      {"closure", energy.closure()},
                      {"losses",
                       {{"copper_J", energy.copper_J},
                        {"wiring_J", energy.wiring_J},
                        {"switch_J", energy.switch_J},
                        {"iron_J", energy.iron_J},
                        {"friction_J", energy.friction_J}}}};
    json["monitors"] = monitors_json(result.monitors);
    json["cause"] = result.cause.empty() ? Json(nullptr) : Json(result.cause);
    json["warnings"] = result.warnings;
    if (result.has_limiter) {
        json["controller"] = steps_json(result.controller_steps);
    }
    return json;
}

}  // namespace sim
