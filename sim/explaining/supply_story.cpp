// What the supply did.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "sim/explaining/story.hpp"
#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

/// Less than this is no fall worth a sentence.
constexpr double noticeable_fall = 0.03;
constexpr double noticeable_frequency_Hz = 0.5;

double nominal_V(const Told& told) {
    return plant_models::nominal_voltage_V(told.scenario.source);
}

/// While the motor was on the line and the supply had not tripped.
bool is_fed(const HalfCycle& row) {
    return row.connected_share == 1.0 && !row.tripped;
}

}  // namespace

void tell_switching_on(const Told& told, Story& story) {
    const SwitchedAt* on = told.record.first(Switched::line_on);
    if (on == nullptr) {
        return;
    }
    const double speed_rpm = told.scenario.run.initial_speed_rpm;
    std::string text = fmt::format(
        "the contactor puts the unit on the supply, which has {:.0f} V "
        "without load",
        nominal_V(told));
    std::vector<Figure> figures{{"supply_voltage_V", nominal_V(told)}};
    if (speed_rpm != 0.0) {
        text += fmt::format("; the rotor turns already, at {:.0f} r/min", speed_rpm);
        figures.push_back({"speed_rpm", speed_rpm});
    }
    story.push_back({on->time_s, "supply", text, figures});
}

void tell_lowest_voltage(const Told& told, Story& story) {
    const HalfCycle* lowest = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (is_fed(row) &&
            (lowest == nullptr || row.line_voltage_rms_V < lowest->line_voltage_rms_V)) {
            lowest = &row;
        }
    }
    if (lowest == nullptr ||
        lowest->line_voltage_rms_V > (1.0 - noticeable_fall) * nominal_V(told)) {
        return;
    }
    const double share = lowest->line_voltage_rms_V / nominal_V(told);
    story.push_back(
        {lowest->end_s,
         "supply",
         fmt::format("the line is at its lowest: {:.0f} V, {:.0f} % of {:.0f} V, with {:.0f} A "
                     "drawn",
                     lowest->line_voltage_rms_V, 100.0 * share, nominal_V(told),
                     lowest->line_current_rms_A),
         {{"line_voltage_rms_V", lowest->line_voltage_rms_V},
          {"line_current_rms_A", lowest->line_current_rms_A}}});
}

void tell_generator(const Told& told, Story& story) {
    if (!std::holds_alternative<plant_models::GeneratorParameters>(told.scenario.source)) {
        return;
    }
    const HalfCycle* slowest = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (is_fed(row) && (slowest == nullptr || row.frequency_Hz < slowest->frequency_Hz)) {
            slowest = &row;
        }
    }
    if (slowest == nullptr) {
        return;
    }
    const double before_Hz = told.record.half_cycles().front().frequency_Hz;
    if (before_Hz - slowest->frequency_Hz < noticeable_frequency_Hz) {
        return;
    }
    story.push_back(
        {slowest->end_s,
         "supply",
         fmt::format("the engine is at its slowest: {:.1f} Hz, after {:.1f} Hz at the "
                     "beginning",
                     slowest->frequency_Hz, before_Hz),
         {{"frequency_Hz", slowest->frequency_Hz}, {"frequency_before_Hz", before_Hz}}});
}

void tell_sag(const Told& told, Story& story) {
    const auto* grid = std::get_if<plant_models::GridParameters>(&told.scenario.source);
    if (grid == nullptr || grid->sag_to_percent >= 100.0 ||
        grid->sag_begin_s >= told.scenario.run.duration_s) {
        return;
    }
    const double end_s = grid->sag_begin_s + grid->sag_length_s;
    double lowest_V = nominal_V(told);
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (row.begin_s >= grid->sag_begin_s && row.end_s <= end_s) {
            lowest_V = std::min(lowest_V, row.line_voltage_rms_V);
        }
    }
    story.push_back({grid->sag_begin_s,
                     "supply",
                     fmt::format("the supply sags for {:.3g} s; the line falls to {:.0f} V",
                                 grid->sag_length_s, lowest_V),
                     {{"sag_length_s", grid->sag_length_s}, {"line_voltage_rms_V", lowest_V}}});
}

void tell_supply_trip(const Told& told, Story& story) {
    const SwitchedAt* trip = told.record.first(Switched::supply_tripped);
    if (trip == nullptr) {
        return;
    }
    std::string text = fmt::format("the supply trips ({}), {:.0f} A drawn at the time",
                                   spaced(std::string(trip->cause)), trip->line_current_rms_A);
    std::vector<Figure> figures{{"line_current_rms_A", trip->line_current_rms_A}};
    if (const SwitchedAt* on = told.record.first(Switched::line_on)) {
        text += fmt::format(", {:.2f} s after the motor was put on it", trip->time_s - on->time_s);
        figures.push_back({"since_switching_on_s", trip->time_s - on->time_s});
    }
    story.push_back({trip->time_s, "supply", text, figures});
}

}  // namespace sim
