#include "sim/pages/waveform_recorder.hpp"

#include <array>
#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "plant_models/supplies/supply_list.hpp"
#include "sim/bench/plant_of_scenario.hpp"

namespace sim {

namespace {

constexpr double tick_s = 1.0 / firmware::ticks_per_second;

/// Less than a picture shows.
constexpr double same_speed_rpm = 1.0;
constexpr double same_torque_Nm = 0.01;

/// Channels of the supplies that have one, and their names for people.
constexpr std::array<std::pair<std::string_view, const char*>, 2> dc_channels = {
    {{"dc_bus_V", "DC bus"}, {"inverter_input_V", "DC at the inverter's input"}}};

}  // namespace

WaveformRecorder::WaveformRecorder(const Scenario& scenario)
    : clock_(scenario.run.duration_s, scenario.run.call_on_s),
      quarter_cycle_s_(0.25 / plant_models::nominal_frequency_Hz(scenario.source)),
      voltage_window_(plant_models::nominal_frequency_Hz(scenario.source), tick_s),
      current_window_(plant_models::nominal_frequency_Hz(scenario.source), tick_s) {
    const auto plant = make_plant_run(describe_plant(scenario));
    const std::vector<std::string_view>& names = plant->channel_names();
    for (std::size_t k = 0; k < names.size(); ++k) {
        for (const auto& [channel, name] : dc_channels) {
            if (names[k] == channel) {
                dc_channel_ = k;
                dc_name_ = name;
            }
        }
    }
}

bool WaveformRecorder::is_event(const TickView& view) {
    Doing now;
    if (view.controller != nullptr) {
        now.state = static_cast<int>(view.controller->state);
        now.stage = view.controller->stage;
        now.seen = view.seen;
    }
    now.supply_tripped = !view.plant.supply_trip.empty();
    now.unit_tripped = !view.plant.unit_trip.empty();
    now.line_connected = view.plant.line_connected;
    const bool changed = now.state != doing_.state || now.stage != doing_.stage ||
                         now.seen != doing_.seen || now.supply_tripped != doing_.supply_tripped ||
                         now.unit_tripped != doing_.unit_tripped ||
                         now.line_connected != doing_.line_connected;
    doing_ = now;
    return changed;
}

void WaveformRecorder::observe(const TickView& view) {
    const plant_models::PlantOutputs& plant = view.plant;
    if (clock_.ends_at(view.time / tick_length, is_event(view))) {
        for (ExtremesDecimator& channel : channels_) {
            channel.close_bucket();
        }
        voltage_rms_.close_bucket();
        current_rms_.close_bucket();
    }
    const double now_s = plant.time_s;
    channels_[voltage].add(now_s, plant.line_voltage_V);
    channels_[current].add(now_s, plant.line_current_A);
    channels_[main].add(now_s, plant.main_current_A);
    channels_[aux].add(now_s, plant.aux_current_A);
    channels_[torque].add(now_s, plant.torque_Nm);
    channels_[load].add(now_s, plant.load_torque_Nm);
    channels_[speed].add(now_s, plant_models::rad_per_s_to_rpm(plant.speed_rad_per_s));
    if (dc_channel_) {
        channels_[dc].add(now_s, plant.model_channels.at(*dc_channel_));
    }
    const bool half_cycle_ends =
        voltage_window_.add(plant.line_voltage_V, plant.supply_frequency_Hz);
    if (half_cycle_ends) {
        voltage_rms_.add(now_s - quarter_cycle_s_, voltage_window_.half_cycle_rms());
    }
    if (current_window_.add(plant.line_current_A, plant.supply_frequency_Hz)) {
        current_rms_.add(now_s - quarter_cycle_s_, current_window_.half_cycle_rms());
    }
    take_cycle(view, half_cycle_ends);
}

void WaveformRecorder::take_cycle(const TickView& view, bool half_cycle_ends) {
    sums_.speed_rpm += plant_models::rad_per_s_to_rpm(view.plant.speed_rad_per_s);
    sums_.torque_Nm += view.plant.torque_Nm;
    sums_.load_torque_Nm += view.plant.load_torque_Nm;
    ++sums_.samples;
    sums_.half_cycles += half_cycle_ends ? 1 : 0;
    if (sums_.half_cycles < 2) {
        return;
    }
    const double count = sums_.samples;
    const CyclePoint point{view.plant.time_s - 2.0 * quarter_cycle_s_, sums_.speed_rpm / count,
                           sums_.torque_Nm / count, sums_.load_torque_Nm / count};
    sums_ = Sums{};
    const bool moved = cycles_.speed_rpm.empty() ||
                       std::abs(cycles_.speed_rpm.back() - point.speed_rpm) > same_speed_rpm ||
                       std::abs(cycles_.torque_Nm.back() - point.torque_Nm) > same_torque_Nm;
    if (moved) {
        keep(point);
        left_out_.reset();
    } else {
        left_out_ = point;
    }
}

void WaveformRecorder::keep(const CyclePoint& point) {
    cycles_.time_s.push_back(point.time_s);
    cycles_.speed_rpm.push_back(point.speed_rpm);
    cycles_.torque_Nm.push_back(point.torque_Nm);
    cycles_.load_torque_Nm.push_back(point.load_torque_Nm);
}

Waveforms WaveformRecorder::finish() {
    if (left_out_) {
        keep(*left_out_);
    }
    Waveforms waves;
    waves.line_voltage_V = channels_[voltage].finish();
    waves.line_current_A = channels_[current].finish();
    waves.main_current_A = channels_[main].finish();
    waves.aux_current_A = channels_[aux].finish();
    waves.torque_Nm = channels_[torque].finish();
    waves.load_torque_Nm = channels_[load].finish();
    waves.speed_rpm = channels_[speed].finish();
    waves.dc_V = channels_[dc].finish();
    waves.line_voltage_rms_V = voltage_rms_.finish();
    waves.line_current_rms_A = current_rms_.finish();
    waves.dc_name = dc_name_;
    waves.cycles = std::move(cycles_);
    waves.coarse_bucket_s = clock_.coarse_bucket_s();
    return waves;
}

}  // namespace sim
