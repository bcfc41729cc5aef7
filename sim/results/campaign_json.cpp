#include "sim/results/campaign_json.hpp"

#include "sim/reporting/block_verdict.hpp"
#include "sim/reporting/campaign_summary.hpp"
#include "sim/reporting/failure_drivers.hpp"
#include "sim/reporting/figure_distribution.hpp"
#include "sim/results/json_values.hpp"
#include "sim/results/rate_json.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json blocks_json(const CampaignResults& results) {
    Json list = Json::array();
    for (const BlockVerdict& block : block_verdicts(results)) {
        list.push_back(
            {{"block", block.block},
             {"starts", block.starts},
             {"failed", block.failed},
             {"passed", block.passed()},
             {"success_at_least_percent", number_or_null(block.success_at_least_percent)}});
        list.back()["success_percent"] =
            block.success_at_least_percent ? Json(block.success_percent()) : Json(nullptr);
    }
    return list;
}

Json rates_json(const CampaignSummary& summary) {
    Json sides = Json::object();
    for (const SideRates& side : summary.sides) {
        Json list = Json::array();
        for (const NamedRate& one : side.rates) {
            Json rate = {{"name", one.name}};
            rate.update(rate_json(one.cases));
            list.push_back(rate);
        }
        sides[side.side] = list;
    }
    return sides;
}

Json place_json(const CasePlace& place) {
    Json json;
    for (const MatrixSide& side : matrix_sides()) {
        json[side.name] = place.*side.member;
    }
    return json;
}

Json worst_json(const CampaignSummary& summary, const CampaignResults& results) {
    Json list = Json::array();
    for (const WorstStart& one : summary.worst) {
        Json broken = Json::array();
        for (const BrokenRequirement& requirement : one.start->broken) {
            broken.push_back(
                {{"requirement", requirement.requirement}, {"words", requirement.words}});
        }
        list.push_back(
            {{"case", one.in_case->id},
             {"start", one.start->start},
             {"place", place_json(one.in_case->place)},
             {"outcome", one.start->outcome},
             {"cause", one.start->cause.empty() ? Json(nullptr) : Json(one.start->cause)},
             {"broken", broken},
             {"rerun", rerun_command(results, *one.in_case)}});
    }
    return list;
}

Json drivers_json(const CampaignResults& results) {
    Json list = Json::array();
    for (const BlockDrivers& block : failure_drivers(results)) {
        Json inputs = Json::array();
        for (const DrivingInput& one : block.inputs) {
            Json thirds = Json::array();
            for (const SuccessRate& third : one.failed_by_third) {
                thirds.push_back({{"cases", third.trials}, {"failed", third.successes}});
            }
            inputs.push_back({{"input", one.input},
                              {"failed_above_passed", one.failed_above_passed.probability},
                              {"lowest", one.failed_above_passed.lowest},
                              {"highest", one.failed_above_passed.highest},
                              {"drives", one.drives()},
                              {"thirds", thirds}});
        }
        list.push_back({{"block", block.block},
                        {"failed", block.failed},
                        {"passed", block.passed},
                        {"too_few", block.too_few()},
                        {"inputs", inputs}});
    }
    return list;
}

Json figures_json(const CampaignResults& results) {
    Json figures = Json::object();
    for (const FigureDistribution& one : figure_distributions(results)) {
        figures[one.figure] = {{"starts", one.starts},  {"without", one.without},
                               {"lowest", one.lowest},  {"low_5_percent", one.low_5_percent},
                               {"median", one.median},  {"high_5_percent", one.high_5_percent},
                               {"highest", one.highest}};
    }
    return figures;
}

}  // namespace

Json campaign_row_json(const CampaignResults& results) {
    const CampaignRow& campaign = results.campaign;
    return {{"suite", campaign.suite},
            {"title", campaign.title},
            {"suite_hash", campaign.suite_hash},
            {"build", campaign.build},
            {"cases_of_suite", campaign.cases},
            {"cases_here", results.cases.size()},
            {"shard_index", campaign.shard_index},
            {"shard_total", campaign.shard_total},
            {"finished", campaign.finished}};
}

Json campaign_json(const CampaignResults& results) {
    const CampaignSummary summary = summary_of(results);
    Json json;
    json["schema"] = "runup.report/1";
    json["campaign"] = campaign_row_json(results);
    json["passed"] = campaign_passed(results);
    json["starts"] = summary.starts;
    json["starts_passed"] = summary.starts_passed;
    json["cases"] = rate_json(summary.cases);
    json["blocks"] = blocks_json(results);
    json["rates"] = rates_json(summary);
    json["broken"] = Json::array();
    for (const BrokenCount& one : summary.broken) {
        json["broken"].push_back({{"requirement", one.requirement},
                                  {"starts", one.starts},
                                  {"cases", one.cases},
                                  {"first_case", one.example->id}});
    }
    json["worst"] = worst_json(summary, results);
    json["drivers"] = drivers_json(results);
    json["figures"] = figures_json(results);
    return json;
}

}  // namespace sim
