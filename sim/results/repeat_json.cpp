#include "sim/results/repeat_json.hpp"

#include "sim/results/json_values.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

void add_memory(Json& json, const std::optional<RepeatedStart::Memory>& memory) {
    const auto add = [&](const char* key, auto value_of) {
        json[key] = memory ? Json(value_of(*memory)) : Json(nullptr);
    };
    using Memory = RepeatedStart::Memory;
    add("memory", [](const Memory& one) { return firmware::name_of(one.found); });
    add("learned_level_permille", [](const Memory& one) { return one.learned_level_permille; });
    add("learning_settled", [](const Memory& one) { return one.settled; });
}

Json store_json(const RepeatResult& result) {
    const StoreWear& wear = result.store_wear;
    return {{"word_writes", wear.word_writes},
            {"page_erases", wear.erases},
            {"writes_per_10000_starts", per_10000_starts(wear.word_writes, result)},
            {"erases_per_10000_starts", per_10000_starts(wear.erases, result)},
            {"endurance_share_per_10000_starts", endurance_share(result)}};
}

Json regret_json(const Regret& regret) {
    Json json;
    json["starts"] = regret.starts;
    json["learned_A"] = number_or_null(regret.learned_A);
    json["best_A"] = number_or_null(regret.best_A);
    json["as_set_A"] = number_or_null(regret.as_set_A);
    return json;
}

Json start_row(const RepeatedStart& row, int number) {
    const StartFigures& figures = row.start.figures;
    Json json;
    json["number"] = number;
    json["call_at_s"] = row.call_at_s;
    json["outcome"] = word_of(row.start.outcome);
    json["as_expected"] = row.start.as_expected;
    json["cause"] = row.start.cause.empty() ? Json(nullptr) : Json(row.start.cause);
    json["time_to_speed_s"] = number_or_null(figures.time_to_speed_s);
    json["handover_s"] = number_or_null(figures.handover_s);
    json["stage"] = number_or_null(row.stage);
    json["line_current"] = {
        {"peak_A", figures.line_current_peak_A},
        {"inrush_100ms_rms_A", number_or_null(figures.line_current_inrush_100ms_rms_A)}};
    json["sensor_current"] = {
        {"inrush_100ms_rms_A", number_or_null(row.sensor_inrush_100ms_rms_A)}};
    json["line_voltage"] = {
        {"half_cycle_rms_min_V", number_or_null(figures.line_voltage_half_cycle_rms_min_V)}};
    json["energy_closure"] = row.start.energy.closure();
    json["coasting_s"] = row.coasting_s;
    json["changed"] = row.changed.empty() ? Json(nullptr) : Json(row.changed);
    add_memory(json, row.memory);
    json["monitors"] = monitors_json(row.start.monitors);
    return json;
}

}  // namespace

Json repeat_json(const RepeatResult& result) {
    Json json;
    json["schema"] = "runup.repeat/1";
    json["scenario"] = result.scenario;
    json["as_expected"] = result.as_expected();
    json["interrupted"] = result.interrupted;
    json["starts_planned"] = result.plan.starts;
    json["rest_between_s"] = result.plan.rest_between_s;
    json["power_cuts"] = result.plan.power_cuts;
    json["starts"] = Json::array();
    int number = 0;
    for (const RepeatedStart& row : result.starts) {
        json["starts"].push_back(start_row(row, ++number));
    }
    json["settled_after"] = number_or_null(settled_after(result));
    json["current_settled_after"] = number_or_null(current_settled_after(result));
    json["regret"] = number_or_null(result.regret ? result.regret->value() : std::nullopt);
    json["regret_search"] = result.regret ? regret_json(*result.regret) : Json(nullptr);
    json["store"] = result.has_limiter ? store_json(result) : Json(nullptr);
    json["warnings"] = result.warnings;
    return json;
}

}  // namespace sim
