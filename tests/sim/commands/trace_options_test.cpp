// --trace, --trace-format and --watch, end to end.
#include <gtest/gtest.h>

#include <set>
#include <string>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "recorder/comtrade_reader.hpp"
#include "recorder/traced_start.hpp"
#include "recorder/vcd_reader.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::Outcome;
using sim_test::run_program;
using sim_test::TemporaryFolder;

const std::string limited = bundled_path("reference_limited");

TEST(TraceOptions, WriteSeveralTracesOfOneRunByTheirEndings) {
    const TemporaryFolder folder;
    const Outcome run =
        run_program({"start", limited, "--quiet", "--trace", folder / "a.csv", "--trace",
                     folder / "b.VCD", "--trace", folder / "c.dat", "--trace", folder / "d.cff"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_EQ(folder.names(), (std::set<std::string>{"a.csv", "b.VCD", "c.cfg", "c.dat", "d.cff"}));
    const sim_test::CsvColumns csv(folder.get("a.csv"));
    EXPECT_EQ(sim_test::read_vcd(folder.get("b.VCD")).end,
              static_cast<std::int64_t>(100 * (csv.rows - 1)));
    const auto pair = sim_test::read_comtrade(folder.get("c.cfg"), folder.get("c.dat"));
    EXPECT_EQ(pair.times.size(), csv.rows);
    EXPECT_EQ(sim_test::read_single_file(folder.get("d.cff")).values, pair.values);
}

TEST(TraceOptions, FollowTheFormatThatWasAskedForWhateverTheEnding) {
    const TemporaryFolder folder;
    const Outcome vcd = run_program(
        {"start", limited, "--trace", "-", "--trace-format", "vcd", "--watch", "sequence.state"});
    EXPECT_EQ(vcd.exit_code, 0);
    EXPECT_EQ(sim_test::read_vcd(vcd.output).signals.count("watch.sequence.state"), 1U);
    const Outcome wide = run_program({"start", limited, "--quiet", "--trace", folder / "wide.csv",
                                      "--trace-format", "comtrade-32"});
    EXPECT_EQ(wide.exit_code, 0);
    EXPECT_EQ(sim_test::read_comtrade(folder.get("wide.csv.cfg"), folder.get("wide.csv.dat")).type,
              "BINARY32");
}

TEST(TraceOptions, AreTheSameBytesEachTime) {
    const TemporaryFolder folder;
    for (const std::string name : {"one", "two"}) {
        run_program({"start", limited, "--quiet", "--trace", folder / (name + ".vcd"), "--trace",
                     folder / (name + ".cfg")});
    }
    EXPECT_EQ(folder.get("one.vcd"), folder.get("two.vcd"));
    EXPECT_EQ(folder.get("one.cfg"), folder.get("two.cfg"));
    EXPECT_EQ(folder.get("one.dat"), folder.get("two.dat"));
}

TEST(TraceOptions, PutWhatIsWatchedIntoTheTrace) {
    const TemporaryFolder folder;
    const Outcome run = run_program({"start", limited, "--quiet", "--trace", folder / "t.csv",
                                     "--watch", "run_up.rise_permille,sequence.state"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    const sim_test::CsvColumns csv(folder.get("t.csv"));
    EXPECT_EQ(csv.names[csv.names.size() - 2], "run_up.rise_permille");
    EXPECT_EQ(csv.columns.at("sequence.state"), csv.columns.at("controller_state"));
    // A rotor that came up has raised the voltage at S.
    EXPECT_GT(csv.number("run_up.rise_permille", csv.rows - 1), 1500.0);
}

TEST(TraceOptions, ListWhatCanBeWatchedWithItsMeaning) {
    const Outcome run = run_program({"start", limited, "--watch", "list"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_GT(sim_test::line_count(run.output), 150);
    EXPECT_NE(run.output.find("\nsequence.state "), std::string::npos);
    EXPECT_NE(run.output.find("number of the state"), std::string::npos);
}

TEST(TraceOptions, ThatCannotBeMetEndInExitCodeTwoAndOneSentence) {
    const TemporaryFolder folder;
    const std::string trace = folder / "t.csv";
    const auto refused = [](const std::vector<std::string>& arguments, const std::string& words) {
        const Outcome run = run_program(arguments);
        EXPECT_EQ(run.exit_code, 2) << words;
        EXPECT_EQ(run.output, "") << words;
        EXPECT_EQ(sim_test::line_count(run.errors), 1) << run.errors;
        EXPECT_NE(run.errors.find(words), std::string::npos) << run.errors;
    };
    refused({"start", limited, "--trace", trace, "--watch", "sequence.stat"},
            "did you mean sequence.state?");
    refused({"start", limited, "--watch", "sequence.state"}, "give --trace FILE, too");
    refused({"start", bundled_path("reference_direct"), "--trace", trace, "--watch", "line"},
            "a direct start has no controller to watch");
    refused({"start", bundled_path("reference_direct"), "--watch", "list"},
            "a direct start has no controller to watch");
    refused({"start", limited, "--trace", trace, "--trace-format", "xml"}, "--trace-format");
    refused({"start", limited, "--trace", "-", "--trace-format", "comtrade"},
            "COMTRADE is two files");
    refused({"start", limited, "--trace", "-", "--json", "-"}, "only one of them");
    refused({"start", limited, "--trace", "-", "--trace", "-"}, "only one of them");
    refused({"start", limited, "--trace", folder / "no/t.cfg"}, "no such folder");
    EXPECT_EQ(folder.names(), std::set<std::string>());
}

TEST(TraceOptions, PauseOnlyInADebugger) {
    const Outcome paused = run_program({"start", limited, "--pause-at-tick", "1000"});
    EXPECT_EQ(paused.exit_code, 0);
    EXPECT_EQ(paused.output, run_program({"start", limited}).output);
    EXPECT_EQ(run_program({"start", limited, "--pause-at-tick", "-1"}).exit_code, 2);
}

}  // namespace
