// From the last instant of a run to one word of the outcome list and one word of cause.
#pragma once

#include <optional>
#include <string>

#include "firmware/telemetry.hpp"
#include "plant_models/plant_outputs.hpp"
#include "sim/controllers/seen_doing.hpp"
#include "sim/scenario/outcome.hpp"

namespace sim {

struct LastInstant {
    const plant_models::PlantOutputs& plant;
    bool call_for_cooling = false;
    double synchronous_speed_rad_per_s = 0.0;
    double highest_speed_rpm = 0.0;
    const firmware::Telemetry* controller = nullptr;  ///< null in a direct start
    double backwards_s = 0.0;  ///< how long it has been turning backwards without a pause
    bool controller_has_power = true;
    /// In one word; empty if it has answered every tick.
    std::string controller_failure{};
    /// Of a controller that does not tell its states.
    std::optional<SeenDoing> seen = std::nullopt;
};

struct Verdict {
    Outcome outcome = Outcome::not_started;
    /// Empty when running, or stopped as asked. Else the supply's trip, the controller's reason
    /// ("controller_unpowered" if it has none left to give; "let_go" or "contactor_not_permitted"
    /// if it never tells any), or what the rotor did: "rotor_never_turned", "rotor_stayed_slow".
    std::string cause;
};

Verdict judge(const LastInstant& last);

}  // namespace sim
