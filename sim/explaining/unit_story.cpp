// What broke, and what the unit's own parts did: protector, module, contactor, thermistor, heat.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/explaining/story.hpp"
#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

constexpr double noticeable_rise_K = 10.0;
/// A thermistor this many times its cold resistance holds the winding off.
constexpr double holding_off_ratio = 3.0;
/// More openings than this are told once.
constexpr int most_trips_told = 4;

std::optional<double> begin_of(const Fault& fault, const StartRecord& record) {
    if (!fault.timing.waits_for_state()) {
        return fault.timing.at_s;
    }
    for (const ControllerMoment& moment : record.controller()) {
        if (firmware::name_of(moment.told.state) == fault.timing.when) {
            return moment.time_s + fault.timing.after_s;
        }
    }
    return std::nullopt;
}

}  // namespace

void tell_faults(const Told& told, Story& story) {
    for (const Fault& fault : told.scenario.faults) {
        const std::optional<double> begin_s = begin_of(fault, told.record);
        if (!begin_s || *begin_s > told.scenario.run.duration_s) {
            continue;
        }
        std::string text = "the scenario's fault begins: " + spaced(std::string(fault.kind()));
        std::vector<StoryFigure> figures;
        if (fault.timing.duration_s > 0.0) {
            text += fmt::format(", for {:.3g} s", fault.timing.duration_s);
            figures.push_back({"duration_s", fault.timing.duration_s});
        }
        story.push_back({*begin_s, "fault", text, figures});
    }
}

void tell_unit_trips(const Told& told, Story& story) {
    int told_so_far = 0;
    for (const SwitchedAt& one : told.record.switched()) {
        if (told_so_far >= most_trips_told) {
            return;
        }
        if (one.what == Switched::unit_tripped) {
            ++told_so_far;
            story.push_back(
                {one.time_s,
                 "unit",
                 fmt::format("the unit's own protection opens ({}), at {:.0f} A and with {:.0f} C "
                             "in the hotter winding",
                             spaced(std::string(one.cause)), one.line_current_rms_A,
                             one.hottest_winding_C),
                 {{"line_current_rms_A", one.line_current_rms_A},
                  {"hottest_winding_C", one.hottest_winding_C}}});
        } else if (one.what == Switched::unit_returned) {
            story.push_back({one.time_s,
                             "unit",
                             fmt::format("the protection closes again; the hotter winding has "
                                         "{:.0f} C",
                                         one.hottest_winding_C),
                             {{"hottest_winding_C", one.hottest_winding_C}}});
        }
    }
}

void tell_drop_outs(const Told& told, Story& story) {
    if (told.record.drop_outs() == 0) {
        return;
    }
    const SwitchedAt* first = told.record.first(Switched::line_off);
    const double first_s = first != nullptr ? first->time_s : 0.0;
    std::string text = "the voltage no longer holds the contactor's coil: it lets go";
    if (told.record.drop_outs() > 1) {
        text += fmt::format(", for the first of {} times", told.record.drop_outs());
    }
    std::vector<StoryFigure> figures{{"drop_outs", static_cast<double>(told.record.drop_outs())}};
    const double span_s = told.scenario.run.duration_s - first_s;
    if (told.record.drop_outs() > 1 && span_s > 0.0) {
        text += fmt::format(" ({:.1f} a second)", told.record.drop_outs() / span_s);
        figures.push_back({"drop_outs_per_s", told.record.drop_outs() / span_s});
    }
    story.push_back({first_s, "unit", text, figures});
}

void tell_thermistor(const Told& told, Story& story) {
    const auto* aid =
        std::get_if<plant_models::ThermistorParameters>(&told.scenario.unit.start_aid);
    const auto ohm = told.record.channel("thermistor_ohm");
    const auto celsius = told.record.channel("thermistor_C");
    if (aid == nullptr || !ohm || !celsius || told.record.half_cycles().empty()) {
        return;
    }
    const HalfCycle& first = told.record.half_cycles().front();
    const double begin_ohm = first.channels[*ohm].mean;
    if (begin_ohm < holding_off_ratio * aid->cold_resistance_ohm) {
        return;
    }
    story.push_back(
        {first.begin_s,
         "unit",
         fmt::format("the start thermistor is still hot from the last run: {:.0f} C and {:.0f} ohm "
                     "instead of {:.0f} ohm; it holds the auxiliary winding off",
                     first.channels[*celsius].mean, begin_ohm, aid->cold_resistance_ohm),
         {{"thermistor_C", first.channels[*celsius].mean},
          {"thermistor_ohm", begin_ohm},
          {"cold_resistance_ohm", aid->cold_resistance_ohm}}});
}

void tell_winding_heat(const Told& told, Story& story) {
    const auto& rows = told.record.half_cycles();
    if (rows.empty()) {
        return;
    }
    const auto hottest = std::max_element(
        rows.begin(), rows.end(), [](const HalfCycle& one, const HalfCycle& other) {
            return one.hottest_winding_C < other.hottest_winding_C;
        });
    const double begin_C = rows.front().hottest_winding_C;
    if (hottest->hottest_winding_C - begin_C < noticeable_rise_K) {
        return;
    }
    story.push_back({hottest->end_s,
                     "unit",
                     fmt::format("the hotter winding is at its hottest: {:.0f} C, {:.0f} K above "
                                 "the beginning",
                                 hottest->hottest_winding_C, hottest->hottest_winding_C - begin_C),
                     {{"hottest_winding_C", hottest->hottest_winding_C},
                      {"rise_K", hottest->hottest_winding_C - begin_C}}});
}

}  // namespace sim
