// Bad input: one sentence with the file, the line, the key, and what would be accepted.
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::fault_of;
using sim_test::fault_with;
using sim_test::replaced;
using sim_test::right_scenario;
using sim_test::TemporaryFolder;

std::string fault_of_file(const std::string& path) {
    try {
        sim::read_scenario(path);
    } catch (const sim::InputError& error) {
        return error.what();
    }
    return "was read";
}

TEST(ScenarioRefusal, TheErrorCarriesItsPieces) {
    try {
        sim::parse_scenario(replaced(right_scenario(), "poles = 4", "poles = 3"), "cellar.toml");
        FAIL() << "was read";
    } catch (const sim::InputError& error) {
        EXPECT_EQ(error.file(), "cellar.toml");
        EXPECT_EQ(error.line(), 2);
        EXPECT_EQ(error.key(), "motor.poles");
        EXPECT_STREQ(error.what(),
                     "cellar.toml:2: motor.poles: 3 is not accepted; give an even whole number "
                     "from 2 to 16");
    }
}

TEST(ScenarioRefusal, AWrongTypeIsNamedTogetherWithTheRightOne) {
    const std::string poles = "cellar.toml:2: motor.poles: ";
    const std::string even = " is not accepted; give an even whole number from 2 to 16";
    EXPECT_EQ(fault_with("poles = 4", "poles = 4.0"), poles + "4.0" + even);
    EXPECT_EQ(fault_with("poles = 4", "poles = \"4\""), poles + "\"4\"" + even);
    EXPECT_EQ(fault_with("poles = 4", "poles = true"), poles + "true" + even);
    EXPECT_EQ(fault_with("poles = 4", "poles = [4]"), poles + "a list" + even);
    EXPECT_EQ(fault_with("poles = 4", "poles = {four = 4}"), poles + "a table" + even);
    EXPECT_EQ(fault_with("poles = 4", "poles = 2024-01-01"), poles + "a date or time" + even);
    EXPECT_EQ(fault_with("\"grid\"", "5"),
              "cellar.toml:23: source.kind: 5 is not accepted; give \"grid\", "
              "\"split_phase\", \"inverter\", \"transformer_inverter\" or \"generator\"");
}

TEST(ScenarioRefusal, NumbersThatAreNoNumbersAreRefusedWithTheRange) {
    const std::string place = "cellar.toml:9: motor.turns_ratio: ";
    const std::string range = " is not accepted; give a number from 0.2 to 5";
    EXPECT_EQ(fault_with("turns_ratio = 1.25", "turns_ratio = nan"), place + "nan" + range);
    EXPECT_EQ(fault_with("turns_ratio = 1.25", "turns_ratio = inf"), place + "inf" + range);
    EXPECT_EQ(fault_with("turns_ratio = 1.25", "turns_ratio = -inf"), place + "-inf" + range);
}

TEST(ScenarioRefusal, WhatPhysicsForbidsIsRefusedWithTheRange) {
    EXPECT_EQ(fault_with("main_resistance_ohm = 1.5", "main_resistance_ohm = -1.5"),
              "cellar.toml:5: motor.main_resistance_ohm: -1.5 is not accepted; give a number from "
              "0.01 to 200");
    EXPECT_EQ(fault_with("resistance_ohm = 0.25", "resistance_ohm = -0.25"),
              "cellar.toml:26: source.resistance_ohm: -0.25 is not accepted; give a number from 0 "
              "to 20");
    EXPECT_EQ(fault_with("frequency_Hz = 50\nresistance", "frequency_Hz = 400\nresistance"),
              "cellar.toml:25: source.frequency_Hz: 400 is not accepted; give a number from 45 to "
              "65");
    EXPECT_EQ(fault_with("run_capacitor_uF = 30", "run_capacitor_uF = 0"),
              "cellar.toml:14: motor.run_capacitor_uF: without a run capacitor nothing feeds the "
              "auxiliary winding; give at least 0.5, or a [start_aid] of kind \"thermistor\"");
}

