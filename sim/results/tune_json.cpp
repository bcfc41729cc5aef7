#include "sim/results/tune_json.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json trial_json(const LadderTrial& trial) {
    Json json;
    json["counts"] = trial.counts;
    json["inrush_100ms_rms_A"] = trial.inrush_100ms_rms_A;
    json["time_to_speed_s"] =
        trial.time_to_speed_s > 0.0 ? Json(trial.time_to_speed_s) : Json(nullptr);
    json["stage_percent"] = Json::array();
    json["stage_dwell_ms"] = Json::array();
    for (const firmware::StageSettings& stage : trial.stages) {
        json["stage_percent"].push_back(0.1 * stage.target_permille);
        json["stage_dwell_ms"].push_back(stage.dwell_ms);
    }
    return json;
}

}  // namespace

nlohmann::ordered_json tune_json(const std::string& scenario, const LadderSearch& search) {
    Json json;
    json["schema"] = "runup.tune/1";
    json["scenario"] = scenario;
    json["starts"] = search.starts;
    json["given"] = trial_json(search.given);
    json["best"] = search.best.counts ? trial_json(search.best) : Json(nullptr);
    json["regret"] = search.best.counts && search.given.counts
                         ? Json(search.given.inrush_100ms_rms_A / search.best.inrush_100ms_rms_A)
                         : Json(nullptr);
    return json;
}

}  // namespace sim
