#include "sim/results/explain_json.hpp"

#include "sim/results/json_values.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json story_json(const Story& story) {
    Json list = Json::array();
    for (const Sentence& one : story) {
        Json figures = Json::object();
        for (const StoryFigure& figure : one.figures) {
            figures[figure.name] = figure.value;
        }
        list.push_back({{"time_s", one.time_s},
                        {"subject", one.subject},
                        {"text", one.text},
                        {"figures", figures}});
    }
    return list;
}

/// What a yes or no has no number for is null.
Json value_json(const Change& change, double value) {
    return change.spacing == Spacing::yes_no ? Json(nullptr) : Json(value);
}

Json way_json(const WayOfChange& way) {
    const Change& change = way.change;
    Json json;
    json["name"] = change.name;
    json["what"] = change.what;
    json["unit"] = change.unit.empty() ? Json(nullptr) : Json(change.unit);
    json["given"] =
        change.spacing == Spacing::steps ? Json(nullptr) : value_json(change, change.given);
    json["tried_to"] = value_json(change, change.boldest);
    json["makes_the_difference"] = way.turn.has_value();
    const bool has_two_sides =
        way.turn && change.spacing != Spacing::yes_no && change.spacing != Spacing::steps;
    Json comes_up = nullptr;
    Json fails = nullptr;
    if (has_two_sides) {
        comes_up = way.begins_up ? way.turn->before : way.turn->after;
        fails = way.begins_up ? way.turn->after : way.turn->before;
    }
    json["comes_up_at"] = comes_up;
    json["fails_at"] = fails;
    json["only_one_turn_seen"] = way.stays_turned();
    Json tried = Json::array();
    for (const TriedValue& one : way.tried) {
        tried.push_back({{"value", value_json(change, one.value)},
                         {"comes_up", one.comes_up},
                         {"ended", one.ended}});
    }
    json["tried"] = tried;
    return json;
}

Json parts_json(const ChangedTogether& together) {
    Json list = Json::array();
    for (const ChangedTogether::Part& part : together.parts) {
        list.push_back(
            {{"name", part.change.name},
             {"value", value_json(part.change, part.value)},
             {"unit", part.change.unit.empty() ? Json(nullptr) : Json(part.change.unit)}});
    }
    return list;
}

Json together_json(const TogetherSearch& search) {
    Json pairs = Json::array();
    for (const ChangedTogether& pair : search.pairs) {
        pairs.push_back({{"changes", parts_json(pair)}, {"share_of_way", pair.share}});
    }
    return {{"pairs_tried", search.pairs_tried},
            {"pairs", pairs},
            {"minimal_set", search.minimal_set ? parts_json(*search.minimal_set) : Json(nullptr)}};
}

}  // namespace

Json explain_json(const Explanation& explanation) {
    const StartResult& start = explanation.start;
    Json json;
    json["schema"] = "runup.explain/1";
    json["scenario"] = start.scenario;
    json["outcome"] = word_of(start.outcome);
    json["as_expected"] = start.as_expected;
    json["comes_up"] = explanation.comes_up;
    json["cause"] = start.cause.empty() ? Json(nullptr) : Json(start.cause);
    json["time_to_speed_s"] = number_or_null(start.figures.time_to_speed_s);
    json["monitors"] = monitors_json(start.monitors);
    json["story"] = story_json(explanation.story);
    Json ways = Json::array();
    for (const WayOfChange& way : explanation.ways) {
        ways.push_back(way_json(way));
    }
    json["changes"] = ways;
    json["together"] = explanation.together ? together_json(*explanation.together) : Json(nullptr);
    json["reruns"] = explanation.reruns;
    json["interrupted"] = explanation.was_interrupted;
    json["changes_not_tried"] = explanation.ways_not_tried;
    json["warnings"] = start.warnings;
    return json;
}

}  // namespace sim
