#include "sim/explaining/start_record.hpp"

#include <algorithm>
#include <iterator>

#include "plant_models/numeric/units.hpp"
#include "sim/bench/plant_of_scenario.hpp"

namespace sim {

namespace {
constexpr double tick_s = 1e-9 * static_cast<double>(tick_length.count());
}

StartRecord::StartRecord(const Scenario& scenario)
    : channel_names_(make_plant_run(describe_plant(scenario))->channel_names()),
      voltage_rms_(plant_models::nominal_frequency_Hz(scenario.source), tick_s),
      current_rms_(plant_models::nominal_frequency_Hz(scenario.source), tick_s) {
    const double half_cycles =
        2.0 * scenario.run.duration_s * plant_models::nominal_frequency_Hz(scenario.source);
    // A generator may turn faster than it is rated.
    rows_.reserve(static_cast<std::size_t>(1.1 * half_cycles) + 8);
}

void StartRecord::note(const TickView& view, bool& before, bool now, Switched on, Switched off,
                       std::string_view cause) {
    if (before != now) {
        before = now;
        switched_.push_back({view.plant.time_s, now ? on : off, cause,
                             rows_.empty() ? 0.0 : rows_.back().line_current_rms_A,
                             view.hottest_winding_C});
    }
}

void StartRecord::note_switching(const TickView& view) {
    const plant_models::PlantOutputs& plant = view.plant;
    note(view, call_, view.call_for_cooling, Switched::call_begins, Switched::call_ends, {});
    note(view, line_, plant.line_connected, Switched::line_on, Switched::line_off, {});
    note(view, start_capacitor_, plant.start_capacitor_in, Switched::start_capacitor_in,
         Switched::start_capacitor_out, {});
    note(view, bypass_, plant.bypass_closed, Switched::bypass_on, Switched::bypass_off, {});
    note(view, supply_trip_, !plant.supply_trip.empty(), Switched::supply_tripped,
         Switched::supply_tripped, plant.supply_trip);
    note(view, unit_trip_, !plant.unit_trip.empty(), Switched::unit_tripped,
         Switched::unit_returned, plant.unit_trip);
    drop_outs_ = plant.contactor_drop_outs;
    if (view.controller == nullptr) {
        return;
    }
    const bool is_new = controller_.empty() ||
                        controller_.back().told.state != view.controller->state ||
                        controller_.back().told.stage != view.controller->stage ||
                        controller_.back().seen != view.seen;
    if (is_new) {
        controller_.push_back({plant.time_s, *view.controller, view.tells_only_states, view.seen});
    }
}

void StartRecord::add(const plant_models::PlantOutputs& plant) {
    const double speed_rpm = plant_models::rad_per_s_to_rpm(plant.speed_rad_per_s);
    const bool first = ticks_ == 0;
    turns_ += tick_s * plant.speed_rad_per_s / (2.0 * plant_models::pi);
    row_.torque_mean_Nm += plant.torque_Nm;
    row_.load_torque_mean_Nm += plant.load_torque_Nm;
    row_.load_torque_highest_Nm =
        first ? plant.load_torque_Nm : std::max(row_.load_torque_highest_Nm, plant.load_torque_Nm);
    row_.speed_mean_rpm += speed_rpm;
    row_.speed_lowest_rpm = first ? speed_rpm : std::min(row_.speed_lowest_rpm, speed_rpm);
    row_.speed_highest_rpm = first ? speed_rpm : std::max(row_.speed_highest_rpm, speed_rpm);
    for (std::size_t k = 0; k < channel_names_.size(); ++k) {
        const double value = plant.model_channels[k];
        HalfCycle::Channel& channel = row_.channels[k];
        channel.mean += value;
        channel.lowest = first ? value : std::min(channel.lowest, value);
        channel.highest = first ? value : std::max(channel.highest, value);
    }
    connected_ticks_ += plant.line_connected ? 1 : 0;
    ++ticks_;
}

void StartRecord::close_row(const TickView& view) {
    const double count = ticks_;
    row_.end_s = view.plant.time_s;
    row_.line_voltage_rms_V = voltage_rms_.half_cycle_rms();
    row_.line_current_rms_A = current_rms_.half_cycle_rms();
    row_.torque_mean_Nm /= count;
    row_.load_torque_mean_Nm /= count;
    row_.speed_mean_rpm /= count;
    for (std::size_t k = 0; k < channel_names_.size(); ++k) {
        row_.channels[k].mean /= count;
    }
    row_.turns = turns_;
    row_.frequency_Hz = view.plant.supply_frequency_Hz;
    row_.hottest_winding_C = view.hottest_winding_C;
    row_.connected_share = connected_ticks_ / count;
    row_.tripped = !view.plant.supply_trip.empty();
    rows_.push_back(row_);
    row_ = HalfCycle{};
    row_.begin_s = view.plant.time_s;
    ticks_ = 0;
    connected_ticks_ = 0;
}

void StartRecord::observe(const TickView& view) {
    note_switching(view);
    add(view.plant);
    current_rms_.add(view.plant.line_current_A, view.plant.supply_frequency_Hz);
    if (voltage_rms_.add(view.plant.line_voltage_V, view.plant.supply_frequency_Hz)) {
        close_row(view);
    }
}

const SwitchedAt* StartRecord::first(Switched what) const {
    const auto found = std::find_if(switched_.begin(), switched_.end(),
                                    [what](const SwitchedAt& one) { return one.what == what; });
    return found == switched_.end() ? nullptr : &*found;
}

std::optional<std::size_t> StartRecord::channel(std::string_view name) const {
    const auto found = std::find(channel_names_.begin(), channel_names_.end(), name);
    if (found == channel_names_.end()) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(std::distance(channel_names_.begin(), found));
}

}  // namespace sim
