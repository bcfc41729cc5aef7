// Bad scenario files: exit code 2, exactly one line of error, nothing written, nothing left behind.
#include <gtest/gtest.h>

#include <fstream>
#include <functional>
#include <string>
#include <vector>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::line_count;
using sim_test::replaced;
using sim_test::right_scenario;
using sim_test::run_program;
using sim_test::TemporaryFolder;

/// Runs `start` and `motor` on the path with every output asked for.
void expect_refused(const TemporaryFolder& folder, const std::string& path,
                    const std::string& in_sentence) {
    const std::set<std::string> before = folder.names();
    for (const bool to_files : {true, false}) {
        for (const std::string verb : {"start", "motor"}) {
            std::vector<std::string> arguments = {verb, path, "--json",
                                                  to_files ? folder / "result.json" : "-"};
            if (verb == "start" && to_files) {
                arguments.insert(arguments.end(), {"--trace", folder / "trace.csv"});
            }
            const sim_test::Outcome run = run_program(arguments);
            EXPECT_EQ(run.exit_code, 2) << verb << " " << path;
            EXPECT_EQ(run.output, "") << verb << " " << path;
            EXPECT_EQ(line_count(run.errors), 1) << run.errors;
            EXPECT_LT(run.errors.size(), 600U) << run.errors;
            EXPECT_NE(run.errors.find(in_sentence), std::string::npos)
                << in_sentence << " is not in: " << run.errors;
            EXPECT_EQ(folder.names(), before) << verb << " " << path;
        }
    }
}

TEST(BadInput, OfAFileThatIsNoScenarioIsRefused) {
    const TemporaryFolder folder;
    expect_refused(folder, folder / "missing.toml", "missing.toml");
    expect_refused(folder, folder.path(), folder.path());
    expect_refused(folder, folder.put("empty.toml", ""), "empty");
    expect_refused(folder, folder.put("blank.toml", "\n \n\t\n"), "empty");
    expect_refused(folder, folder.put("picture.toml", std::string("\x89PNG\0\x1a\xff\xfe", 8)),
                   "picture.toml");
    expect_refused(folder, "/dev/zero", "/dev/zero");
}

TEST(BadInput, OfAHundredMegabytesIsRefusedWithoutReadingThem) {
    const TemporaryFolder folder;
    const std::string path = folder / "huge.toml";
    {
        std::ofstream file(path, std::ios::binary);
        const std::string block(1 << 20, 'x');
        for (int k = 0; k < 100; ++k) {
            file << block;
        }
    }
    expect_refused(folder, path, "huge.toml");
}

TEST(BadInput, OfOneWrongValueNamesTheLineTheKeyAndWhatWouldDo) {
    struct Fault {
        const char* from;
        const char* to;
        const char* sentence;
    };
    const std::vector<Fault> faults = {
        {"main_resistance_ohm = 1.5", "main_resistance_ohm = -1.5",
         "faulty.toml:5: motor.main_resistance_ohm"},
        {"rated_frequency_Hz = 50", "rated_frequency_Hz = 400",
         "faulty.toml:4: motor.rated_frequency_Hz"},
        {"\nfrequency_Hz = 50", "\nfrequency_Hz = 400", "faulty.toml:25: source.frequency_Hz"},
        {"turns_ratio = 1.25", "turns_ratio = nan", "faulty.toml:9: motor.turns_ratio"},
        {"turns_ratio = 1.25", "turns_ratio = inf", "faulty.toml:9: motor.turns_ratio"},
        {"run_capacitor_uF = 30", "run_capacitor_uF = 0", "faulty.toml:14: motor.run_capacitor_uF"},
        {"poles = 4", "poles = \"four\"", "faulty.toml:2: motor.poles"},
        {"poles = 4", "poles = 5", "faulty.toml:2: motor.poles"},
        {"inertia_kg_m2 = 0.0075\n", "", "motor.inertia_kg_m2"},
        {"poles = 4", "poles = 4\npoles_pairs = 2", "faulty.toml:3: motor.poles_pairs"},
        {"kind = \"none\"", "kind = \"magic\"", "faulty.toml:30: limiter.kind"},
        {"[limiter]", "[limitter]", "did you mean [limiter]"},
        {"poles = 4", "poles = = 4", "faulty.toml:2"},
    };
    const TemporaryFolder folder;
    for (const Fault& fault : faults) {
        const std::string path =
            folder.put("faulty.toml", replaced(right_scenario(), fault.from, fault.to));
        expect_refused(folder, path, fault.sentence);
    }
}

TEST(BadInput, LeavesAnEarlierResultAlone) {
    const TemporaryFolder folder;
    const std::string result = folder.put("result.json", "yesterday's");
    const std::string path =
        folder.put("faulty.toml", replaced(right_scenario(), "poles = 4", "poles = 5"));
    EXPECT_EQ(run_program({"start", path, "--json", result}).exit_code, 2);
    EXPECT_EQ(folder.get("result.json"), "yesterday's");
}

TEST(BadInput, TheUnchangedScenarioWouldHaveBeenAccepted) {
    const TemporaryFolder folder;
    EXPECT_EQ(run_program({"motor", folder.put("right.toml", right_scenario())}).exit_code, 0);
}

}  // namespace
