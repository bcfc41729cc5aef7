#include "sim/results/size_json.hpp"

#include "sim/results/json_values.hpp"
#include "sim/results/rate_json.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/site_checks.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json start_json_of(const std::optional<OneStart>& start) {
    if (!start) {
        return nullptr;
    }
    return {{"came_up", start->came_up},
            {"ending", start->ending},
            {"inrush_100ms_rms_A", number_or_null(start->clamp_A)},
            {"half_cycle_rms_max_A", number_or_null(start->half_cycle_A)},
            {"line_voltage_half_cycle_rms_min_V", number_or_null(start->lowest_voltage_V)},
            {"time_to_speed_s", number_or_null(start->time_to_speed_s)}};
}

Json cost_json(const WayCost& cost) {
    return {{"supply", cost.supply},
            {"start_aid", cost.start_aid},
            {"idle",
             {{"draw_W", cost.idle.draw_W},
              {"draw_is_assumed", cost.idle.draw_is_assumed},
              {"energy_kWh_per_year", cost.idle.energy_kWh_per_year},
              {"panel_kWp", cost.idle.panel_kWp},
              {"storage_kWh", cost.idle.storage_kWh},
              {"price", cost.idle.price}}},
            {"total", cost.total()}};
}

Json way_json(const WayOnSupply& way, const SupplyAtHand& supply, const SizeReport& report) {
    Json json;
    json["way"] = word_of(way.way);
    json["fits"] = way.fits;
    json["normal_day"] = start_json_of(way.normal_day);
    json["bad_days"] = {{"draws", way.bad_days.trials}, {"came_up", way.bad_days.successes}};
    append_rate(json["bad_days"], way.bad_days);
    json["bad_days"]["failures"] = way.failures;
    json["bad_days"]["inrush_100ms_rms_A"] = way.bad_clamp
                                                 ? Json{{"lowest", way.bad_clamp->lowest_A},
                                                        {"median", way.bad_clamp->median_A},
                                                        {"highest", way.bad_clamp->highest_A}}
                                                 : Json(nullptr);
    json["good"] = is_good(supply, way, report.decision.demands);
    json["cost"] = way.fits ? cost_json(cost_of(way.way, supply, report.costs)) : Json(nullptr);
    return json;
}

Json assumptions_json(const SizeReport& report) {
    Json costs;
    for (const auto& row : CostAssumptions::table()) {
        costs[std::string(row.key)] = report.costs.*std::get<double CostAssumptions::*>(row.member);
    }
    costs["idle_energy"] = report.costs.idle_energy;
    costs["currency"] = report.costs.currency;
    costs["supply_prices"] = report.costs.supply_prices;
    costs["are_examples"] = report.costs_are_examples;
    Json bad_day = Json::array();
    for (const BadDayFigure& figure : bad_day_figures()) {
        bad_day.push_back({{"name", figure.name},
                           {"lowest", figure.lowest},
                           {"highest", figure.highest},
                           {"origin", figure.origin}});
    }
    return {{"costs", costs}, {"bad_day", bad_day}};
}

Json supply_json(const SizeReport& report, std::size_t index) {
    const SupplyFindings& on = report.findings.supplies[index];
    const SupplyDecision& decision = report.decision.supplies[index];
    Json json;
    json["name"] = on.supply.name;
    json["title"] = on.supply.title;
    json["kind"] = on.supply.kind();
    json["rated_VA"] = number_or_null(on.supply.rated_VA());
    json["answer"] = word_of(decision.answer);
    json["way"] = decision.way ? Json(word_of(*decision.way)) : Json(nullptr);
    json["nearest"] = decision.nearest ? Json(word_of(*decision.nearest)) : Json(nullptr);
    json["carries_running_current"] = decision.carries_running_current;
    json["ways"] = Json::array();
    for (const WayOnSupply& way : on.ways) {
        json["ways"].push_back(way_json(way, on.supply, report));
    }
    return json;
}

Json heading(const SizedUnit& sized) {
    Json json;
    json["schema"] = "runup.size/1";
    json["compressor"] = sized.unit.name;
    json["title"] = sized.unit.title;
    json["from_nameplate"] = sized.is_from_nameplate;
    return json;
}

}  // namespace

Json size_json(const SizeReport& report) {
    Json json = heading(report.sized);
    json["variable_speed"] = false;
    json["not_backed_up"] = report.not_backed_up;
    json["anything_starts_it"] = report.decision.anything_starts_it();
    json["draws"] = report.plan.draws;
    json["seed"] = report.plan.seed;
    json["least_rate"] = report.decision.demands.least_rate;
    json["least_voltage_share"] = report.decision.demands.least_voltage_share;
    json["starts"] = report.findings.starts;
    json["ended_early"] = report.findings.ended_early;
    json["running_current_A"] = number_or_null(report.findings.running_current_A);
    json["direct_start_on_stiff_line"] = start_json_of(report.findings.on_stiff_line);
    json["supplies"] = Json::array();
    for (std::size_t k = 0; k < report.findings.supplies.size(); ++k) {
        json["supplies"].push_back(supply_json(report, k));
    }
    json["smallest"] = Json::array();
    for (const SmallestSupply& one : report.decision.smallest) {
        json["smallest"].push_back(
            {{"of", one.role == SupplyRole::storage ? "inverters" : "generators"},
             {"way", word_of(one.way)},
             {"supply",
              one.index ? Json(report.findings.supplies[*one.index].supply.name) : Json(nullptr)},
             {"cost", one.index ? cost_json(one.cost) : Json(nullptr)}});
    }
    json["site_checks"] = site_checks(report);
    json["assumptions"] = assumptions_json(report);
    return json;
}

Json variable_speed_json(const SizedUnit& sized) {
    Json json = heading(sized);
    json["variable_speed"] = true;
    json["supplies"] = Json::array();
    return json;
}

}  // namespace sim
