#include "firmware/settings/settings.hpp"

namespace firmware {

namespace {

/// Keeps the first field that is found out of its bounds.
class Bounds {
  public:
    // One call per field, not a table of them: that would stand on the stack.
    void hold(SettingsProblem field, std::int32_t value, std::int32_t lowest,
              std::int32_t highest) {
        if (value < lowest || value > highest) {
            found(field);
        }
    }
    void found(SettingsProblem problem) {
        if (broken_ == SettingsProblem::none) {
            broken_ = problem;
        }
    }
    SettingsProblem broken() const { return broken_; }

  private:
    SettingsProblem broken_ = SettingsProblem::none;
};

// Neighbours that do not run over the end of the type, whatever stands in the field.
constexpr std::int32_t just_below(std::int32_t value) {
    return value > 0 ? value - 1 : 0;
}
constexpr std::int32_t just_above(std::int32_t value) {
    return value < 1000000 ? value + 1 : value;
}

SettingsProblem check_stages(const Settings& s) {
    if (static_cast<std::uint8_t>(s.ramp_law) >= ramp_law_count) {
        return SettingsProblem::ramp_law;
    }
    if (s.stage_count < 1 || s.stage_count > static_cast<std::int32_t>(Settings::most_stages)) {
        return SettingsProblem::stage_count;
    }
    std::int32_t below = 99;
    for (std::size_t i = 0; i < s.stages.size() && i < static_cast<std::size_t>(s.stage_count);
         ++i) {
        const StageSettings& stage = s.stages[i];
        // A ladder only climbs: a target at or under the one before is a slip of the pen.
        if (stage.target_permille <= below || stage.target_permille > 1000) {
            return SettingsProblem::stage_target_permille;
        }
        if (stage.dwell_ms < 50 || stage.dwell_ms > 2000) {
            return SettingsProblem::stage_dwell_ms;
        }
        below = stage.target_permille;
    }
    return SettingsProblem::none;
}

}  // namespace

// One call per field, and little else.
SettingsProblem check(const Settings& s) {  // NOLINT(readability-function-size)
    using Field = SettingsProblem;
    // In the order of the fields, so that the first problem named is the first in the reader's
    // file.
    Bounds bounds;
    bounds.hold(Field::line_voltage_min_V, s.line_voltage_min_V, 50,
                just_below(s.line_voltage_max_V));
    bounds.hold(Field::line_voltage_max_V, s.line_voltage_max_V, 50, 300);
    bounds.hold(Field::rated_voltage_V, s.rated_voltage_V, 0, 300);
    bounds.hold(Field::line_frequency_min_mHz, s.line_frequency_min_mHz, 43000,
                just_below(s.line_frequency_max_mHz));
    bounds.hold(Field::line_frequency_max_mHz, s.line_frequency_max_mHz, 43000, 67000);
    bounds.hold(Field::sag_limit_permille, s.sag_limit_permille, 300, 950);
    bounds.hold(Field::line_fault_half_cycles, s.line_fault_half_cycles, 1, 20);
    bounds.hold(Field::contactor_settle_ms, s.contactor_settle_ms, 5, 200);
    bounds.hold(Field::start_capacitor_settle_ms, s.start_capacitor_settle_ms, 5, 200);
    bounds.hold(Field::start_capacitor_release_ms, s.start_capacitor_release_ms, 10, 200);
    bounds.hold(Field::bypass_settle_ms, s.bypass_settle_ms, 15, 500);
    bounds.hold(Field::full_conduction_angle_mdeg, s.full_conduction_angle_mdeg, 3000, 45000);
    bounds.hold(Field::gate_pulse_end_mdeg, s.gate_pulse_end_mdeg, 150000, 175000);
    bounds.hold(Field::probe_angle_mdeg, s.probe_angle_mdeg, 90000, 145000);
    bounds.hold(Field::probe_half_cycles, s.probe_half_cycles, 3, 40);
    bounds.hold(Field::locked_rotor_min_mA, s.locked_rotor_min_mA, 1000,
                just_below(s.locked_rotor_max_mA));
    bounds.hold(Field::locked_rotor_max_mA, s.locked_rotor_max_mA, 1000, 217000);
    bounds.hold(Field::run_capacitor_fitted, s.run_capacitor_fitted, 0, 1);
    bounds.hold(Field::sensor_offset_permille, s.sensor_offset_permille, 10, 500);
    bounds.hold(Field::unasked_current_mA, s.unasked_current_mA, 300, 5000);
    bounds.hold(Field::start_terminal_dead_permille, s.start_terminal_dead_permille, 5, 50);
    bounds.hold(Field::run_capacitor_shorted_permille, s.run_capacitor_shorted_permille, 50, 800);
    bounds.hold(Field::start_capacitor_current_permille, s.start_capacitor_current_permille, 5,
                100);
    bounds.hold(Field::inspection_half_cycles, s.inspection_half_cycles, 2, 10);
    bounds.hold(Field::swapped_impedance_permille, s.swapped_impedance_permille, 0, 1200);
    bounds.hold(Field::half_wave_difference_permille, s.half_wave_difference_permille, 50, 800);
    bounds.hold(Field::beyond_order_permille, s.beyond_order_permille, 200, 1000);
    bounds.hold(Field::fault_half_cycles, s.fault_half_cycles, 3, 20);
    bounds.hold(Field::start_capacitor_in_permille, s.start_capacitor_in_permille, 1300, 2500);
    if (bounds.broken() == SettingsProblem::none) {
        bounds.found(check_stages(s));
    }
    bounds.hold(Field::climb_limit_ms, s.climb_limit_ms, 200, 2500);
    bounds.hold(Field::start_capacitor_limit_ms, s.start_capacitor_limit_ms, 200, 3000);
    bounds.hold(Field::learning_law, static_cast<std::int32_t>(s.learning_law), 0,
                learning_law_count - 1);
    bounds.hold(Field::learning_in_time_ms, s.learning_in_time_ms, 100, 2500);
    bounds.hold(Field::run_up_rise_permille, s.run_up_rise_permille, 1200, 3000);
    bounds.hold(Field::sure_rise_permille, s.sure_rise_permille, s.run_up_rise_permille, 5000);
    bounds.hold(Field::look_ahead_half_cycles, s.look_ahead_half_cycles, 0, 6);
    bounds.hold(Field::turning_rise_permille, s.turning_rise_permille, 1050,
                s.run_up_rise_permille);
    bounds.hold(Field::accelerating_growth_permille, s.accelerating_growth_permille, 5, 200);
    bounds.hold(Field::growth_half_cycles, s.growth_half_cycles, 2, 14);
    bounds.hold(Field::accelerating_fall_permille, s.accelerating_fall_permille, 5, 1000);
    bounds.hold(Field::turning_current_fall_permille, s.turning_current_fall_permille, 20, 500);
    bounds.hold(Field::sweep_delay_ms, s.sweep_delay_ms, 0, 50);
    bounds.hold(Field::sweep_half_cycles, s.sweep_half_cycles, 1, 20);
    bounds.hold(Field::up_to_speed_current_permille, s.up_to_speed_current_permille, 100, 400);
    bounds.hold(Field::up_to_speed_voltage_permille, s.up_to_speed_voltage_permille, 700, 1200);
    bounds.hold(Field::confirm_half_cycles, s.confirm_half_cycles, 4, 50);
    bounds.hold(Field::confirm_limit_ms, s.confirm_limit_ms, 100, 1000);
    bounds.hold(Field::swing_limit_ms, s.swing_limit_ms, 200, 3000);
    bounds.hold(Field::stall_current_permille, s.stall_current_permille,
                just_above(s.up_to_speed_current_permille), 900);
    bounds.hold(Field::stall_patience_ms, s.stall_patience_ms, 50, 2000);
    bounds.hold(Field::lost_current_permille, s.lost_current_permille, 1, 50);
    bounds.hold(Field::slow_voltage_permille, s.slow_voltage_permille, 100, 900);
    bounds.hold(Field::slow_patience_ms, s.slow_patience_ms, 20, 1000);
    bounds.hold(Field::rest_before_retry_s, s.rest_before_retry_s, 1, 3600);
    bounds.hold(Field::tries, s.tries, 1, 20);
    bounds.hold(Field::run_clears_tries_s, s.run_clears_tries_s, 1, 3600);
    bounds.hold(Field::lockout_clear_s, s.lockout_clear_s, 1, 86400);
    return bounds.broken();
}

const Settings& usable(const Settings& settings) {
    static constexpr Settings defaults{};
    return check(settings) == SettingsProblem::none ? settings : defaults;
}

// One line per field, and nothing else.
const char* name_of(SettingsProblem problem) {  // NOLINT(readability-function-size)
    switch (problem) {
        case SettingsProblem::line_voltage_min_V:
            return "line_voltage_min_V";
        case SettingsProblem::line_voltage_max_V:
            return "line_voltage_max_V";
        case SettingsProblem::rated_voltage_V:
            return "rated_voltage_V";
        case SettingsProblem::line_frequency_min_mHz:
            return "line_frequency_min_mHz";
        case SettingsProblem::line_frequency_max_mHz:
            return "line_frequency_max_mHz";
        case SettingsProblem::sag_limit_permille:
            return "sag_limit_permille";
        case SettingsProblem::line_fault_half_cycles:
            return "line_fault_half_cycles";
        case SettingsProblem::contactor_settle_ms:
            return "contactor_settle_ms";
        case SettingsProblem::start_capacitor_settle_ms:
            return "start_capacitor_settle_ms";
        case SettingsProblem::start_capacitor_release_ms:
            return "start_capacitor_release_ms";
        case SettingsProblem::bypass_settle_ms:
            return "bypass_settle_ms";
        case SettingsProblem::full_conduction_angle_mdeg:
            return "full_conduction_angle_mdeg";
        case SettingsProblem::gate_pulse_end_mdeg:
            return "gate_pulse_end_mdeg";
        case SettingsProblem::probe_angle_mdeg:
            return "probe_angle_mdeg";
        case SettingsProblem::probe_half_cycles:
            return "probe_half_cycles";
        case SettingsProblem::locked_rotor_min_mA:
            return "locked_rotor_min_mA";
        case SettingsProblem::locked_rotor_max_mA:
            return "locked_rotor_max_mA";
        case SettingsProblem::run_capacitor_fitted:
            return "run_capacitor_fitted";
        case SettingsProblem::sensor_offset_permille:
            return "sensor_offset_permille";
        case SettingsProblem::unasked_current_mA:
            return "unasked_current_mA";
        case SettingsProblem::start_terminal_dead_permille:
            return "start_terminal_dead_permille";
        case SettingsProblem::run_capacitor_shorted_permille:
            return "run_capacitor_shorted_permille";
        case SettingsProblem::start_capacitor_current_permille:
            return "start_capacitor_current_permille";
        case SettingsProblem::inspection_half_cycles:
            return "inspection_half_cycles";
        case SettingsProblem::swapped_impedance_permille:
            return "swapped_impedance_permille";
        case SettingsProblem::half_wave_difference_permille:
            return "half_wave_difference_permille";
        case SettingsProblem::beyond_order_permille:
            return "beyond_order_permille";
        case SettingsProblem::fault_half_cycles:
            return "fault_half_cycles";
        case SettingsProblem::start_capacitor_in_permille:
            return "start_capacitor_in_permille";
        case SettingsProblem::ramp_law:
            return "ramp_law";
        case SettingsProblem::stage_count:
            return "stage_count";
        case SettingsProblem::stage_target_permille:
            return "stage_target_permille";
        case SettingsProblem::stage_dwell_ms:
            return "stage_dwell_ms";
        case SettingsProblem::climb_limit_ms:
            return "climb_limit_ms";
        case SettingsProblem::start_capacitor_limit_ms:
            return "start_capacitor_limit_ms";
        case SettingsProblem::learning_law:
            return "learning_law";
        case SettingsProblem::learning_in_time_ms:
            return "learning_in_time_ms";
        case SettingsProblem::run_up_rise_permille:
            return "run_up_rise_permille";
        case SettingsProblem::sure_rise_permille:
            return "sure_rise_permille";
        case SettingsProblem::look_ahead_half_cycles:
            return "look_ahead_half_cycles";
        case SettingsProblem::turning_rise_permille:
            return "turning_rise_permille";
        case SettingsProblem::accelerating_growth_permille:
            return "accelerating_growth_permille";
        case SettingsProblem::growth_half_cycles:
            return "growth_half_cycles";
        case SettingsProblem::accelerating_fall_permille:
            return "accelerating_fall_permille";
        case SettingsProblem::turning_current_fall_permille:
            return "turning_current_fall_permille";
        case SettingsProblem::sweep_delay_ms:
            return "sweep_delay_ms";
        case SettingsProblem::sweep_half_cycles:
            return "sweep_half_cycles";
        case SettingsProblem::up_to_speed_current_permille:
            return "up_to_speed_current_permille";
        case SettingsProblem::up_to_speed_voltage_permille:
            return "up_to_speed_voltage_permille";
        case SettingsProblem::confirm_half_cycles:
            return "confirm_half_cycles";
        case SettingsProblem::confirm_limit_ms:
            return "confirm_limit_ms";
        case SettingsProblem::swing_limit_ms:
            return "swing_limit_ms";
        case SettingsProblem::stall_current_permille:
            return "stall_current_permille";
        case SettingsProblem::stall_patience_ms:
            return "stall_patience_ms";
        case SettingsProblem::lost_current_permille:
            return "lost_current_permille";
        case SettingsProblem::slow_voltage_permille:
            return "slow_voltage_permille";
        case SettingsProblem::slow_patience_ms:
            return "slow_patience_ms";
        case SettingsProblem::rest_before_retry_s:
            return "rest_before_retry_s";
        case SettingsProblem::tries:
            return "tries";
        case SettingsProblem::run_clears_tries_s:
            return "run_clears_tries_s";
        case SettingsProblem::lockout_clear_s:
            return "lockout_clear_s";
        case SettingsProblem::none:
            break;
    }
    return "";
}

}  // namespace firmware
