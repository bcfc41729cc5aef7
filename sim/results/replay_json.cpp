#include "sim/results/replay_json.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json states_json(const std::vector<DecidedState>& states) {
    Json list = Json::array();
    for (const DecidedState& state : states) {
        list.push_back({{"time_s", state.time_s},
                        {"state", firmware::name_of(state.state)},
                        {"reason", firmware::name_of(state.reason)}});
    }
    return list;
}

}  // namespace

Json replay_json(const ReplayResult& result) {
    Json json;
    json["schema"] = "runup.replay/1";
    json["scenario"] = result.scenario;
    json["same"] = result.is_same();
    json["ticks"] = result.ticks;
    json["different_ticks"] = result.different_ticks;
    json["first_difference"] = nullptr;
    if (result.first) {
        json["first_difference"] = {
            {"tick", result.first->tick},
            {"time_s", static_cast<double>(result.first->tick) / firmware::ticks_per_second},
            {"field", result.first->field},
            {"then", result.first->then},
            {"now", result.first->now}};
    }
    json["failure"] = result.failure.empty() ? Json() : Json(result.failure);
    json["states"] = {{"then", states_json(result.then)}, {"now", states_json(result.now)}};
    return json;
}

}  // namespace sim
