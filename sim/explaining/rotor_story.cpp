// Whether and how the rotor moved.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <variant>
#include <vector>

#include "sim/explaining/story.hpp"

namespace sim {

namespace {

constexpr double twitch_share = 0.02;
constexpr double turning_share = 0.05;
constexpr double backwards_share = 0.20;
constexpr double up_share = 0.90;
/// Slower than this, either way, is no direction.
constexpr double reversal_share = 0.01;
/// A rotor that turns back this often rocks.
constexpr int rocking_reversals = 3;
/// After more than this, something has opened meanwhile, and a mean since the beginning says
/// little.
constexpr double first_feeding_s = 10.0;
constexpr double balance_s = 0.1;

/// Half cycles in which something about the rotor was at its most.
struct Motion {
    const HalfCycle* fastest;
    const HalfCycle* slowest;  ///< most backwards
    const HalfCycle* furthest;
    const HalfCycle* hardest_load;
    const HalfCycle* first_backwards = nullptr;
    int reversals = 0;
};

/// Of at least one half cycle.
Motion motion_of(const Told& told) {
    const std::vector<HalfCycle>& rows = told.record.half_cycles();
    Motion motion{&rows.front(), &rows.front(), &rows.front(), &rows.front()};
    int direction = 0;
    for (const HalfCycle& row : rows) {
        const double speed = row.speed_mean_rpm / told.synchronous_rpm;
        if (motion.first_backwards == nullptr && speed <= -backwards_share) {
            motion.first_backwards = &row;
        }
        const auto keep = [&row](const HalfCycle*& kept, bool beats) {
            kept = beats ? &row : kept;
        };
        keep(motion.fastest, row.speed_highest_rpm > motion.fastest->speed_highest_rpm);
        keep(motion.slowest, row.speed_lowest_rpm < motion.slowest->speed_lowest_rpm);
        keep(motion.furthest, row.turns > motion.furthest->turns);
        keep(motion.hardest_load,
             row.load_torque_highest_Nm > motion.hardest_load->load_torque_highest_Nm);
        const int now = speed > reversal_share ? 1 : (speed < -reversal_share ? -1 : 0);
        motion.reversals += now != 0 && direction != 0 && now != direction ? 1 : 0;
        direction = now != 0 ? now : direction;
    }
    return motion;
}

bool has_gas(const Told& told) {
    return !std::holds_alternative<plant_models::PolynomialLoadParameters>(told.scenario.load);
}

/// The beginning of the motion that led up to speed, or of the first one where none did; with the
/// torque from switching on until then.
void tell_onset(const Told& told, Story& story) {
    const SwitchedAt* on = told.record.first(Switched::line_on);
    const double up_s = told.start.figures.time_to_speed_s.value_or(HUGE_VAL);
    const double turning_rpm = turning_share * told.synchronous_rpm;
    const HalfCycle* onset = nullptr;
    bool was_turning = false;
    double torque_s = 0.0;
    double torque_Nm_s = 0.0;
    std::optional<double> mean_Nm;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (row.begin_s > up_s) {
            break;
        }
        const bool turns = row.speed_mean_rpm >= turning_rpm;
        const bool begins = turns && !was_turning;
        if (begins && (onset == nullptr || up_s < HUGE_VAL)) {
            onset = &row;
            mean_Nm = torque_s > 0.0 ? std::optional<double>(torque_Nm_s / torque_s) : std::nullopt;
        }
        was_turning = turns;
        if (row.begin_s >= on->time_s && row.connected_share > 0.0) {
            torque_s += row.end_s - row.begin_s;
            torque_Nm_s += row.torque_mean_Nm * (row.end_s - row.begin_s);
        }
    }
    if (onset == nullptr) {
        return;
    }
    std::string text = fmt::format("the rotor turns, at {:.0f} r/min", onset->speed_mean_rpm);
    std::vector<StoryFigure> figures{{"speed_rpm", onset->speed_mean_rpm}};
    const bool is_first_feeding = onset->begin_s - on->time_s < first_feeding_s;
    if (mean_Nm && is_first_feeding) {
        text += fmt::format(", after {:.2f} Nm on average since the contactor closed", *mean_Nm);
        figures.push_back({"motor_torque_mean_Nm", *mean_Nm});
    }
    story.push_back({onset->end_s, "rotor", text, figures});
}

/// With the torques of the tenth of a second before.
void tell_fastest(const Told& told, const HalfCycle& fastest, Story& story) {
    double motor_Nm = 0.0;
    double load_Nm = 0.0;
    int count = 0;
    bool is_fed = true;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (row.end_s > fastest.end_s - balance_s && row.end_s <= fastest.end_s) {
            motor_Nm += row.torque_mean_Nm;
            load_Nm += row.load_torque_mean_Nm;
            is_fed = is_fed && row.connected_share == 1.0;
            ++count;
        }
    }
    std::string text = fmt::format(
        "the rotor is as fast as it ever gets: {:.0f} r/min, {:.0f} % of "
        "synchronous speed",
        fastest.speed_highest_rpm, 100.0 * fastest.speed_highest_rpm / told.synchronous_rpm);
    std::vector<StoryFigure> figures{
        {"highest_speed_rpm", fastest.speed_highest_rpm},
        {"share_of_synchronous_speed", fastest.speed_highest_rpm / told.synchronous_rpm}};
    if (is_fed && count > 0) {
        text += fmt::format(
            "; over the last tenth of a second {:.2f} Nm of torque met {:.2f} Nm of "
            "load",
            motor_Nm / count, load_Nm / count);
        figures.push_back({"motor_torque_mean_Nm", motor_Nm / count});
        figures.push_back({"load_torque_mean_Nm", load_Nm / count});
    }
    story.push_back({fastest.end_s, "rotor", text, figures});
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
    std::vector<StoryFigure> figures{{"reversals", static_cast<double>(motion.reversals)},
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
    const bool rocks = motion.reversals >= rocking_reversals;
    const std::optional<double>& up_s = told.start.figures.time_to_speed_s;
    if (begins_turning && (up_s || !rocks)) {
        tell_onset(told, story);
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
    if (up_s && begins_turning) {
        story.push_back(
            {*up_s,
             "rotor",
             fmt::format("the rotor is up: it passes 90 % of {:.0f} r/min", told.synchronous_rpm),
             {{"share_of_synchronous_speed", up_share},
              {"synchronous_speed_rpm", told.synchronous_rpm}}});
    }
    if (!up_s && !rocks) {
        tell_fastest(told, *motion.fastest, story);
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
