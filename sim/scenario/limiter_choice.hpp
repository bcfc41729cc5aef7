// Table [limiter]: what stands between the line and the motor.
//
// A further kind is a further struct in the list below, with its `kind` and its form; nothing else
// changes in the reader. The kinds differ in who decides, not in what they switch: each kind with a
// controller has the same power parts.
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
    firmware::Settings settings;  ///< have passed the controller's own check
};

using LimiterChoice = std::variant<NoLimiter, BuiltinLimiter>;

/// No key but `kind`.
TableForm form_of(NoLimiter& target);
/// The keys of the power parts, then those of the controller's settings; consistent if the
/// controller's own check says so.
TableForm form_of(BuiltinLimiter& target);

}  // namespace sim
