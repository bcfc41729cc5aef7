#include "sim/results/fault_campaign_json.hpp"

#include <string>

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json worst_json(const WorstCase& worst, const std::string& quantity) {
    return {{quantity, worst.value}, {"unit", worst.unit}, {"at_s", worst.at_s}};
}

Json row_json(const FaultCampaignRow& row) {
    Json json;
    json["fault"] = row.fault;
    json["runs"] = row.runs;
    json["outcomes"] = row.outcomes;
    json["monitors"] = row.monitors;
    json["let_go"] = row.let_go;
    json["slowest_reaction"] =
        row.let_go > 0 ? worst_json(row.slowest_reaction_s, "reaction_s") : Json(nullptr);
    json["hottest_winding"] = worst_json(row.hottest_winding_C, "winding_C");
    json["worst_closure"] = worst_json(row.worst_closure, "closure");
    return json;
}

}  // namespace

Json fault_campaign_json(const CampaignResult& result) {
    Json json;
    json["schema"] = "runup.faults/1";
    json["units"] = result.units;
    json["instants"] = result.instants;
    json["runs"] = result.runs;
    json["runs_with_broken_monitors"] = result.runs_with_broken_monitors;
    json["faults"] = Json::array();
    for (const FaultCampaignRow& row : result.rows) {
        json["faults"].push_back(row_json(row));
    }
    return json;
}

}  // namespace sim
