// Whether and how the rotor moved.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "sim/explaining/story.hpp"

namespace sim {

namespace {

constexpr double twitch_share = 0.02;
constexpr double turning_share = 0.05;
constexpr double backwards_share = 0.20;
constexpr double up_share = 0.90;
/// A rotor that turns back this often rocks.
constexpr int rocking_reversals = 3;

struct Motion {
    const HalfCycle* first_turning = nullptr;
    const HalfCycle* fastest = nullptr;
    const HalfCycle* slowest = nullptr;  ///< most backwards
    const HalfCycle* furthest = nullptr;
    const HalfCycle* first_backwards = nullptr;
    const HalfCycle* hardest_load = nullptr;
    int reversals = 0;
};

Motion motion_of(const Told& told) {
    Motion motion;
    int direction = 0;
    for (const HalfCycle& row : told.record.half_cycles()) {
        const double speed = row.speed_mean_rpm / told.synchronous_rpm;
        if (motion.first_turning == nullptr && speed >= turning_share) {
            motion.first_turning = &row;
        }
        if (motion.first_backwards == nullptr && speed <= -backwards_share) {
            motion.first_backwards = &row;
        }
        const auto keep = [&row](const HalfCycle*& kept, bool beats) {
            kept = beats ? &row : kept;
        };
        keep(motion.fastest, motion.fastest == nullptr ||
                                 row.speed_highest_rpm > motion.fastest->speed_highest_rpm);
        keep(motion.slowest,
             motion.slowest == nullptr || row.speed_lowest_rpm < motion.slowest->speed_lowest_rpm);
        keep(motion.furthest, motion.furthest == nullptr || row.turns > motion.furthest->turns);
        keep(motion.hardest_load,
             motion.hardest_load == nullptr ||
                 row.load_torque_highest_Nm > motion.hardest_load->load_torque_highest_Nm);
        const int now = speed > 0.01 ? 1 : (speed < -0.01 ? -1 : 0);
        motion.reversals += now != 0 && direction != 0 && now != direction ? 1 : 0;
        direction = now != 0 ? now : direction;
    }
    return motion;
}

bool has_gas(const Told& told) {
    return !std::holds_alternative<plant_models::PolynomialLoadParameters>(told.scenario.load);
}

void tell_never_turned(const Told& told, const Motion& motion, Story& story) {
    const double highest_rpm = motion.fastest->speed_highest_rpm;
    const double end_s = told.record.half_cycles().back().end_s;
    story.push_back({end_s,
                     "rotor",
                     highest_rpm < 1.0
                         ? std::string("the rotor has not moved")
                         : fmt::format("the rotor has only trembled: {:.0f} r/min at the most, and "
                                       "{:.2f} of a turn from where it stood",
                                       highest_rpm, motion.furthest->turns),
                     {{"highest_speed_rpm", highest_rpm}, {"turns", motion.furthest->turns}}});
}

void tell_rocking(const Told& told, const Motion& motion, Story& story) {
    if (motion.reversals < rocking_reversals || told.start.figures.time_to_speed_s) {
        return;
    }
    std::string text = fmt::format(
        "the rotor rocks: it turns round {} times, and swings between "
        "{:.0f} and {:.0f} r/min",
        motion.reversals, motion.slowest->speed_lowest_rpm, motion.fastest->speed_highest_rpm);
    std::vector<Figure> figures{{"reversals", static_cast<double>(motion.reversals)},
                                {"lowest_speed_rpm", motion.slowest->speed_lowest_rpm},
                                {"highest_speed_rpm", motion.fastest->speed_highest_rpm}};
    if (has_gas(told)) {
        text += fmt::format(
            "; it gets {:.2f} turns ahead, and the gas presses back with up to "
            "{:.1f} Nm",
            motion.furthest->turns, motion.hardest_load->load_torque_highest_Nm);
        figures.push_back({"turns", motion.furthest->turns});
        figures.push_back({"load_torque_highest_Nm", motion.hardest_load->load_torque_highest_Nm});
    }
    story.push_back({motion.fastest->end_s, "rotor", text, figures});
}

}  // namespace

void tell_rotor(const Told& told, Story& story) {
    if (told.record.half_cycles().empty() || told.record.first(Switched::line_on) == nullptr) {
        return;
    }
    const Motion motion = motion_of(told);
    const double highest_share = motion.fastest->speed_highest_rpm / told.synchronous_rpm;
    const double lowest_share = motion.slowest->speed_lowest_rpm / told.synchronous_rpm;
    if (highest_share < twitch_share && lowest_share > -twitch_share) {
        tell_never_turned(told, motion, story);
        return;
    }
    const bool begins_turning = told.scenario.run.initial_speed_rpm == 0.0;
    if (begins_turning && motion.first_turning != nullptr) {
        story.push_back({motion.first_turning->begin_s,
                         "rotor",
                         fmt::format("the rotor begins to turn, with {:.2f} Nm of torque against "
                                     "{:.2f} Nm of load in this half cycle",
                                     motion.first_turning->torque_mean_Nm,
                                     motion.first_turning->load_torque_mean_Nm),
                         {{"motor_torque_Nm", motion.first_turning->torque_mean_Nm},
                          {"load_torque_Nm", motion.first_turning->load_torque_mean_Nm}}});
    }
    tell_rocking(told, motion, story);
    if (motion.first_backwards != nullptr) {
        story.push_back(
            {motion.first_backwards->begin_s,
             "rotor",
             fmt::format("the rotor turns backwards; {:.0f} r/min later on, at {:.3f} s",
                         motion.slowest->speed_lowest_rpm, motion.slowest->end_s),
             {{"lowest_speed_rpm", motion.slowest->speed_lowest_rpm},
              {"at_s", motion.slowest->end_s}}});
    }
    const std::optional<double>& up_s = told.start.figures.time_to_speed_s;
    if (up_s && begins_turning) {
        story.push_back(
            {*up_s,
             "rotor",
             fmt::format("the rotor is up: it passes 90 % of {:.0f} r/min", told.synchronous_rpm),
             {{"speed_rpm", up_share * told.synchronous_rpm}}});
    }
    if (!up_s && motion.reversals < rocking_reversals) {
        story.push_back(
            {motion.fastest->end_s,
             "rotor",
             fmt::format("the rotor is as fast as it ever gets: {:.0f} r/min, {:.0f} % "
                         "of synchronous speed; {:.2f} Nm of torque meet {:.2f} Nm of "
                         "load",
                         motion.fastest->speed_highest_rpm, 100.0 * highest_share,
                         motion.fastest->torque_mean_Nm, motion.fastest->load_torque_mean_Nm),
             {{"highest_speed_rpm", motion.fastest->speed_highest_rpm},
              {"motor_torque_Nm", motion.fastest->torque_mean_Nm},
              {"load_torque_Nm", motion.fastest->load_torque_mean_Nm}}});
    }
}

void tell_end(const Told& told, Story& story) {
    const auto& rows = told.record.half_cycles();
    if (rows.empty()) {
        return;
    }
    const double speed_rpm = told.start.figures.final_speed_rpm;
    const HalfCycle& last = rows.back();
    story.push_back(
        {told.scenario.run.duration_s,
         "rotor",
         fmt::format("the run ends: {:.0f} r/min, {:.1f} A and {:.0f} V on the line",
                     std::round(speed_rpm) + 0.0, last.line_current_rms_A, last.line_voltage_rms_V),
         {{"final_speed_rpm", speed_rpm},
          {"line_current_rms_A", last.line_current_rms_A},
          {"line_voltage_rms_V", last.line_voltage_rms_V}}});
}

}  // namespace sim
