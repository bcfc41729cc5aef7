#include "sim/scenario/controller_settings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <vector>

namespace sim {

namespace {

using firmware::RampLawKind;
using firmware::Settings;
using firmware::SettingsProblem;
using firmware::StageSettings;

/// One setting that is a single number. `per_unit` counts of the controller make one unit of the
/// key; the bounds are the controller's, in the key's unit. `relation` is what is left to be wrong
/// when the value is in its bounds.
struct NumberSetting {
    std::string_view key;
    std::int32_t Settings::*field;
    double per_unit;
    double lowest;
    double highest;
    SettingsProblem problem;
    std::string_view meaning;
    std::string_view relation;
};

using S = Settings;
using Problem = SettingsProblem;

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
        {"run_up_rise_percent", &S::run_up_rise_permille, 10, 120, 300,
         Problem::run_up_rise_permille,
         "voltage at S, of its value at standstill, at which a rotor that gains no more is up", ""},
        {"sure_rise_percent", &S::sure_rise_permille, 10, 120, 500, Problem::sure_rise_permille,
         "voltage at S, of its value at standstill, that means a rotor up to speed though it still "
         "gains",
         "must be at least run_up_rise_percent"},
        {"turning_rise_percent", &S::turning_rise_permille, 10, 105, 300,
         Problem::turning_rise_permille,
         "voltage at S, of its value at standstill, that means a turning rotor",
         "must be at most run_up_rise_percent"},
        {"accelerating_growth_percent", &S::accelerating_growth_permille, 10, 0.5, 20,
         Problem::accelerating_growth_permille,
         "growth of the voltage at S that means a rotor that gains speed", ""},
        {"growth_half_cycles", &S::growth_half_cycles, 1, 2, 14, Problem::growth_half_cycles,
         "time over which that growth is judged", ""},
        {"turning_current_fall_percent", &S::turning_current_fall_permille, 10, 2, 50,
         Problem::turning_current_fall_permille,
         "fall of the current within a stage that means a turning rotor", ""},
        {"sweep_delay_ms", &S::sweep_delay_ms, 1, 0, 50, Problem::sweep_delay_ms,
         "from letting the start capacitor go to the sweep to full conduction", ""},
        {"sweep_half_cycles", &S::sweep_half_cycles, 1, 1, 20, Problem::sweep_half_cycles,
         "length of the sweep to full conduction", ""},
        {"up_to_speed_percent", &S::up_to_speed_permille, 10, 10, 45, Problem::up_to_speed_permille,
         "current below which the rotor is up to speed, of the locked-rotor current", ""},
        {"confirm_half_cycles", &S::confirm_half_cycles, 1, 4, 50, Problem::confirm_half_cycles,
         "how long the current must stay there", ""},
        {"confirm_limit_ms", &S::confirm_limit_ms, 1, 100, 1000, Problem::confirm_limit_ms,
         "longest wait for that", ""},
        {"stall_current_percent", &S::stall_current_permille, 10, 10.1, 90,
         Problem::stall_current_permille,
         "current of a running motor that means a stall, of the locked-rotor current",
         "must be above up_to_speed_percent"},
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

/// One of the two lists that make the ladder.
struct StageList {
    std::string_view key;
    std::int32_t StageSettings::*field;
    double per_unit;
    double lowest;
    double highest;
    SettingsProblem problem;
    std::string_view meaning;
    std::string_view relation;
};

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

constexpr std::string_view ramp_law_key = "ramp_law";

struct RampLawWord {
    RampLawKind kind;
    std::string_view word;
};
constexpr std::array<RampLawWord, firmware::ramp_law_count> ramp_law_words = {
    {{RampLawKind::stage_ladder, "stage_ladder"}}};

NumberRule rule_of(double lowest, double highest, double per_unit) {
    return {lowest, highest, per_unit == 1.0, false};
}

std::int32_t counts(double value, double per_unit) {
    return static_cast<std::int32_t>(std::lround(value * per_unit));
}

std::size_t filled_stages(const Settings& settings, std::int32_t StageSettings::*field) {
    const auto is_filled = [field](const StageSettings& stage) { return stage.*field != 0; };
    return static_cast<std::size_t>(
        std::count_if(settings.stages.begin(), settings.stages.end(), is_filled));
}

Key key_for(const NumberSetting& row, Settings& target) {
    const auto store = [&row, &target](const KeyValue& value) {
        target.*row.field = counts(std::get<double>(value), row.per_unit);
    };
    return {std::string(row.key), rule_of(row.lowest, row.highest, row.per_unit),
            number_text(target.*row.field / row.per_unit), std::string(row.meaning), store};
}

Key key_for(const StageList& list, Settings& target) {
    // A place that a list does not fill is zero, which shows when the two lists differ in length.
    const auto store = [&list, &target](const KeyValue& value) {
        const auto& numbers = std::get<std::vector<double>>(value);
        for (std::size_t i = 0; i < target.stages.size(); ++i) {
            target.stages[i].*list.field =
                i < numbers.size() ? counts(numbers[i], list.per_unit) : 0;
        }
        target.stage_count =
            static_cast<std::int32_t>(filled_stages(target, &StageSettings::target_permille));
    };
    std::string default_text;
    for (std::size_t i = 0; i < static_cast<std::size_t>(target.stage_count); ++i) {
        default_text +=
            (i == 0 ? "[" : ", ") + number_text(target.stages[i].*list.field / list.per_unit);
    }
    return {
        std::string(list.key),
        NumberListRule{rule_of(list.lowest, list.highest, list.per_unit), 1, Settings::most_stages},
        default_text + "]", std::string(list.meaning), store};
}

Key ramp_law_choice(Settings& target) {
    WordRule rule;
    std::string default_text;
    for (const RampLawWord& row : ramp_law_words) {
        rule.words.push_back(row.word);
        if (row.kind == target.ramp_law) {
            default_text = '"' + std::string(row.word) + '"';
        }
    }
    const auto store = [&target](const KeyValue& value) {
        const auto& word = std::get<std::string>(value);
        target.ramp_law = std::find_if(ramp_law_words.begin(), ramp_law_words.end(),
                                       [&word](const RampLawWord& row) { return row.word == word; })
                              ->kind;
    };
    return {std::string(ramp_law_key), rule, default_text, "how the current climbs", store};
}

/// The row or list whose field the controller's check names, shown to `use`.
template <class Use>
auto with_row_of(SettingsProblem problem, Use use) {
    for (const NumberSetting& row : number_settings()) {
        if (row.problem == problem) {
            return use(row.key, row.relation);
        }
    }
    for (const StageList& list : stage_lists()) {
        if (list.problem == problem) {
            return use(list.key, list.relation);
        }
    }
    if (problem == SettingsProblem::ramp_law) {
        return use(ramp_law_key, std::string_view());
    }
    // The number of stages is the length of the list.
    const bool is_count = problem == SettingsProblem::stage_count;
    return use(is_count ? stage_lists()[0].key : std::string_view(), std::string_view());
}

}  // namespace

void append_controller_keys(Keys& keys, Settings& target) {
    target = Settings{};
    keys.push_back(ramp_law_choice(target));
    for (const StageList& list : stage_lists()) {
        keys.push_back(key_for(list, target));
    }
    for (const NumberSetting& row : number_settings()) {
        keys.push_back(key_for(row, target));
    }
}

std::string_view key_of(SettingsProblem problem) {
    return with_row_of(problem, [](std::string_view key, std::string_view) { return key; });
}

std::string controller_problem(const Settings& settings) {
    SettingsProblem problem = firmware::check(settings);
    // The controller looks only at the stages that it will use.
    if (filled_stages(settings, &StageSettings::dwell_ms) !=
        static_cast<std::size_t>(settings.stage_count)) {
        problem = SettingsProblem::stage_dwell_ms;
    }
    if (problem == SettingsProblem::none) {
        return "";
    }
    return with_row_of(problem, [problem](std::string_view key, std::string_view relation) {
        return std::string(key.empty() ? firmware::name_of(problem) : key) + " " +
               std::string(relation.empty() ? "is outside what the controller accepts" : relation);
    });
}

}  // namespace sim