TEST(ScenarioRefusal, AnUnknownKeyIsAnsweredWithTheOneThatWasMeant) {
    EXPECT_EQ(fault_with("turns_ratio", "turn_ratio"),
              "cellar.toml:9: motor.turn_ratio: unknown key; did you mean turns_ratio?");
    EXPECT_EQ(fault_with("rated_voltage_V", "rated_voltage"),
              "cellar.toml:3: motor.rated_voltage: unknown key; did you mean rated_voltage_V?");
    EXPECT_EQ(fault_with("phase_deg", "colour"),
              "cellar.toml:28: source.colour: unknown key; [source] of kind \"grid\" takes "
              "voltage_V, frequency_Hz, resistance_ohm, inductance_mH, phase_deg, sag_begin_s, "
              "sag_fall_s, "
              "sag_length_s, sag_to_percent");
    EXPECT_EQ(fault_of(right_scenario() + "start_capacitor_uF = 100\n"),
              "cellar.toml:31: limiter.start_capacitor_uF: unknown key; [limiter] of kind "
              "\"none\" takes no key but kind");
}

TEST(ScenarioRefusal, AnUnknownTableIsAnsweredWithTheOneThatWasMeant) {
    EXPECT_EQ(fault_with("[motor]", "[moter]"),
              "cellar.toml:1: moter: unknown table; did you mean [motor]?");
    EXPECT_EQ(
        fault_of("speed = 3\n" + right_scenario()),
        "cellar.toml:1: speed: unknown key; a scenario has the tables [scenario], "
        "[library], [conditions], [motor], [load], [refrigerant], [heat], [protector], "
        "[protection_module], [contactor], [start_aid], [source], [wiring], [limiter], [fault], "
        "[run], [expect], [limits], [change]");
}

TEST(ScenarioRefusal, AnUnknownWordIsAnsweredWithTheList) {
    EXPECT_EQ(
        fault_with("\"grid\"", "\"grit\""),
        "cellar.toml:23: source.kind: \"grit\" is not accepted; give \"grid\", \"split_phase\", "
        "\"inverter\", \"transformer_inverter\" or \"generator\" (did you mean \"grid\"?)");
    EXPECT_EQ(fault_of(right_scenario() + "[expect]\noutcome = \"fine\"\n"),
              "cellar.toml:32: expect.outcome: \"fine\" is not accepted; give \"running\", "
              "\"running_backwards\", \"stalled\", \"protector_open\", \"resting\", "
              "\"locked_out\", \"supply_tripped\", \"stopped\", \"not_started\" or "
              "\"controller_failed\"");
}

TEST(ScenarioRefusal, AMissingKeyPointsAtItsTable) {
    EXPECT_EQ(fault_with("constant_torque_Nm = 1.25\n", ""),
              "cellar.toml:16: load.constant_torque_Nm: this key is missing; give a number from 0 "
              "to 500 (torque at any speed)");
    EXPECT_EQ(fault_with("kind = \"grid\"\n", ""),
              "cellar.toml:22: source.kind: this key is missing; give \"grid\", \"split_phase\", "
              "\"inverter\", \"transformer_inverter\" or \"generator\" (supply and its wiring)");
}

TEST(ScenarioRefusal, AMissingTableIsNamed) {
    EXPECT_EQ(fault_with("[limiter]\nkind = \"none\"\n", ""),
              "cellar.toml: limiter: this table is missing; give [limiter] (what stands between "
              "the line and the motor)");
    EXPECT_EQ(fault_of("# nothing but a comment\n"),
              "cellar.toml: motor: this table is missing; give [motor] (motor with a main and an "
              "auxiliary winding)");
}

TEST(ScenarioRefusal, WhatIsNoTableIsNotTakenForOne) {
    EXPECT_EQ(fault_with("[limiter]\nkind = \"none\"\n", "[[limiter]]\nkind = \"none\"\n"),
              "cellar.toml:29: limiter: this is not a table; give [limiter] once, with its keys "
              "below");
    EXPECT_EQ(fault_of("run = 3\n" + right_scenario()),
              "cellar.toml:1: run: this is not a table; give [run] once, with its keys below");
}

TEST(ScenarioRefusal, KeysThatDoNotFitTogetherAreRefused) {
    EXPECT_EQ(fault_of(right_scenario() + "[run]\ncall_on_s = 2\ncall_off_s = 2\n"),
              "cellar.toml:33: run: call_off_s must be later than call_on_s, or 0 for a call that "
              "stays");
    EXPECT_EQ(fault_of(right_scenario() + "[limits]\nsupply_frequency_low_Hz = 60\n"
                                          "supply_frequency_high_Hz = 60\n"),
              "cellar.toml:32: limits: supply_frequency_low_Hz must be below "
              "supply_frequency_high_Hz");
}

