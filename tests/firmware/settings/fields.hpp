// Every number of the settings, for tests that walk over them.
#pragma once

#include <cstdint>
#include <limits>
#include <random>
#include <vector>

#include "firmware/settings/settings.hpp"

namespace settings_test {

using Field = std::int32_t firmware::Settings::*;

inline const std::vector<Field>& fields() {
    using firmware::Settings;
    static const std::vector<Field> all = {
        &Settings::line_voltage_min_V,
        &Settings::line_voltage_max_V,
        &Settings::rated_voltage_V,
        &Settings::line_frequency_min_mHz,
        &Settings::line_frequency_max_mHz,
        &Settings::sag_limit_permille,
        &Settings::line_fault_half_cycles,
        &Settings::contactor_settle_ms,
        &Settings::start_capacitor_settle_ms,
        &Settings::start_capacitor_release_ms,
        &Settings::bypass_settle_ms,
        &Settings::full_conduction_angle_mdeg,
        &Settings::gate_pulse_end_mdeg,
        &Settings::probe_angle_mdeg,
        &Settings::probe_half_cycles,
        &Settings::locked_rotor_min_mA,
        &Settings::locked_rotor_max_mA,
        &Settings::run_capacitor_fitted,
        &Settings::sensor_offset_permille,
        &Settings::unasked_current_mA,
        &Settings::start_terminal_dead_permille,
        &Settings::run_capacitor_shorted_permille,
        &Settings::start_capacitor_current_permille,
        &Settings::inspection_half_cycles,
        &Settings::swapped_impedance_permille,
        &Settings::half_wave_difference_permille,
        &Settings::beyond_order_permille,
        &Settings::fault_half_cycles,
        &Settings::start_capacitor_in_permille,
        &Settings::stage_count,
        &Settings::climb_limit_ms,
        &Settings::start_capacitor_limit_ms,
        &Settings::learning_in_time_ms,
        &Settings::run_up_rise_permille,
        &Settings::sure_rise_permille,
        &Settings::look_ahead_half_cycles,
        &Settings::turning_rise_permille,
        &Settings::accelerating_growth_permille,
        &Settings::growth_half_cycles,
        &Settings::accelerating_fall_permille,
        &Settings::turning_current_fall_permille,
        &Settings::sweep_delay_ms,
        &Settings::sweep_half_cycles,
        &Settings::up_to_speed_current_permille,
        &Settings::up_to_speed_voltage_permille,
        &Settings::confirm_half_cycles,
        &Settings::confirm_limit_ms,
        &Settings::swing_limit_ms,
        &Settings::stall_current_permille,
        &Settings::stall_patience_ms,
        &Settings::lost_current_permille,
        &Settings::slow_voltage_permille,
        &Settings::slow_patience_ms,
        &Settings::rest_before_retry_s,
        &Settings::tries,
        &Settings::run_clears_tries_s,
        &Settings::lockout_clear_s,
    };
    return all;
}

/// The end of the range that check() accepts for this field next to the others as they are.
inline std::int32_t farthest_accepted(firmware::Settings settings, Field field, bool upwards) {
    std::int64_t good = settings.*field;
    std::int64_t bad = upwards ? std::int64_t{std::numeric_limits<std::int32_t>::max()} + 1
                               : std::int64_t{std::numeric_limits<std::int32_t>::min()} - 1;
    while (good + 1 < bad || bad + 1 < good) {
        const std::int64_t middle = (good + bad) / 2;
        settings.*field = static_cast<std::int32_t>(middle);
        (check(settings) == firmware::SettingsProblem::none ? good : bad) = middle;
    }
    return static_cast<std::int32_t>(good);
}

/// Settings that are accepted with every field at one of its ends, in a random choice.
inline firmware::Settings at_their_bounds(std::mt19937& random) {
    firmware::Settings settings;
    std::vector<Field> order = fields();
    for (std::size_t left = order.size(); left > 1; --left) {
        std::swap(order[left - 1], order[random() % left]);
    }
    for (const Field field : order) {
        settings.*field = farthest_accepted(settings, field, random() % 2 == 0);
    }
    for (std::size_t i = 0; i < static_cast<std::size_t>(settings.stage_count); ++i) {
        // Stages that climb by the least step, from either end.
        const auto step = static_cast<std::int32_t>(i);
        settings.stages[i].target_permille =
            random() % 2 == 0 || i > 0 ? (i > 0 ? settings.stages[i - 1].target_permille + 1 : 100)
                                       : 1000 - settings.stage_count + 1;
        settings.stages[i].dwell_ms = (random() >> step) % 2 == 0 ? 50 : 2000;
    }
    return settings;
}

}  // namespace settings_test
