#include "sim/recorder/trace_channels.hpp"

#include <cstddef>
#include <utility>

#include "plant_models/numeric/units.hpp"
#include "sim/controllers/controller_port.hpp"

namespace sim {

namespace {

/// 0 to 100 microseconds, with a sign.
constexpr int bits_of_a_tick_us = 8;

double flag(bool is_set) {
    return is_set ? 1.0 : 0.0;
}

void append_plant_channels(std::vector<TraceChannel>& channels) {
    const auto add = [&](const char* name, int digits, double plant_models::PlantOutputs::*field) {
        channels.push_back(
            {name, digits, [field](const TickView& view) { return view.plant.*field; }});
    };
    const auto add_flag = [&](const char* name, bool plant_models::PlantOutputs::*field) {
        channels.push_back({name, 0,
                            [field](const TickView& view) { return flag(view.plant.*field); },
                            TraceOrigin::plant, 1});
    };
    using P = plant_models::PlantOutputs;
    add("line_voltage_V", 3, &P::line_voltage_V);
    add("line_current_A", 4, &P::line_current_A);
    add("main_current_A", 4, &P::main_current_A);
    add("aux_current_A", 4, &P::aux_current_A);
    add("start_capacitor_current_A", 4, &P::start_capacitor_current_A);
    add("start_terminal_voltage_V", 3, &P::start_terminal_voltage_V);
    add("run_capacitor_voltage_V", 3, &P::run_capacitor_voltage_V);
    add("start_capacitor_voltage_V", 3, &P::start_capacitor_voltage_V);
    add("blocking_voltage_V", 3, &P::blocking_voltage_V);
    add("torque_Nm", 4, &P::torque_Nm);
    add("load_torque_Nm", 4, &P::load_torque_Nm);
    channels.push_back({"speed_rpm", 3, [](const TickView& view) {
                            return plant_models::rad_per_s_to_rpm(view.plant.speed_rad_per_s);
                        }});
    add_flag("line_connected", &P::line_connected);
    add_flag("main_conducting", &P::main_conducting);
    add_flag("thyristor_conducting", &P::thyristor_conducting);
    add_flag("bypass_closed", &P::bypass_closed);
    add_flag("start_capacitor_in", &P::start_capacitor_in);
    add_flag("rotor_stuck", &P::rotor_stuck);
    channels.push_back({"supply_tripped", 0,
                        [](const TickView& view) { return flag(!view.plant.supply_trip.empty()); },
                        TraceOrigin::plant, 1});
    channels.push_back({"call_for_cooling", 0,
                        [](const TickView& view) { return flag(view.call_for_cooling); },
                        TraceOrigin::plant, 1});
}

void append_command_channels(std::vector<TraceChannel>& channels) {
    const auto add_coil = [&](const char* name, bool PowerCommands::*field) {
        channels.push_back({name, 0,
                            [field](const TickView& view) { return flag(view.commands.*field); },
                            TraceOrigin::commands, 1});
    };
    const auto add_edge = [&](const char* name, Instant PowerCommands::*field) {
        channels.push_back({name, 0,
                            [field](const TickView& view) {
                                return 1e-3 * static_cast<double>((view.commands.*field).count());
                            },
                            TraceOrigin::commands, bits_of_a_tick_us});
    };
    add_coil("line_coil", &PowerCommands::line_coil);
    add_coil("start_capacitor_coil", &PowerCommands::start_capacitor_coil);
    add_coil("bypass_coil", &PowerCommands::bypass_coil);
    add_edge("gate_on_us", &PowerCommands::gate_on);
    add_edge("gate_off_us", &PowerCommands::gate_off);
}

template <class Field>
void append_sample(std::vector<TraceChannel>& channels, const char* name, Field field) {
    channels.push_back(
        {name, 0,
         [field](const TickView& view) { return static_cast<double>(view.samples->*field); },
         TraceOrigin::controller, 16});
}

template <class Field>
void append_telemetry(std::vector<TraceChannel>& channels, const char* name, int digits,
                      Field field, double scale, int bits = 0) {
    channels.push_back({name, digits,
                        [field, scale](const TickView& view) {
                            return scale * static_cast<double>(view.controller->*field);
                        },
                        TraceOrigin::controller, bits});
}

void append_sample_channels(std::vector<TraceChannel>& channels) {
    using S = firmware::SensorFrame;
    append_sample(channels, "line_voltage_counts", &S::line_voltage_counts);
    append_sample(channels, "output_current_counts", &S::output_current_counts);
    append_sample(channels, "start_terminal_voltage_counts", &S::start_terminal_voltage_counts);
    append_sample(channels, "heatsink_counts", &S::heatsink_counts);
}

/// Of any controller.
void append_port_channels(std::vector<TraceChannel>& channels) {
    const auto add = [&](const char* name, int bits, std::function<double(const TickView&)> value) {
        channels.push_back({name, 0, std::move(value), TraceOrigin::controller, bits});
    };
    add("store_word_writes", 32,
        [](const TickView& view) { return static_cast<double>(view.store->wear().word_writes); });
    // Of the frame that comes into force now.
    add("controller_status", 16,
        [](const TickView& view) { return static_cast<double>(view.answer->status); });
    add("controller_powered", 1, [](const TickView& view) { return flag(view.port->has_power()); });
}

/// Of somebody else's: what it tells, and what it is seen to do.
void append_foreign_channels(std::vector<TraceChannel>& channels) {
    const auto add = [&](const char* name, std::function<double(const TickView&)> value) {
        channels.push_back({name, 0, std::move(value), TraceOrigin::controller, 9});
    };
    const auto told = [](const TickView& view, int number) {
        return view.seen ? -1.0 : static_cast<double>(number);
    };
    add("controller_state", [told](const TickView& view) {
        return told(view, static_cast<int>(view.controller->state));
    });
    add("controller_reason", [told](const TickView& view) {
        return told(view, static_cast<int>(view.controller->reason));
    });
    add("controller_seen",
        [](const TickView& view) { return view.seen ? static_cast<double>(*view.seen) : -1.0; });
}

void append_controller_channels(std::vector<TraceChannel>& channels) {
    append_sample_channels(channels);
    using T = firmware::Telemetry;
    append_telemetry(channels, "controller_state", 0, &T::state, 1.0, 8);
    append_telemetry(channels, "controller_reason", 0, &T::reason, 1.0, 8);
    append_telemetry(channels, "controller_stage", 0, &T::stage, 1.0, 8);
    append_telemetry(channels, "controller_tries_made", 0, &T::tries_made, 1.0, 8);
    append_telemetry(channels, "controller_line_locked", 0, &T::line_locked, 1.0, 1);
    append_telemetry(channels, "controller_line_frequency_Hz", 3, &T::line_frequency_mHz, 1e-3);
    append_telemetry(channels, "controller_line_voltage_rms_V", 3, &T::line_voltage_rms_mV, 1e-3);
    append_telemetry(channels, "controller_output_current_rms_A", 3, &T::output_current_rms_mA,
                     1e-3);
    append_telemetry(channels, "controller_start_terminal_voltage_rms_V", 3,
                     &T::start_terminal_voltage_rms_mV, 1e-3);
    append_telemetry(channels, "controller_line_phase_deg", 3, &T::line_phase,
                     360.0 / 4294967296.0);
    append_telemetry(channels, "controller_firing_angle_deg", 3, &T::firing_angle_mdeg, 1e-3);
    append_telemetry(channels, "controller_locked_rotor_estimate_A", 3,
                     &T::locked_rotor_estimate_mA, 1e-3);
    append_telemetry(channels, "controller_learned_level_percent", 1, &T::learned_level_permille,
                     0.1);
    append_telemetry(channels, "controller_learning_settled", 0, &T::learning_settled, 1.0, 1);
    append_telemetry(channels, "controller_memory", 0, &T::memory, 1.0, 8);
    append_port_channels(channels);
}

void append_watched_channels(std::vector<TraceChannel>& channels,
                             const std::vector<WatchedChannel>& watched) {
    for (const WatchedChannel& variable : watched) {
        channels.push_back({variable.name, 0,
                            [index = variable.index](const TickView& view) {
                                return static_cast<double>(view.port->watched(index));
                            },
                            TraceOrigin::watch, 64});
    }
}

}  // namespace

std::vector<TraceChannel> trace_channels(const std::vector<std::string_view>& channel_names,
                                         bool has_limiter,
                                         const std::vector<WatchedChannel>& watched,
                                         bool tells_only_states) {
    std::vector<TraceChannel> channels;
    channels.push_back({"time_s", 4, [](const TickView& view) { return view.plant.time_s; }});
    append_plant_channels(channels);
    for (std::size_t k = 0; k < channel_names.size(); ++k) {
        channels.push_back({std::string(channel_names[k]), 4,
                            [k](const TickView& view) { return view.plant.model_channels[k]; }});
    }
    append_command_channels(channels);
    if (has_limiter && tells_only_states) {
        append_sample_channels(channels);
        append_foreign_channels(channels);
        append_port_channels(channels);
    } else if (has_limiter) {
        append_controller_channels(channels);
    }
    if (has_limiter) {
        append_watched_channels(channels, watched);
    }
    return channels;
}

std::vector<TraceChannel> controller_trace_channels(const std::vector<WatchedChannel>& watched) {
    std::vector<TraceChannel> channels;
    channels.push_back({"time_s", 4, [](const TickView& view) { return view.plant.time_s; }});
    channels.push_back({"call_for_cooling", 0,
                        [](const TickView& view) { return flag(view.call_for_cooling); },
                        TraceOrigin::plant, 1});
    append_command_channels(channels);
    append_controller_channels(channels);
    append_watched_channels(channels, watched);
    return channels;
}

}  // namespace sim
