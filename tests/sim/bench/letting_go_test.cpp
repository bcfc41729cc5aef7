// The controller against a plant whose hardware breaks: what it recognises, and what stays
// unbroken. firmware/LETTING_GO.md is the table behind this; a campaign over every 10 ms is its
// long form.
#include <gtest/gtest.h>

#include <array>
#include <string>
#include <vector>

#include "sim/bench/start_run.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

struct Unit {
    const char* compressor;
    const char* supply;
    int start_capacitor_uF;
};
// A scroll and a reciprocating one, 115 and 230 V, 50 and 60 Hz, two grids, inverter, generator.
constexpr std::array<Unit, 4> units = {{
    {"outdoor_3_ton_scroll", "house_service_240v_60hz", 120},
    {"cold_room_230v_50hz", "hut_inverter_3kva_230v_50hz", 75},
    {"window_unit_115v_60hz", "house_leg_120v_60hz", 100},
    {"split_unit_230v_50hz", "generator_5kva_230v_50hz", 90},
}};

sim::StartResult run(const Unit& unit, const std::string& fault) {
    const std::string text = std::string("[library]\ncompressor = \"") + unit.compressor +
                             "\"\nsupply = \"" + unit.supply +
                             "\"\n[run]\nduration_s = 2\n[start_aid]\nkind = \"none\"\n"
                             "[limiter]\nkind = \"builtin\"\nstart_capacitor_uF = " +
                             std::to_string(unit.start_capacitor_uF) + "\n[[fault]]\n" + fault;
    return sim::run_start(sim::parse_scenario(text, "fault.toml"));
}

std::string broken(const sim::StartResult& result) {
    std::string names;
    for (const sim::NamedViolation& one : result.monitors) {
        names += std::string(one.monitor) + " ";
    }
    return names;
}

struct Known {
    const char* fault;
    const char* cause;
    bool locks_out;
};

// Covers: IN-01, IN-02, IN-03, IN-04, IN-05, IN-06, IN-07, IN-08, IN-09
TEST(LettingGo, HardwareThatIsBrokenBeforeTheStartIsNamedOnEveryUnit) {
    for (const Known& known :
         {Known{"kind = \"bypass_welded\"\nwelds = \"at_once\"\n", "output_conducts_unasked", true},
          Known{"kind = \"thyristor_shorted\"\n", "thyristor_shorted", true},
          Known{"kind = \"thyristor_shorted\"\npolarity = \"negative\"\n", "thyristor_shorted",
                true},
          Known{"kind = \"thyristor_shorted\"\npolarity = \"both\"\n", "output_conducts_unasked",
                true},
          Known{"kind = \"start_contact_stuck_in\"\n", "start_capacitor_stuck_in", true},
          Known{"kind = \"windings_swapped\"\n", "windings_swapped", true},
          Known{"kind = \"run_capacitor_shorted\"\n", "run_capacitor_shorted", true},
          Known{"kind = \"run_capacitor_open\"\n", "run_capacitor_open", false},
          Known{"kind = \"thyristor_dead\"\n", "half_waves_unequal", false},
          Known{"kind = \"thyristor_dead\"\npolarity = \"negative\"\n", "half_waves_unequal",
                false},
          Known{"kind = \"thyristor_dead\"\npolarity = \"both\"\n", "no_motor", false},
          Known{"kind = \"motor_disconnected\"\n", "no_motor", false},
          Known{"kind = \"output_current_sensor_stuck\"\ncounts = 2048\n", "no_motor", false},
          Known{"kind = \"output_current_sensor_stuck\"\ncounts = 4095\n", "sensor_off_zero",
                false},
          Known{"kind = \"start_terminal_sensor_stuck\"\ncounts = 2048\n", "start_terminal_dead",
                false},
          Known{"kind = \"start_terminal_sensor_stuck\"\ncounts = 100\n", "sensor_off_zero", false},
          Known{"kind = \"line_voltage_sensor_stuck\"\ncounts = 3000\n", "line_not_tracked",
                false}}) {
        for (const Unit& unit : units) {
            const sim::StartResult result = run(unit, known.fault);
            EXPECT_EQ(result.cause, known.cause) << unit.compressor << "\n" << known.fault;
            EXPECT_EQ(result.outcome == sim::Outcome::locked_out, known.locks_out)
                << unit.compressor << "\n"
                << known.fault;
            // A bypass that has welded itself in is closed on a standing rotor, whoever watches.
            const bool of_the_hardware = std::string(known.cause) == "output_conducts_unasked";
            if (!of_the_hardware) {
                EXPECT_EQ(broken(result), "") << unit.compressor << "\n" << known.fault;
            }
        }
    }
}

// Covers: CL-05, CL-07, CL-08, RN-02, RN-03, RT-05, LW-05, LW-08
TEST(LettingGo, NoMonitorIsBrokenWhateverBreaksWheneverInTheStart) {
    const std::vector<std::string> faults = {
        "kind = \"thyristor_shorted\"\n",
        "kind = \"thyristor_dead\"\npolarity = \"negative\"\n",
        "kind = \"start_contact_stuck_in\"\n",
        "kind = \"start_contact_stuck_out\"\n",
        "kind = \"bypass_stuck_open\"\n",
        "kind = \"motor_disconnected\"\n",
        "kind = \"run_capacitor_open\"\n",
        "kind = \"controller_unpowered\"\nduration_s = 0.05\n",
        "kind = \"call_removed\"\n",
        "kind = \"supply_chatter\"\nperiod_ms = 120\nopen_percent = 40\n",
        "kind = \"supply_frequency\"\nfrequency_Hz = 45.5\n",
        "kind = \"output_current_sensor_stuck\"\n",
        "kind = \"start_terminal_sensor_stuck\"\n",
        "kind = \"line_voltage_sensor_stuck\"\n",
    };
    for (const std::string& fault : faults) {
        for (const Unit& unit : units) {
            // Probing, climbing, handing over and running, at odd instants of the half cycle.
            for (const char* at : {"0.1037", "0.1871", "0.2413", "0.3349", "0.4177", "0.9"}) {
                const sim::StartResult result = run(unit, fault + "at_s = " + at + "\n");
                EXPECT_EQ(broken(result), "") << unit.compressor << "\n" << fault << at;
            }
        }
    }
}

// Covers: CL-07
TEST(LettingGo, AMotorThatIsTakenAwayIsLetGoWithinThirdOfASecondWheneverItHappens) {
    for (const Unit& unit : units) {
        for (const double at_s : {0.15, 0.25, 0.35, 0.45, 0.9}) {
            const sim::StartResult result =
                run(unit, "kind = \"motor_disconnected\"\nat_s = " + std::to_string(at_s) + "\n");
            double gone_s = -1.0;
            for (const sim::ControllerStep& step : result.controller_steps) {
                if (step.time_s > at_s && !firmware::feeds_motor(step.state)) {
                    gone_s = step.time_s;
                    break;
                }
            }
            ASSERT_GT(gone_s, 0.0) << unit.compressor << " " << at_s;
            EXPECT_LE(gone_s - at_s, 0.34) << unit.compressor << " " << at_s;
        }
    }
}

}  // namespace
