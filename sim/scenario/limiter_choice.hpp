// Table [limiter]: what stands between the line and the motor.
//
// A further kind is a further struct in this list, with its `kind` and its form.
#pragma once

#include <string_view>
#include <variant>

#include "firmware/settings/settings.hpp"
#include "plant_models/switches/limiter_parameters.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

/// Kind "none": the contactor puts the motor straight on the line.
struct NoLimiter {
    static constexpr std::string_view kind = "none";
};

/// Kind "builtin": the power parts, and the controller in this build with its settings.
struct BuiltinLimiter {
    static constexpr std::string_view kind = "builtin";

    plant_models::LimiterParameters parts;
    firmware::Settings settings;
};

using LimiterChoice = std::variant<NoLimiter, BuiltinLimiter>;

TableForm form_of(NoLimiter& target);
TableForm form_of(BuiltinLimiter& target);

}  // namespace sim
