#include "firmware/settings/settings.hpp"

#include <gtest/gtest.h>

#include <cstring>
#include <limits>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace {

using firmware::check;
using firmware::name_of;
using firmware::Settings;
using firmware::SettingsProblem;

struct Spoiled {
    const char* name;
    std::int32_t Settings::*field;
    std::vector<std::int32_t> refused;
};

const std::vector<Spoiled> spoiled_fields = {
    {"line_voltage_min_V", &Settings::line_voltage_min_V, {49, 275, 400}},
    {"line_voltage_max_V", &Settings::line_voltage_max_V, {301, 1000}},
    {"rated_voltage_V", &Settings::rated_voltage_V, {-1, 301}},
    {"line_frequency_min_mHz", &Settings::line_frequency_min_mHz, {42999, 65000}},
    {"line_frequency_max_mHz", &Settings::line_frequency_max_mHz, {67001, 400000}},
    {"sag_limit_permille", &Settings::sag_limit_permille, {299, 951}},
    {"line_fault_half_cycles", &Settings::line_fault_half_cycles, {0, 21}},
    {"contactor_settle_ms", &Settings::contactor_settle_ms, {4, 201}},
    {"start_capacitor_settle_ms", &Settings::start_capacitor_settle_ms, {4, 201}},
    {"start_capacitor_release_ms", &Settings::start_capacitor_release_ms, {9, 201}},
    {"bypass_settle_ms", &Settings::bypass_settle_ms, {14, 501}},
    {"full_conduction_angle_mdeg", &Settings::full_conduction_angle_mdeg, {2999, 45001}},
    {"gate_pulse_end_mdeg", &Settings::gate_pulse_end_mdeg, {149999, 175001}},
    {"probe_angle_mdeg", &Settings::probe_angle_mdeg, {89999, 145001}},
    {"probe_half_cycles", &Settings::probe_half_cycles, {2, 41}},
    {"locked_rotor_min_mA", &Settings::locked_rotor_min_mA, {999, 200000}},
    {"locked_rotor_max_mA", &Settings::locked_rotor_max_mA, {217001}},
    {"run_capacitor_fitted", &Settings::run_capacitor_fitted, {-1, 2}},
    {"sensor_offset_permille", &Settings::sensor_offset_permille, {9, 501}},
    {"unasked_current_mA", &Settings::unasked_current_mA, {299, 5001}},
    {"start_terminal_dead_permille", &Settings::start_terminal_dead_permille, {4, 51}},
    {"run_capacitor_shorted_permille", &Settings::run_capacitor_shorted_permille, {49, 801}},
    {"start_capacitor_current_permille", &Settings::start_capacitor_current_permille, {4, 101}},
    {"inspection_half_cycles", &Settings::inspection_half_cycles, {1, 11}},
    {"swapped_impedance_permille", &Settings::swapped_impedance_permille, {-1, 1201}},
    {"half_wave_difference_permille", &Settings::half_wave_difference_permille, {49, 801}},
    {"beyond_order_permille", &Settings::beyond_order_permille, {199, 1001}},
    {"fault_half_cycles", &Settings::fault_half_cycles, {2, 21}},
    {"start_capacitor_in_permille", &Settings::start_capacitor_in_permille, {1299, 2501}},
    {"stage_count", &Settings::stage_count, {0, 9, -1}},
    {"climb_limit_ms", &Settings::climb_limit_ms, {199, 2501}},
    {"start_capacitor_limit_ms", &Settings::start_capacitor_limit_ms, {199, 3001}},
    {"run_up_rise_permille", &Settings::run_up_rise_permille, {1199, 3001}},
    {"sure_rise_permille", &Settings::sure_rise_permille, {1599, 5001}},
    {"look_ahead_half_cycles", &Settings::look_ahead_half_cycles, {-1, 7}},
    {"turning_rise_permille", &Settings::turning_rise_permille, {1049, 1601}},
    {"accelerating_growth_permille", &Settings::accelerating_growth_permille, {4, 201}},
    {"growth_half_cycles", &Settings::growth_half_cycles, {1, 15}},
    {"accelerating_fall_permille", &Settings::accelerating_fall_permille, {4, 1001}},
    {"turning_current_fall_permille", &Settings::turning_current_fall_permille, {19, 501}},
    {"sweep_delay_ms", &Settings::sweep_delay_ms, {-1, 51}},
    {"sweep_half_cycles", &Settings::sweep_half_cycles, {0, 21}},
    {"up_to_speed_current_permille", &Settings::up_to_speed_current_permille, {99, 401}},
    {"up_to_speed_voltage_permille", &Settings::up_to_speed_voltage_permille, {699, 1201}},
    {"confirm_half_cycles", &Settings::confirm_half_cycles, {3, 51}},
    {"confirm_limit_ms", &Settings::confirm_limit_ms, {99, 1001}},
    {"swing_limit_ms", &Settings::swing_limit_ms, {199, 3001}},
    {"stall_current_permille", &Settings::stall_current_permille, {350, 901}},
    {"stall_patience_ms", &Settings::stall_patience_ms, {49, 2001}},
    {"lost_current_permille", &Settings::lost_current_permille, {0, 51}},
    {"slow_voltage_permille", &Settings::slow_voltage_permille, {99, 901}},
    {"slow_patience_ms", &Settings::slow_patience_ms, {19, 1001}},
    {"rest_before_retry_s", &Settings::rest_before_retry_s, {0, 3601}},
    {"tries", &Settings::tries, {0, 21}},
    {"run_clears_tries_s", &Settings::run_clears_tries_s, {0, 3601}},
    {"lockout_clear_s", &Settings::lockout_clear_s, {0, 86401}},
};

