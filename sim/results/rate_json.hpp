// A success rate with its interval, spelled the same in every schema.
#pragma once

#include <nlohmann/json.hpp>

#include "sim/statistics/success_rate.hpp"

namespace sim {

/// Appends `rate`, `rate_lowest` and `rate_highest`: null without trials.
inline void append_rate(nlohmann::ordered_json& json, const SuccessRate& rate) {
    const auto if_tried = [&rate](double share) {
        return rate.trials > 0 ? nlohmann::ordered_json(share) : nlohmann::ordered_json(nullptr);
    };
    json["rate"] = if_tried(rate.share());
    json["rate_lowest"] = if_tried(rate.lowest());
    json["rate_highest"] = if_tried(rate.highest());
}

/// An object with `cases` and `passed` before them.
inline nlohmann::ordered_json rate_json(const SuccessRate& rate) {
    nlohmann::ordered_json json = {{"cases", rate.trials}, {"passed", rate.successes}};
    append_rate(json, rate);
    return json;
}

}  // namespace sim
