#include "sim/bench/verdict.hpp"

#include <algorithm>

#include "plant_models/numeric/units.hpp"

namespace sim {

namespace {

constexpr double up_to_speed_share = 0.90;
constexpr double backwards_share = 0.20;
/// A rotor that rocks against the gas turns back sooner.
constexpr double backwards_least_s = 0.25;
/// Below this share of synchronous speed a rotor has at most twitched.
constexpr double turned_share = 0.02;

std::string one_word(const char* words) {
    std::string word = words;
    std::replace(word.begin(), word.end(), ' ', '_');
    return word;
}

std::string cause_at_rotor(const LastInstant& last) {
    if (last.plant.contactor_drop_outs > 0) {
        return "contactor_dropped_out";
    }
    const double synchronous_rpm = plant_models::rad_per_s_to_rpm(last.synchronous_speed_rad_per_s);
    return last.highest_speed_rpm < turned_share * synchronous_rpm ? "rotor_never_turned"
                                                                   : "rotor_stayed_slow";
}

/// Why a controller does not feed the motor, in one word.
std::string reason_of(const LastInstant& last) {
    if (!last.controller_has_power) {
        return "controller_unpowered";
    }
    if (last.seen) {
        return *last.seen == SeenDoing::let_go ? "let_go" : "contactor_not_permitted";
    }
    return one_word(firmware::name_of(last.controller->reason));
}

}  // namespace

Verdict judge(const LastInstant& last) {
    if (!last.controller_failure.empty()) {
        return {Outcome::controller_failed, last.controller_failure};
    }
    if (!last.plant.supply_trip.empty()) {
        return {Outcome::supply_tripped, std::string(last.plant.supply_trip)};
    }
    if (!last.plant.unit_trip.empty()) {
        return {Outcome::protector_open, std::string(last.plant.unit_trip)};
    }
    const bool backwards =
        last.plant.line_connected && last.backwards_s >= backwards_least_s &&
        last.plant.speed_rad_per_s < -backwards_share * last.synchronous_speed_rad_per_s;
    const bool up =
        last.plant.speed_rad_per_s >= up_to_speed_share * last.synchronous_speed_rad_per_s;
    if (last.controller == nullptr) {
        if (!last.plant.line_connected) {
            return !last.call_for_cooling ? Verdict{Outcome::stopped, ""}
                   : last.plant.contactor_drop_outs > 0
                       ? Verdict{Outcome::stalled, cause_at_rotor(last)}
                       : Verdict{Outcome::not_started, "contactor_open"};
        }
        if (backwards) {
            return {Outcome::running_backwards, "rotor_turns_backwards"};
        }
        return up ? Verdict{Outcome::running, ""} : Verdict{Outcome::stalled, cause_at_rotor(last)};
    }
    const std::string reason = reason_of(last);
    switch (last.controller->state) {
        case firmware::State::locked_out:
            return {Outcome::locked_out, reason};
        case firmware::State::backing_off:
            return {Outcome::resting, reason};
        case firmware::State::listening:
            return {Outcome::not_started, reason};
        case firmware::State::resting:
            return last.call_for_cooling ? Verdict{Outcome::not_started, reason}
                                         : Verdict{Outcome::stopped, ""};
        case firmware::State::probing:
        case firmware::State::climbing:
        case firmware::State::handing_over:
        case firmware::State::running:
            break;
    }
    // Whether the thyristors happen to block at the last instant says nothing.
    if (backwards) {
        return {Outcome::running_backwards, "rotor_turns_backwards"};
    }
    return up ? Verdict{Outcome::running, ""} : Verdict{Outcome::stalled, cause_at_rotor(last)};
}

}  // namespace sim