TEST(Settings, TheDefaultsAreInOrder) {
    EXPECT_EQ(check(Settings{}), SettingsProblem::none);
    EXPECT_STREQ(name_of(SettingsProblem::none), "");
}

// Covers: CT-08
TEST(Settings, EveryFieldOutsideItsBoundsIsRefusedByName) {
    for (const Spoiled& spoiled : spoiled_fields) {
        for (const std::int32_t value : spoiled.refused) {
            Settings settings;
            settings.*spoiled.field = value;
            EXPECT_STREQ(name_of(check(settings)), spoiled.name) << value;
        }
    }
}

TEST(Settings, NoFieldAcceptsTheEndsOfItsType) {
    for (const Spoiled& spoiled : spoiled_fields) {
        for (const std::int32_t value :
             {std::numeric_limits<std::int32_t>::min(), std::numeric_limits<std::int32_t>::max()}) {
            Settings settings;
            settings.*spoiled.field = value;
            EXPECT_NE(check(settings), SettingsProblem::none) << spoiled.name << " " << value;
        }
    }
}

TEST(Settings, StagesMustClimbAndDwell) {
    Settings falling;
    falling.stages[2].target_permille = falling.stages[1].target_permille;
    EXPECT_EQ(check(falling), SettingsProblem::stage_target_permille);
    Settings too_strong;
    too_strong.stages[3].target_permille = 1001;
    EXPECT_EQ(check(too_strong), SettingsProblem::stage_target_permille);
    Settings too_weak;
    too_weak.stages[0].target_permille = 99;
    EXPECT_EQ(check(too_weak), SettingsProblem::stage_target_permille);
    Settings hasty;
    hasty.stages[0].dwell_ms = 49;
    EXPECT_EQ(check(hasty), SettingsProblem::stage_dwell_ms);
    Settings slow;
    slow.stages[0].dwell_ms = 2001;
    EXPECT_EQ(check(slow), SettingsProblem::stage_dwell_ms);
    Settings unused;
    unused.stages[5] = {-7, -7};
    EXPECT_EQ(check(unused), SettingsProblem::none) << "only the stages in use are looked at";
}

TEST(Settings, AnUnknownRampLawIsRefused) {
    Settings settings;
    settings.ramp_law = static_cast<firmware::RampLawKind>(firmware::ramp_law_count);
    EXPECT_EQ(check(settings), SettingsProblem::ramp_law);
}

TEST(Settings, EveryProblemHasItsOwnName) {
    std::set<std::string> names;
    const int last = static_cast<int>(SettingsProblem::lockout_clear_s);
    for (int i = 1; i <= last; ++i) {
        const std::string name = name_of(static_cast<SettingsProblem>(i));
        EXPECT_FALSE(name.empty()) << i;
        EXPECT_TRUE(names.insert(name).second) << name;
    }
}

}  // namespace
