#include "sim/scenario/controller_setting_rows.hpp"

namespace sim {

namespace {
using S = firmware::Settings;
using Problem = firmware::SettingsProblem;
using firmware::StageSettings;
}  // namespace

// The bounds are those of the controller's own check, and a test holds the two together. Where a
// bound of the check is another field, the bound here is the widest that the other allows, and the
// relation says the rest.
const std::vector<NumberSetting>& number_settings() {
    static const std::vector<NumberSetting> rows = {
        {"line_voltage_min_V", &S::line_voltage_min_V, 1, 50, 299, Problem::line_voltage_min_V,
         "lowest line voltage for a start, RMS", "must be below line_voltage_max_V"},
        {"line_voltage_max_V", &S::line_voltage_max_V, 1, 51, 300, Problem::line_voltage_max_V,
         "highest line voltage for a start, RMS", ""},
        {"line_frequency_min_Hz", &S::line_frequency_min_mHz, 1000, 43, 66.999,
         Problem::line_frequency_min_mHz, "lowest line frequency for a start",
         "must be below line_frequency_max_Hz"},
        {"line_frequency_max_Hz", &S::line_frequency_max_mHz, 1000, 43.001, 67,
         Problem::line_frequency_max_mHz, "highest line frequency for a start", ""},
        {"sag_limit_percent", &S::sag_limit_permille, 10, 30, 95, Problem::sag_limit_permille,
         "lowest line voltage that keeps the motor fed, of the voltage before the start", ""},
        {"line_fault_half_cycles", &S::line_fault_half_cycles, 1, 1, 20,
         Problem::line_fault_half_cycles, "how long a fault of the line is borne", ""},
        {"contactor_settle_ms", &S::contactor_settle_ms, 1, 5, 200, Problem::contactor_settle_ms,
         "wait until the line contactor is surely in", ""},
        {"start_capacitor_settle_ms", &S::start_capacitor_settle_ms, 1, 5, 200,
         Problem::start_capacitor_settle_ms, "wait until the start capacitor is surely in", ""},
        {"start_capacitor_release_ms", &S::start_capacitor_release_ms, 1, 10, 200,
         Problem::start_capacitor_release_ms, "wait until the start capacitor is surely out", ""},
        {"bypass_settle_ms", &S::bypass_settle_ms, 1, 15, 500, Problem::bypass_settle_ms,
         "wait until the bypass surely carries the current alone", ""},
        {"full_conduction_angle_deg", &S::full_conduction_angle_mdeg, 1000, 3, 45,
         Problem::full_conduction_angle_mdeg, "firing angle of full conduction", ""},
        {"gate_pulse_end_deg", &S::gate_pulse_end_mdeg, 1000, 150, 175,
         Problem::gate_pulse_end_mdeg, "end of the gate pulse", ""},
        {"probe_angle_deg", &S::probe_angle_mdeg, 1000, 90, 145, Problem::probe_angle_mdeg,
         "firing angle of the probing pulses", ""},
        {"probe_half_cycles", &S::probe_half_cycles, 1, 3, 40, Problem::probe_half_cycles,
         "length of probing", ""},
        {"locked_rotor_min_A", &S::locked_rotor_min_mA, 1000, 1, 216.999,
         Problem::locked_rotor_min_mA,
         "a smaller locked-rotor current means that no motor is there",
         "must be below locked_rotor_max_A"},
        {"locked_rotor_max_A", &S::locked_rotor_max_mA, 1000, 1.001, 217,
         Problem::locked_rotor_max_mA, "a larger locked-rotor current means a short", ""},
        {"climb_limit_ms", &S::climb_limit_ms, 1, 200, 2500, Problem::climb_limit_ms,
         "longest climb", ""},
        {"start_capacitor_limit_ms", &S::start_capacitor_limit_ms, 1, 200, 3000,
         Problem::start_capacitor_limit_ms, "longest time with the start capacitor in", ""},
        {"learning_in_time_ms", &S::learning_in_time_ms, 1, 100, 2500, Problem::learning_in_time_ms,
         "a climb that takes longer counts as too weak, though it succeeded", ""},
        {"run_up_rise_percent", &S::run_up_rise_permille, 10, 120, 300,
         Problem::run_up_rise_permille,
         "voltage at S, of its value at standstill, at which a rotor that gains no more is up", ""},
        {"sure_rise_percent", &S::sure_rise_permille, 10, 120, 500, Problem::sure_rise_permille,
         "voltage at S, of its value at standstill, that means a rotor up to speed though it still "
         "gains",
         "must be at least run_up_rise_percent"},
        {"look_ahead_half_cycles", &S::look_ahead_half_cycles, 1, 0, 6,
         Problem::look_ahead_half_cycles,
         "how far ahead the voltage at S is judged, at its present growth", ""},
        {"turning_rise_percent", &S::turning_rise_permille, 10, 105, 300,
         Problem::turning_rise_permille,
         "voltage at S, of its value at standstill, that means a turning rotor",
         "must be at most run_up_rise_percent"},
        {"accelerating_growth_percent", &S::accelerating_growth_permille, 10, 0.5, 20,
         Problem::accelerating_growth_permille,
         "growth of the voltage at S that means a rotor that gains speed", ""},
        {"growth_half_cycles", &S::growth_half_cycles, 1, 2, 14, Problem::growth_half_cycles,
         "time over which that growth is judged", ""},
        {"accelerating_fall_percent", &S::accelerating_fall_permille, 10, 0.5, 100,
         Problem::accelerating_fall_permille,
         "fall of the output current over these half cycles that means a rotor gaining speed", ""},
        {"turning_current_fall_percent", &S::turning_current_fall_permille, 10, 2, 50,
         Problem::turning_current_fall_permille,
         "fall of the current within a stage that means a turning rotor", ""},
        {"sweep_delay_ms", &S::sweep_delay_ms, 1, 0, 50, Problem::sweep_delay_ms,
         "from letting the start capacitor go to the sweep to full conduction", ""},
        {"sweep_half_cycles", &S::sweep_half_cycles, 1, 1, 20, Problem::sweep_half_cycles,
         "length of the sweep to full conduction", ""},
        {"up_to_speed_current_percent", &S::up_to_speed_current_permille, 10, 10, 45,
         Problem::up_to_speed_current_permille,
         "current below which the rotor is up to speed, of the locked-rotor current", ""},
        {"up_to_speed_voltage_percent", &S::up_to_speed_voltage_permille, 10, 70, 120,
         Problem::up_to_speed_voltage_permille,
         "voltage at S above which the rotor is up to speed, of the line voltage", ""},
        {"confirm_half_cycles", &S::confirm_half_cycles, 1, 4, 50, Problem::confirm_half_cycles,
         "how long both must stay there", ""},
        {"confirm_limit_ms", &S::confirm_limit_ms, 1, 100, 1000, Problem::confirm_limit_ms,
         "longest wait without a sign of that", ""},
        {"swing_limit_ms", &S::swing_limit_ms, 1, 200, 3000, Problem::swing_limit_ms,
         "longest wait for a rotor that swings about its speed", ""},
        {"stall_current_percent", &S::stall_current_permille, 10, 10.1, 90,
         Problem::stall_current_permille,
         "current of a running motor that means a stall, of the locked-rotor current",
         "must be above up_to_speed_current_percent"},
        {"stall_patience_ms", &S::stall_patience_ms, 1, 50, 2000, Problem::stall_patience_ms,
         "how long a stall is borne", ""},
        {"lost_current_percent", &S::lost_current_permille, 10, 0.1, 5,
         Problem::lost_current_permille,
         "current of a running motor that means an open circuit, of the locked-rotor current", ""},
        {"rest_before_retry_s", &S::rest_before_retry_s, 1, 1, 3600, Problem::rest_before_retry_s,
         "rest after the motor was fed", ""},
        {"tries", &S::tries, 1, 1, 20, Problem::tries,
         "starts in a row that may fail before the lock-out", ""},
        {"run_clears_tries_s", &S::run_clears_tries_s, 1, 1, 3600, Problem::run_clears_tries_s,
         "a run of this length forgets failed starts", ""},
        {"lockout_clear_s", &S::lockout_clear_s, 1, 1, 86400, Problem::lockout_clear_s,
         "how long the call must be away to end a lock-out", ""},
    };
    return rows;
}

const std::array<StageList, 2>& stage_lists() {
    static constexpr std::array<StageList, 2> lists = {{
        {"stage_percent", &StageSettings::target_permille, 10, 10, 100,
         Problem::stage_target_permille,
         "current aimed at in each stage of the ladder, of the locked-rotor current",
         "must rise from each stage to the next"},
        {"stage_dwell_ms", &StageSettings::dwell_ms, 1, 50, 2000, Problem::stage_dwell_ms,
         "time in each stage of the ladder", "must have as many entries as stage_percent"},
    }};
    return lists;
}

}  // namespace sim
