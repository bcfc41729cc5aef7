// What went on inside an inverter: its current limit, its bus, its battery.
#include <fmt/format.h>

#include <algorithm>
#include <variant>

#include "sim/explaining/story.hpp"

namespace sim {

namespace {

/// Of a half cycle; below it the limit hardly touches the crest.
constexpr double noticeable_share = 0.02;
constexpr double noticeable_fall = 0.10;

/// The row in which a channel is lowest, or highest, before the supply trips.
const HalfCycle* extreme(const Told& told, std::size_t channel, bool highest) {
    const HalfCycle* found = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (row.tripped) {
            break;
        }
        const HalfCycle::Channel& now = row.channels[channel];
        const bool beats =
            found == nullptr || (highest ? now.highest > found->channels[channel].highest
                                         : now.lowest < found->channels[channel].lowest);
        found = beats ? &row : found;
    }
    return found;
}

}  // namespace

void tell_current_limit(const Told& told, Story& story) {
    const auto* inverter = std::get_if<plant_models::InverterParameters>(&told.scenario.source);
    const auto active = told.record.channel("inverter_current_limit_active");
    if (inverter == nullptr || !active) {
        return;
    }
    const HalfCycle* first = nullptr;
    const HalfCycle* last = nullptr;
    double limited_s = 0.0;
    for (const HalfCycle& row : told.record.half_cycles()) {
        const double share = row.channels[*active].mean;
        if (row.tripped || share < noticeable_share) {
            continue;
        }
        first = first == nullptr ? &row : first;
        last = &row;
        limited_s += share * (row.end_s - row.begin_s);
    }
    if (first == nullptr) {
        return;
    }
    const SwitchedAt* on = told.record.first(Switched::line_on);
    const double begin_s = std::max(first->begin_s, on != nullptr ? on->time_s : 0.0);
    const double span_s = last->end_s - begin_s;
    story.push_back(
        {begin_s,
         "supply",
         fmt::format(
             "the inverter reaches its current limit of {:.0f} A peak: until {:.3f} s it "
             "limits for {:.0f} % of the time, and what it holds back in current is missing "
             "in voltage",
             inverter->peak_current_limit_A, last->end_s, 100.0 * limited_s / span_s),
         {{"peak_current_limit_A", inverter->peak_current_limit_A},
          {"limits_until_s", last->end_s},
          {"limited_share", limited_s / span_s}}});
}

void tell_bus(const Told& told, Story& story) {
    const auto bus = told.record.channel("dc_bus_V");
    if (!bus || told.record.half_cycles().empty()) {
        return;
    }
    const HalfCycle* lowest = extreme(told, *bus, false);
    const double before_V = told.record.half_cycles().front().channels[*bus].highest;
    if (lowest == nullptr || lowest->channels[*bus].lowest > (1.0 - noticeable_fall) * before_V) {
        return;
    }
    story.push_back(
        {lowest->end_s,
         "supply",
         fmt::format("the inverter's bus is down to {:.0f} V from {:.0f} V: more has "
                     "been drawn than refills it",
                     lowest->channels[*bus].lowest, before_V),
         {{"bus_lowest_V", lowest->channels[*bus].lowest}, {"bus_before_V", before_V}}});
}

void tell_battery(const Told& told, Story& story) {
    const auto current = told.record.channel("battery_current_A");
    const auto* inverter = std::get_if<plant_models::InverterParameters>(&told.scenario.source);
    if (!current || (inverter != nullptr && !inverter->has_battery())) {
        return;
    }
    const HalfCycle* most = nullptr;
    for (const HalfCycle& row : told.record.half_cycles()) {
        if (!row.tripped &&
            (most == nullptr || row.channels[*current].mean > most->channels[*current].mean)) {
            most = &row;
        }
    }
    if (most == nullptr || most->channels[*current].mean <= 0.0) {
        return;
    }
    std::string text = fmt::format(
        "the battery gives the most: {:.0f} A, averaged over a half "
        "cycle",
        most->channels[*current].mean);
    std::vector<StoryFigure> figures{{"battery_current_mean_A", most->channels[*current].mean}};
    for (const char* name : {"inverter_input_V", "battery_voltage_V"}) {
        if (const auto voltage = told.record.channel(name)) {
            text += fmt::format(", and stands at {:.1f} V", most->channels[*voltage].mean);
            figures.push_back({"battery_side_voltage_V", most->channels[*voltage].mean});
            break;
        }
    }
    story.push_back({most->end_s, "supply", text, figures});
}

}  // namespace sim
