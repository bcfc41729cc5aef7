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
    return row.connected_share > 0.0 && !row.tripped;
}

/// The half cycle in which it tripped, or the last one before.
const HalfCycle* row_at(const Told& told, double time_s) {
    const HalfCycle* found = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (row.begin_s <= time_s && !row.tripped) {
            found = &row;
        }
    }
    return found;
}

/// The mean of a channel from switching on to the trip; 0 where the plant lacks it.
double mean_until(const Told& told, const char* channel_name, double begin_s, double end_s) {
    const auto channel = told.record.channel(channel_name);
    double sum = 0.0;
    double span_s = 0.0;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (channel && row.begin_s >= begin_s && row.end_s <= end_s) {
            sum += row.channels[*channel].mean * (row.end_s - row.begin_s);
            span_s += row.end_s - row.begin_s;
        }
    }
    return span_s > 0.0 ? sum / span_s : 0.0;
}

void tell_overload_of_inverter(const plant_models::InverterParameters& given, const HalfCycle& row,
                               std::string& text, std::vector<StoryFigure>& figures) {
    const plant_models::InverterParameters inverter = given.completed();
    text += fmt::format(": {:.0f} A on the line, where it may carry {:.1f} A for ever",
                        row.line_current_rms_A, inverter.rated_current_A);
    figures.push_back({"line_current_rms_A", row.line_current_rms_A});
    figures.push_back({"rated_current_A", inverter.rated_current_A});
    if (inverter.overload_law == "definite_time") {
        text += fmt::format(", and more for {:.3g} s", inverter.overload_time_s);
        figures.push_back({"overload_time_s", inverter.overload_time_s});
    }
}

/// What was drawn, against what the supply bears.
void tell_limit_of_trip(const Told& told, const SwitchedAt& trip, std::string& text,
                        std::vector<StoryFigure>& figures) {
    const HalfCycle* row = row_at(told, trip.time_s);
    const SwitchedAt* on = told.record.first(Switched::line_on);
    if (row == nullptr || on == nullptr) {
        return;
    }
    const auto* inverter = std::get_if<plant_models::InverterParameters>(&told.scenario.source);
    const auto* transformer =
        std::get_if<plant_models::TransformerInverterParameters>(&told.scenario.source);
    if (inverter != nullptr && trip.cause == "inverter_overload") {
        tell_overload_of_inverter(*inverter, *row, text, figures);
    } else if (inverter != nullptr && trip.cause == "dc_bus_low") {
        text +=
            fmt::format(": below {:.0f} V it cannot go on", inverter->completed().bus_minimum_V);
        figures.push_back({"bus_minimum_V", inverter->completed().bus_minimum_V});
    } else if (trip.cause == "battery_protection") {
        const double mean_A = mean_until(told, "battery_current_A", on->time_s, trip.time_s);
        const double bears_A = inverter != nullptr ? inverter->completed().battery_protection_A
                                                   : transformer->completed().battery_current_A;
        text += fmt::format(
            ": {:.0f} A out of the battery on average, where it may give {:.0f} A "
            "for ever",
            mean_A, bears_A);
        figures.push_back({"battery_current_mean_A", mean_A});
        figures.push_back({"battery_current_allowed_A", bears_A});
    } else {
        text += fmt::format(", with {:.0f} A and {:.0f} V on the line", row->line_current_rms_A,
                            row->line_voltage_rms_V);
        figures.push_back({"line_current_rms_A", row->line_current_rms_A});
        figures.push_back({"line_voltage_rms_V", row->line_voltage_rms_V});
    }
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
    std::vector<StoryFigure> figures{{"supply_voltage_V", nominal_V(told)}};
    if (speed_rpm != 0.0) {
        text += fmt::format("; the rotor turns already, at {:.0f} r/min", speed_rpm);
        figures.push_back({"speed_rpm", speed_rpm});
    }
    story.push_back({on->time_s, "supply", text, figures});
}

void tell_lowest_voltage(const Told& told, Story& story) {
    const auto* grid = std::get_if<plant_models::GridParameters>(&told.scenario.source);
    const bool has_sag = grid != nullptr && grid->sag_to_percent < 100.0;
    const HalfCycle* lowest = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        // A sag is no answer to the motor.
        const bool in_sag = has_sag && row.end_s > grid->sag_begin_s &&
                            row.begin_s < grid->sag_begin_s + grid->sag_length_s;
        const bool is_lower =
            lowest == nullptr || row.line_voltage_rms_V < lowest->line_voltage_rms_V;
        if (is_fed(row) && !in_sag && is_lower) {
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
         fmt::format("{}the line is at its lowest: {:.0f} V, {:.0f} % of {:.0f} V, with {:.0f} A "
                     "drawn",
                     has_sag ? "apart from the sag, " : "", lowest->line_voltage_rms_V,
                     100.0 * share, nominal_V(told), lowest->line_current_rms_A),
         {{"line_voltage_rms_V", lowest->line_voltage_rms_V},
          {"share_of_supply_voltage", share},
          {"supply_voltage_V", nominal_V(told)},
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
    std::string text = fmt::format("the supply trips ({})", spaced(std::string(trip->cause)));
    std::vector<StoryFigure> figures;
    tell_limit_of_trip(told, *trip, text, figures);
    if (const SwitchedAt* on = told.record.first(Switched::line_on)) {
        text +=
            fmt::format("; that is {:.2f} s after the contactor closed", trip->time_s - on->time_s);
        figures.push_back({"since_switching_on_s", trip->time_s - on->time_s});
    }
    story.push_back({trip->time_s, "supply", text, figures});
}

}  // namespace sim