TEST(ScenarioRefusal, ATitleIsOneShortLine) {
    const std::string fault = " is not accepted; give one line of text of at most 120 bytes";
    const std::string place = "cellar.toml:32: scenario.title: ";
    const std::string text = right_scenario() + "[scenario]\ntitle = ";
    EXPECT_EQ(fault_of(text + "\"\""), place + "\"\"" + fault);
    EXPECT_EQ(fault_of(text + R"("\u001b[31m")"), place + R"("\x1b[31m")" + fault);
    EXPECT_EQ(fault_of(text + "\"" + std::string(121, 'x') + "\""),
              place + "\"" + std::string(40, 'x') + "…\"" + fault);
}

TEST(ScenarioRefusal, OnlyTheFirstFaultOfTheFileIsReported) {
    std::string text = replaced(right_scenario(), "turns_ratio = 1.25", "turns_ratio = 99");
    text = replaced(text, "poles = 4", "poles = 5");
    text = replaced(text, "phase_deg", "colour");
    EXPECT_EQ(fault_of(text).substr(0, 27), "cellar.toml:2: motor.poles:");
}

TEST(ScenarioRefusal, AKeyGivenTwiceIsASyntaxErrorWithItsLine) {
    EXPECT_EQ(fault_with("phase_deg = 90", "phase_deg = 90\nphase_deg = 0").substr(0, 40),
              "cellar.toml:29: this is not valid TOML (");
    EXPECT_EQ(fault_with("turns_ratio = 1.25", "turns_ratio 1.25").substr(0, 39),
              "cellar.toml:9: this is not valid TOML (");
    EXPECT_EQ(fault_with("phase_deg = 90", "phase_deg = 1e999").substr(0, 40),
              "cellar.toml:28: this is not valid TOML (");
}

TEST(ScenarioRefusal, AnEmptyFileIsToldWhatToHold) {
    const std::string fault =
        "cellar.toml: the file is empty; give a scenario with the tables [motor], [load], "
        "[source], [limiter]";
    EXPECT_EQ(fault_of(""), fault);
    EXPECT_EQ(fault_of(" \n\r\n\t"), fault);
    const TemporaryFolder folder;
    EXPECT_NE(fault_of_file(folder.put("empty.toml", "")).find("the file is empty; give"),
              std::string::npos);
}

TEST(ScenarioRefusal, AFolderAndAMissingFileAreNamed) {
    const TemporaryFolder folder;
    EXPECT_EQ(fault_of_file(folder.path()),
              folder.path() + ": this is a folder; give a file that can be read");
    EXPECT_EQ(fault_of_file(folder / "none.toml"),
              folder / "none.toml" + ": there is no such file; give a file that can be read");
}

TEST(ScenarioRefusal, AHundredMegabytesOfGarbageAreRefusedAtOnce) {
    const TemporaryFolder folder;
    const std::string path = folder.put("garbage.toml",
                                        "\x7f"
                                        "ELF\x02\x01");
    std::filesystem::resize_file(path, 100 * 1000 * 1000);
    const auto before = std::chrono::steady_clock::now();
    EXPECT_EQ(fault_of_file(path), path + ": the file is too large; give a file of at most 1 MiB");
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(1));
}

TEST(ScenarioRefusal, NoMessageEchoesHugeOrBinaryContent) {
    const std::string huge(900000, 'k');
    const std::string binary("\x01\x1b[2J\xff\x80", 7);
    const std::vector<std::string> texts = {huge,
                                            huge + " = 1\n",
                                            "[" + huge + "]\n",
                                            "[motor]\n" + huge + " = 1\n",
                                            "[motor]\npoles = \"" + huge + "\"\n",
                                            "[motor]\npoles = " + huge,
                                            binary,
                                            std::string(1000, '\0'),
                                            "[motor]\n\"\\u001b[2J\" = 1\n",
                                            "[source]\nkind = \"\\u0007" + huge + "\"\n",
                                            "a = " + std::string(100000, '[')};
    for (const std::string& text : texts) {
        const std::string fault = fault_of(text);
        EXPECT_EQ(fault.substr(0, 11), "cellar.toml");
        EXPECT_LT(fault.size(), 700U) << fault;
        for (const char letter : fault) {
            EXPECT_FALSE(static_cast<unsigned char>(letter) < 0x20U || letter == 0x7f) << fault;
        }
    }
}

}  // namespace
