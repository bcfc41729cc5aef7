// How results are spelled in JSON, whatever the schema.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "sim/monitors/monitor.hpp"

namespace sim {

template <class Number>
nlohmann::ordered_json number_or_null(const std::optional<Number>& number) {
    return number ? nlohmann::ordered_json(*number) : nlohmann::ordered_json(nullptr);
}

inline nlohmann::ordered_json monitors_json(const std::vector<NamedViolation>& broken) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const NamedViolation& row : broken) {
        list.push_back({{"name", row.monitor},
                        {"time_s", row.violation.time_s},
                        {"seen", row.violation.seen},
                        {"allowed", row.violation.allowed},
                        {"unit", row.violation.unit}});
    }
    return list;
}

}  // namespace sim
