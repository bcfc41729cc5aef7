#include "sim/scenario/controller_settings.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "scenario/scenario_text.hpp"

namespace {

using firmware::Settings;
using firmware::SettingsProblem;

std::string limited(const std::string& keys) {
    return sim_test::replaced(sim_test::right_scenario(), "kind = \"none\"\n",
                              "kind = \"builtin\"\n" + keys);
}

Settings read(const std::string& keys) {
    const sim::Scenario scenario = sim::parse_scenario(limited(keys), "cellar.toml");
    return std::get<sim::BuiltinLimiter>(scenario.limiter).settings;
}

std::string fault(const std::string& keys) {
    return sim_test::fault_of(limited(keys));
}

TEST(ControllerSettings, AreTheControllersOwnWhenTheFileSaysNothing) {
    const Settings expected;
    const Settings settings = read("");
    EXPECT_EQ(settings.tries, expected.tries);
    EXPECT_EQ(settings.stage_count, expected.stage_count);
    EXPECT_EQ(settings.rest_before_retry_s, expected.rest_before_retry_s);
    EXPECT_EQ(settings.gate_pulse_end_mdeg, expected.gate_pulse_end_mdeg);
    EXPECT_EQ(firmware::check(settings), SettingsProblem::none);
}

TEST(ControllerSettings, AreConvertedToTheControllersUnits) {
    const Settings settings = read(R"(
tries = 5
rest_before_retry_s = 200
line_voltage_min_V = 190
line_frequency_min_Hz = 47.5
locked_rotor_max_A = 150.25
probe_angle_deg = 120.5
sag_limit_percent = 70.5
stage_percent = [30, 42.5, 60]
stage_dwell_ms = [100, 200, 300]
ramp_law = "stage_ladder"
learning_law = "none"
)");
    EXPECT_EQ(settings.tries, 5);
    EXPECT_EQ(settings.rest_before_retry_s, 200);
    EXPECT_EQ(settings.line_voltage_min_V, 190);
    EXPECT_EQ(settings.line_frequency_min_mHz, 47500);
    EXPECT_EQ(settings.locked_rotor_max_mA, 150250);
    EXPECT_EQ(settings.probe_angle_mdeg, 120500);
    EXPECT_EQ(settings.sag_limit_permille, 705);
    EXPECT_EQ(settings.stage_count, 3);
    EXPECT_EQ(settings.stages[0].target_permille, 300);
    EXPECT_EQ(settings.stages[1].target_permille, 425);
    EXPECT_EQ(settings.stages[2].target_permille, 600);
    EXPECT_EQ(settings.stages[2].dwell_ms, 300);
    EXPECT_EQ(settings.stages[3].target_permille, 0);
    EXPECT_EQ(settings.ramp_law, firmware::RampLawKind::stage_ladder);
    EXPECT_EQ(settings.learning_law, firmware::LearningLawKind::none);
}

TEST(ControllerSettings, AreRoundedToTheNearestThatTheControllerCanHold) {
    EXPECT_EQ(read("sag_limit_percent = 70.04").sag_limit_permille, 700);
    EXPECT_EQ(read("sag_limit_percent = 70.06").sag_limit_permille, 701);
}

TEST(ControllerSettings, OfOneListAloneKeepTheOtherAsItIs) {
    const Settings settings = read("stage_percent = [20, 30, 40, 50]");
    EXPECT_EQ(settings.stages[3].target_permille, 500);
    EXPECT_EQ(settings.stages[3].dwell_ms, Settings{}.stages[3].dwell_ms);
}

TEST(ControllerSettings, WithStagesThatDoNotMatchAreRefused) {
    const std::string mismatch =
        "cellar.toml:31: limiter: stage_dwell_ms must have as many entries as stage_percent";
    EXPECT_EQ(fault("stage_percent = [30, 60]"), mismatch);
    EXPECT_EQ(fault("stage_dwell_ms = [100, 100, 100, 100, 100]"), mismatch);
    EXPECT_EQ(fault("stage_percent = [30, 60, 50, 70]"),
              "cellar.toml:31: limiter: stage_percent must rise from each stage to the next");
}

TEST(ControllerSettings, ThatContradictEachOtherAreRefusedWithTheLineThatWasGiven) {
    EXPECT_EQ(fault("line_voltage_max_V = 80"),
              "cellar.toml:31: limiter: line_voltage_min_V must be below line_voltage_max_V");
    EXPECT_EQ(
        fault("tries = 2\nstall_current_percent = 30\n"),
        "cellar.toml:32: limiter: stall_current_percent must be above up_to_speed_current_percent");
    EXPECT_EQ(fault("turning_rise_percent = 200"),
              "cellar.toml:31: limiter: turning_rise_percent must be at most run_up_rise_percent");
}

TEST(ControllerSettings, EachHaveAKey) {
    Settings settings;
    sim::Keys keys;
    sim::append_controller_keys(keys, settings);
    std::set<std::string> names;
    for (const sim::Key& key : keys) {
        names.insert(key.name);
    }
    std::set<std::string> named_by_the_controller;
    // The controller's list of problems is its list of fields; it ends where the names end.
    for (int i = 1; i < 256; ++i) {
        const auto problem = static_cast<SettingsProblem>(i);
        if (std::string(firmware::name_of(problem)).empty()) {
            break;
        }
        const std::string key(sim::key_of(problem));
        EXPECT_EQ(names.count(key), 1U) << firmware::name_of(problem);
        named_by_the_controller.insert(key);
    }
    EXPECT_EQ(named_by_the_controller, names);
    EXPECT_EQ(sim::key_of(SettingsProblem::none), "");
}

/// Settings in which one key was set to one number. Fields that it must be above or below are
/// moved out of its way first.
Settings settings_with(const std::string& name, double value) {
    Settings settings;
    sim::Keys keys;
    sim::append_controller_keys(keys, settings);
    settings.line_voltage_min_V = name == "line_voltage_max_V" ? 50 : 85;
    settings.line_voltage_max_V = 300;
    settings.line_frequency_min_mHz = name == "line_frequency_max_Hz" ? 43000 : 45000;
    settings.line_frequency_max_mHz = 67000;
    settings.locked_rotor_min_mA = name == "locked_rotor_max_A" ? 1000 : 5000;
    settings.locked_rotor_max_mA = 217000;
    settings.turning_rise_permille = 1050;
    settings.run_up_rise_permille = name == "turning_rise_percent" ? 3000 : 1200;
    settings.sure_rise_permille = 5000;
    settings.up_to_speed_current_permille = name == "stall_current_percent" ? 100 : 350;
    for (const sim::Key& key : keys) {
        if (key.name == name) {
            key.store(value);
        }
    }
    return settings;
}

TEST(ControllerSettings, HaveTheBoundsOfTheControllersOwnCheck) {
    Settings scratch;
    sim::Keys keys;
    sim::append_controller_keys(keys, scratch);
    int walked = 0;
    for (const sim::Key& key : keys) {
        const auto* rule = std::get_if<sim::NumberRule>(&key.rule);
        if (rule == nullptr) {
            continue;
        }
        ++walked;
        SCOPED_TRACE(key.name);
        // One count of the controller: permille and milli-units are the finest.
        const double count = rule->is_whole                                  ? 1.0
                             : key.name.find("percent") != std::string::npos ? 0.1
                                                                             : 0.001;
        const auto problem_at = [&key](double value) {
            return firmware::check(settings_with(key.name, value));
        };
        EXPECT_EQ(problem_at(rule->lowest), SettingsProblem::none);
        EXPECT_EQ(problem_at(rule->highest), SettingsProblem::none);
        EXPECT_NE(problem_at(rule->lowest - count), SettingsProblem::none);
        EXPECT_NE(problem_at(rule->highest + count), SettingsProblem::none);
    }
    EXPECT_GT(walked, 30);
}

TEST(ControllerSettings, ShowTheirDefaultsInTheKeysUnit) {
    Settings settings;
    sim::Keys keys;
    sim::append_controller_keys(keys, settings);
    for (const sim::Key& key : keys) {
        ASSERT_TRUE(key.default_text.has_value()) << key.name;
        // Reading the text of the default back changes nothing.
        EXPECT_EQ(fault(key.name + " = " + *key.default_text), "was read") << key.name;
    }
}

}  // namespace
