// start --case and repeat --case: a single case of a suite, as in its campaign.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/start_json.hpp"
#include "suites/suite_text.hpp"

namespace {

using nlohmann::ordered_json;
using sim_test::line_count;
using sim_test::run_program;

const std::string tables =
    "[[spread]]\ngroup = \"luck\"\ninput = \"phase_deg\"\nkind = \"uniform\"\nlowest = 0\n"
    "highest = 360\n"
    "[[expectation]]\nname = \"tight\"\nat_most_line_current_peak_A = 1\n" +
    sim_test::one_pair(
        "settings = \"limiter\"\ndraws = 2\nspreads = \"luck\"\n"
        "[block.run]\nduration_s = 1\n",
        "starts") +
    sim_test::one_pair("settings = \"limiter\"\nstarts = 2\n[block.run]\nduration_s = 1\n",
                       "series") +
    sim_test::one_pair(
        "settings = \"limiter\"\nexpect = \"tight\"\n[block.run]\nduration_s = "
        "1\n",
        "too tight");

TEST(StartCase, IsToTheBitWhatTheCaseCameToByItself) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const sim_test::Outcome run = run_program({"start", "--case", path + "#1", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    ordered_json printed = ordered_json::parse(run.output);
    const sim::SuiteCase one = sim::read_suite(path)->case_at(1);
    EXPECT_EQ(printed["case"]["seed"], one.seed);
    EXPECT_EQ(printed["case"]["block"], "starts");
    EXPECT_EQ(printed["case"]["condition"], nullptr);
    EXPECT_EQ(printed["case"]["drawn"]["phase_deg"], one.drawn.at(0).value);
    EXPECT_EQ(printed["case"]["broken"], ordered_json::array());
    printed.erase("case");
    EXPECT_EQ(printed, sim::start_json(sim::run_start(one.scenario)));
    EXPECT_EQ(printed["scenario"], "mine#1");
}

TEST(StartCase, IsAnotherStartThanItsNeighbour) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    EXPECT_NE(run_program({"start", "--case", path + "#0", "--json", "-"}).output,
              run_program({"start", "--case", path + "#1", "--json", "-"}).output);
}

TEST(StartCase, WritesTraceAndPageAsAScenarioDoes) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const sim_test::Outcome run =
        run_program({"start", "--case", path + "#0", "--trace", folder / "trace.csv", "--page",
                     folder / "page.html", "--quiet"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_GT(line_count(folder.get("trace.csv")), 10000);
    EXPECT_NE(folder.get("page.html").find("cold_room_230v_50hz on house_grid_230v_50hz"),
              std::string::npos);
    EXPECT_NE(run.output.find("phase_deg"), std::string::npos) << run.output;
}

TEST(StartCase, ThatBreaksALimitSaysWhichAndExitsWithOne) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const sim_test::Outcome run = run_program({"start", "--case", path + "#3"});
    EXPECT_EQ(run.exit_code, 1);
    EXPECT_NE(run.output.find("limit:line_current_peak_A"), std::string::npos) << run.output;
    EXPECT_NE(run.output.find("Not as the suite wants it"), std::string::npos);
}

TEST(RepeatCase, IsTheWholeSeries) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const sim_test::Outcome run = run_program({"repeat", "--case", path + "#2", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    ordered_json printed = ordered_json::parse(run.output);
    const sim::SuiteCase one = sim::read_suite(path)->case_at(2);
    EXPECT_EQ(printed["case"]["id"], 2);
    printed.erase("case");
    EXPECT_EQ(printed, sim::repeat_json(sim::run_repeat(one.scenario, one.series)));
}

TEST(CaseOption, RefusesInOneSentenceWhatIsNoCase) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong = {
        {{"start", "--case", path}, "give a suite and a number"},
        {{"start", "--case", path + "#"}, "give a suite and a number"},
        {{"start", "--case", path + "#-1"}, "give a suite and a number"},
        {{"start", "--case", path + "#1x"}, "give a suite and a number"},
        {{"start", "--case", path + "#99999999999999999999"}, "give a suite and a number"},
        {{"start", "--case", path + "#4"}, "from 0 to 3"},
        {{"start", "--case", path + "#2"}, "give it to runup repeat"},
        {{"repeat", "--case", path + "#0"}, "give it to runup start"},
        {{"start", "--case", "smok#0"}, "did you mean smoke?"},
        {{"start", "--case", folder / "none.toml#0"}, "none.toml"},
        {{"start", "--case", path + "#0", path}, "--case"},
        {{"repeat", "--case", path + "#2", "--starts", "3"}, "--case"},
    };
    for (const auto& [arguments, words] : wrong) {
        const sim_test::Outcome run = run_program(arguments);
        EXPECT_EQ(run.exit_code, 2) << arguments[2];
        EXPECT_EQ(run.output, "");
        EXPECT_EQ(line_count(run.errors), 1) << run.errors;
        EXPECT_NE(run.errors.find(words), std::string::npos) << run.errors;
    }
}

TEST(CaseOption, FindsItsSuiteInAFileOfResults) {
    const sim_test::TemporaryFolder folder;
    const std::string path = folder.put("mine.toml", sim_test::suite_text(tables));
    const std::string results = folder / "mine.results";
    const sim_test::Outcome campaign =
        run_program({"regress", path, "--results", results, "--quiet"});
    EXPECT_EQ(campaign.exit_code, 1) << "one block is too tight\n" << campaign.errors;
    std::filesystem::remove(path);
    const sim_test::Outcome run = run_program({"start", "--case", results + "#1", "--json", "-"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    folder.put("mine.toml", sim_test::suite_text(tables));
    ordered_json from_results = ordered_json::parse(run.output);
    ordered_json from_suite =
        ordered_json::parse(run_program({"start", "--case", path + "#1", "--json", "-"}).output);
    from_results["case"].erase("suite");
    from_suite["case"].erase("suite");
    EXPECT_EQ(from_results, from_suite);
}

TEST(KeysCommand, PrintsEveryTableAndFigureOfASuite) {
    const sim_test::Outcome run = run_program({"keys", "suite"});
    EXPECT_EQ(run.exit_code, 0);
    for (const std::string word :
         {"[suite]", "[block]", "[spread]", "kind = \"log_normal\"", "run_capacitor_factor",
          "at_most_line_current_inrush_100ms_rms_A", "success_at_least_percent", "\"leave_out\""}) {
        EXPECT_NE(run.output.find(word), std::string::npos) << word;
    }
}

}  // namespace
