// Table [limiter]: what stands between the line and the motor.
//
// A further kind is a further struct in the list below, with its `kind` and its form; nothing else
// changes in the reader. The kinds differ in who decides, not in what they switch: each kind with a
// controller has the same power parts.
#pragma once

#include <string>
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

/// Kind "library": the power parts, and somebody else's controller as a shared library.
struct LibraryLimiter {
    static constexpr std::string_view kind = "library";

    plant_models::LimiterParameters parts;
    std::string path;
    std::string options;  ///< handed to the library as they are
};

/// Kind "processor": the power parts, and the controller with its settings as a program for a small
/// processor, run in an emulator.
struct ProcessorLimiter {
    static constexpr std::string_view kind = "processor";

    plant_models::LimiterParameters parts;
    firmware::Settings settings;  ///< have passed the controller's own check
};

using LimiterChoice = std::variant<NoLimiter, BuiltinLimiter, LibraryLimiter, ProcessorLimiter>;

/// What the limiter switches with; null without one.
const plant_models::LimiterParameters* parts_of(const LimiterChoice& limiter);
plant_models::LimiterParameters* parts_of(LimiterChoice& limiter);

/// The settings of our own controller, wherever it runs; null for others.
const firmware::Settings* settings_of(const LimiterChoice& limiter);
firmware::Settings* settings_of(LimiterChoice& limiter);

/// No key but `kind`.
TableForm form_of(NoLimiter& target);
/// The keys of the power parts, then those of the controller's settings; consistent if the
/// controller's own check says so.
TableForm form_of(BuiltinLimiter& target);
TableForm form_of(ProcessorLimiter& target);
/// The keys of the power parts, then those that name the library.
TableForm form_of(LibraryLimiter& target);

}  // namespace sim
