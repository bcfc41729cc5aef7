// Suites that cannot be what somebody wanted: one sentence, with file, line and key.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "suites/suite_text.hpp"

namespace {

using sim_test::one_pair;

std::string fault_of(const std::string& text) {
    try {
        sim::suite_from_text(text, "test.toml");
        return "read";
    } catch (const sim::InputError& error) {
        return error.what();
    }
}

struct Wrong {
    std::string tables;
    std::string begin;  ///< of the message
    std::string holds;  ///< what would be accepted
};

void expect_refused(const std::vector<Wrong>& all) {
    for (const Wrong& wrong : all) {
        const std::string fault = fault_of(sim_test::suite_text(wrong.tables));
        EXPECT_EQ(fault.rfind(wrong.begin, 0), 0U) << fault << "\nfor\n" << wrong.tables;
        EXPECT_NE(fault.find(wrong.holds), std::string::npos) << fault;
        EXPECT_EQ(fault.find('\n'), std::string::npos) << fault;
    }
}

TEST(SuiteRefusal, NamesLineAndKeyOfAWrongKey) {
    expect_refused({
        {one_pair("draw = 3\n"), "test.toml:8: block.draw: ", "did you mean draws?"},
        {one_pair("draws = 0\n"), "test.toml:8: block.draws: ", "a whole number from 1 to"},
        {one_pair("draws = 2.5\n"), "test.toml:8: block.draws: ", "a whole number from 1 to"},
        {one_pair("settings = 3\n"), "test.toml:8: block.settings: ", "a name or a list of"},
        {one_pair("settings = []\n"), "test.toml:8: block.settings: ", "a name or a list of"},
        {one_pair("fault_at_s = 0.3\n"), "test.toml:8: block.fault_at_s: ", "a list of"},
        {one_pair("misfits = \"drop\"\n"), "test.toml:8: block.misfits: ", "\"leave_out\""},
        {one_pair("success_at_least_percent = 101\n"),
         "test.toml:8: block.success_at_least_percent: ", "from 0 to 100"},
        {"[[blocks]]\nname = \"x\"\n", "test.toml:4: blocks: ", "did you mean block?"},
        {"[block]\nname = \"x\"\n", "test.toml:4: block: ", "give [[block]]"},
        {"block = 3\n", "test.toml:4: suite.block: ", "unknown key"},
        {"[[expectation]]\nname = \"x\"\nat_most_line_current = 3\n",
         "test.toml:6: expectation.at_most_line_current: ", "did you mean"},
        {"[[expectation]]\nname = \"x\"\noutcome = \"runing\"\n",
         "test.toml:6: expectation: outcome holds \"runing\"", "stalled"},
        {"[[expectation]]\nname = \"x\"\nat_least_tries_count = 3\nat_most_tries_count = 2\n",
         "test.toml:6: expectation: at_least_tries_count is above", "lower one first"},
        {"[[spread]]\ngroup = \"g\"\nkind = \"fixed\"\nvalue = 1\n",
         "test.toml:4: spread.input: this key is missing; give \"", "(what is drawn)"},
        {"[[spread]]\ngroup = \"g\"\ninput = \"ambient_C\"\nkind = \"gaussian\"\n",
         "test.toml:7: spread.kind: ", "\"log_normal\""},
        {"[[spread]]\ngroup = \"g\"\ninput = \"ambient\"\nkind = \"fixed\"\nvalue = 3\n",
         "test.toml:6: spread.input: ", "did you mean \"ambient_C\"?"},
        {"[[spread]]\ngroup = \"g\"\ninput = \"ambient_C\"\nkind = \"uniform\"\nlowest = 20\n"
         "highest = 10\n",
         "test.toml:8: spread: lowest and highest must rise", "give them so"},
        {"[[spread]]\ngroup = \"g\"\ninput = \"ambient_C\"\nkind = \"uniform\"\nlowest = 20\n"
         "highest = 70\n",
         "test.toml:8: spread: lowest and highest of ambient_C", "from -40 to 60"},
        {"[[setting]]\nname = \"s\"\n[setting.limiter]\nkind = \"builtin\"\nlook = 3\n" +
             one_pair("settings = \"s\"\n"),
         "test.toml:8: limiter.look: ", "did you mean look_ahead_half_cycles?"},
        {"[[setting]]\nname = \"s\"\n[setting.limter]\nkind = \"builtin\"\n",
         "test.toml:6: limter: ", "did you mean [limiter]?"},
        {"[[setting]]\nname = \"s\"\n[setting.expect]\noutcome = \"stalled\"\n",
         "test.toml:6: expect: ", "leave this table out"},
        {"[[enclosed]]\nname = 3\n", "test.toml:4: enclosed: ", "give name and text"},
    });
}

TEST(SuiteRefusal, NamesTheLineOfANameThatStandsForNothing) {
    expect_refused({
        {one_pair("settings = \"limited\"\n"),
         "test.toml:8: block.settings: ", "did you mean limiter?"},
        {one_pair("conditions = \"cold\"\n"),
         "test.toml:8: block.conditions: ", "this file has no such table"},
        {one_pair("faults = \"rotor_seised\"\n"),
         "test.toml:8: block.faults: ", "did you mean rotor_seized?"},
        {one_pair("faults = [\"none\", \"none\"]\n"),
         "test.toml:8: block.faults: ", "is there twice"},
        {one_pair("faults = [\"rotor\", \"rotor_seized\"]\n"),
         "test.toml:8: block.faults: ", "is there twice"},
        {one_pair("expect = \"up\"\n"), "test.toml:8: block.expect: ", "it has none"},
        {one_pair("spreads = \"weather\"\n"), "test.toml:8: block.spreads: ", "the group of no"},
        {one_pair("scenario = \"hut\"\n"), "test.toml:8: block.scenario: ", "none that is bundled"},
        {one_pair("scenario = \"hut_invertr\"\n"),
         "test.toml:8: block.scenario: ", "did you mean hut_inverter?"},
        {one_pair("scenario = \"mine.toml\"\n"),
         "test.toml:8: block.scenario: ", "is not enclosed"},
        {"[[block]]\nname = \"x\"\ncompressors = \"cold_rom_230v_50hz\"\n",
         "test.toml:6: block.compressors: ", "did you mean cold_room_230v_50hz?"},
        {"[[block]]\nname = \"x\"\n", "test.toml:4: motor: this table is missing", "[motor]"},
        {"[[block]]\nname = \"x\"\ncompressors = \"cold_room_230v_50hz\"\n",
         "test.toml:4: source: this table is missing", "[source]"},
        {one_pair("") + one_pair(""), "test.toml:9: block.name: ", "give another name"},
        {one_pair("setting = 3\n"), "test.toml:8: block.setting: ", "did you mean settings?"},
        {"[[block]]\nname = \"x\"\ncompressors = \"all\"\nsupplies = \"all\"\nmisfits = "
         "\"leave_out\"\nfaults = \"single\"\nfault_at_s = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]\n",
         "test.toml:4: block: this matrix has more than", "split the block"},
    });
}

TEST(SuiteRefusal, TellsACompressorFromASupplyThatItDoesNotFit) {
    expect_refused({
        {"[[block]]\nname = \"x\"\ncompressors = \"cold_room_230v_50hz\"\nsupplies = "
         "\"house_service_240v_60hz\"\n",
         "test.toml:7: block.supplies: cold_room_230v_50hz on house_service_240v_60hz has 240 V, "
         "60 Hz and the motor 230 V, 50 Hz",
         "\"fitting\""},
        {"[[block]]\nname = \"x\"\ncompressors = \"cold_room_230v_50hz\"\nsupplies = "
         "\"house_service_240v_60hz\"\nmisfits = \"leave_out\"\n",
         "test.toml:4: block: no cell of this matrix is left", "go together"},
        {one_pair("faults = \"start_contact_stuck_in\"\n"),
         "test.toml:8: block.faults: ", "the unit lacks the part"},
    });
}

TEST(SuiteRefusal, OfNothingAtAllSaysWhatASuiteIs) {
    EXPECT_EQ(fault_of(" \n").rfind("test.toml: the file is empty; give a suite", 0), 0U);
    EXPECT_EQ(fault_of("[[block]]\nname = \"x\"\nscenario = \"hut_inverter\"\n")
                  .rfind("test.toml: suite: this table is missing", 0),
              0U);
    EXPECT_EQ(fault_of("[suite]\ntitle = \"x\"\n").rfind("test.toml: block: this suite has no", 0),
              0U);
    EXPECT_EQ(fault_of("[suite]\nseed = 3\n").rfind("test.toml:1: suite.title: this key is", 0),
              0U);
    EXPECT_EQ(fault_of("[suite").rfind("test.toml:1: this is not valid TOML", 0), 0U);
}

TEST(SuiteRefusal, OfSuitesThatTakeEachOtherInEndsAtOnce) {
    const sim_test::TemporaryFolder folder;
    const std::string one =
        folder.put("one.toml", sim_test::suite_text("include = \"two.toml\"\n"));
    folder.put("two.toml", sim_test::suite_text("include = \"one.toml\"\n"));
    try {
        sim::read_suite(one);
        FAIL();
    } catch (const sim::InputError& error) {
        EXPECT_NE(std::string(error.what()).find("takes itself in again"), std::string::npos)
            << error.what();
    }
}

TEST(SuiteRefusal, PointsIntoTheFileThatIsWrong) {
    const sim_test::TemporaryFolder folder;
    const std::string suite = folder.put(
        "suite.toml", sim_test::suite_text("[[block]]\nname = \"x\"\nscenario = \"own.toml\"\n"));
    folder.put("own.toml", "[run]\nduration_s = -1\n");
    try {
        sim::read_suite(suite);
        FAIL();
    } catch (const sim::InputError& error) {
        EXPECT_EQ(std::string(error.what()).rfind(folder / "own.toml:2: run.duration_s: ", 0), 0U)
            << error.what();
    }
}

TEST(SuiteRefusal, OfACaseNamesTheNumbersThatThereAre) {
    const auto suite = sim_test::suite_of(one_pair("draws = 4\n"));
    EXPECT_EQ(suite->case_count(), 4);
    EXPECT_NO_THROW(suite->case_at(3));
    for (const std::int64_t id : {std::int64_t{-1}, std::int64_t{4}}) {
        try {
            suite->case_at(id);
            FAIL();
        } catch (const sim::InputError& error) {
            EXPECT_NE(std::string(error.what()).find("from 0 to 3"), std::string::npos);
        }
    }
}

TEST(SuiteRefusal, OfADrawThatLeavesTheBoundsOfATableNamesTheCase) {
    const auto suite = sim_test::suite_of(
        "[[spread]]\ngroup = \"g\"\ninput = \"run_capacitor_factor\"\nkind = \"fixed\"\n"
        "value = 2\n" +
        one_pair("spreads = \"g\"\n[block.motor]\nrun_capacitor_uF = 450\n"));
    // The bundled compressor replaces the block's own motor, so this one is in bounds.
    EXPECT_EQ(suite->case_at(0).scenario.motor.run_capacitor_uF, 50.0);
    const auto wild = sim_test::suite_of(
        "[[spread]]\ngroup = \"g\"\ninput = \"run_capacitor_factor\"\nkind = \"fixed\"\n"
        "value = 2\n[[condition]]\nname = \"big\"\n[condition.motor]\nrun_capacitor_uF = 450\n" +
        one_pair("spreads = \"g\"\nconditions = \"big\"\n"));
    try {
        wild->case_at(0);
        FAIL();
    } catch (const sim::InputError& error) {
        EXPECT_NE(std::string(error.what()).find("run_capacitor_uF would become 900"),
                  std::string::npos)
            << error.what();
    }
}

}  // namespace
