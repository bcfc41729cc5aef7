// Pages from the command line: start --page, repeat --page, lesson.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"
#include "scenario/scenario_text.hpp"

namespace {

using sim_test::bundled_path;
using sim_test::run_program;
using sim_test::TemporaryFolder;

TEST(PageOption, WritesOneFileBesideWhatIsPrinted) {
    const TemporaryFolder folder;
    const sim_test::Outcome run = run_program(
        {"start", bundled_path("hut_inverter"), "--also-direct", "--page", folder / "page.html"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_NE(run.output.find("DIRECT START"), std::string::npos);
    EXPECT_EQ(folder.names(), std::set<std::string>{"page.html"});
    EXPECT_EQ(folder.get("page.html").rfind("<!doctype html>", 0), 0U);
}

TEST(PageOption, GoesToStandardOutputAlone) {
    const sim_test::Outcome run =
        run_program({"start", bundled_path("reference_limited"), "--page", "-"});
    EXPECT_EQ(run.exit_code, 0);
    EXPECT_EQ(run.output.rfind("<!doctype html>", 0), 0U);
    EXPECT_EQ(run.output.substr(run.output.size() - 8), "</html>\n");
}

TEST(PageOption, SharesStandardOutputWithNothingElse) {
    const std::string file = bundled_path("reference_limited");
    for (const char* verb : {"start", "repeat", "explain", "size"}) {
        const sim_test::Outcome run = run_program({verb, file, "--json", "-", "--page", "-"});
        EXPECT_EQ(run.exit_code, 2) << verb;
        EXPECT_EQ(run.output, "") << verb;
        EXPECT_NE(run.errors.find("--json and --page: only one of them"), std::string::npos)
            << run.errors;
    }
}

TEST(PageOption, ShowsTheTitleOfAScenarioAsText) {
    const TemporaryFolder folder;
    const std::string text =
        "[scenario]\ntitle = \"<script>alert(1)</script>\"\n" + sim_test::right_scenario();
    run_program({"start", folder.put("odd.toml", text), "--page", folder / "page.html"});
    const std::string page = folder.get("page.html");
    EXPECT_EQ(page.find("<script>alert"), std::string::npos);
    EXPECT_NE(page.find("<h1>&lt;script&gt;alert(1)&lt;/script&gt;</h1>"), std::string::npos);
}

TEST(PageOption, ThatCannotBeWrittenEndsInExitCodeTwoBeforeTheRun) {
    for (const std::string verb : {"start", "repeat"}) {
        const sim_test::Outcome run = run_program(
            {verb, bundled_path("hut_inverter"), "--page", "/no/such/folder/page.html"});
        EXPECT_EQ(run.exit_code, 2) << verb;
        EXPECT_EQ(run.output, "") << verb;
        EXPECT_NE(run.errors.find("/no/such/folder/page.html"), std::string::npos) << run.errors;
    }
}

TEST(PageOption, OfASeriesShowsItsTable) {
    const TemporaryFolder folder;
    const sim_test::Outcome run =
        run_program({"repeat", bundled_path("reference_limited"), "--starts", "2", "--rest", "600",
                     "--page", folder / "page.html", "--quiet"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    const std::string page = folder.get("page.html");
    EXPECT_NE(page.find("<th scope=\"row\">2</th>"), std::string::npos);
    EXPECT_EQ(page.find("<th scope=\"row\">3</th>"), std::string::npos);
}

TEST(LessonCommand, WritesItsPagesAndLeavesEverythingElseAlone) {
    const TemporaryFolder folder;
    const std::string mine = folder.put("mine.html", "mine");
    folder.put("index.html", "an older index");
    const sim_test::Outcome run = run_program({"lesson", folder.path()});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_EQ(folder.names(),
              (std::set<std::string>{"mine.html", "index.html", "small_inverter.html",
                                     "locked_rotor.html", "short_rest.html", "reverse_scroll.html",
                                     "weak_capacitor.html", "learning.html"}));
    EXPECT_EQ(folder.get("mine.html"), "mine");
    EXPECT_EQ(folder.get("index.html").rfind("<!doctype html>", 0), 0U);
    EXPECT_NE(run.output.find("index.html"), std::string::npos);
}

TEST(LessonCommand, MakesAFolderThatIsNotThere) {
    const TemporaryFolder folder;
    const sim_test::Outcome run =
        run_program({"lesson", folder / "a/new/folder", "--quiet", "--json", folder / "list.json"});
    EXPECT_EQ(run.exit_code, 0) << run.errors;
    EXPECT_EQ(run.output, "");
    EXPECT_NE(folder.get("a/new/folder/learning.html"), "");
    const auto list = nlohmann::json::parse(folder.get("list.json"));
    EXPECT_EQ(list["schema"], "runup.lesson/1");
    EXPECT_EQ(list["lessons"].size(), 6U);
    for (const auto& lesson : list["lessons"]) {
        EXPECT_EQ(lesson["as_expected"], true) << lesson;
    }
}

TEST(LessonCommand, WhereAFileStandsEndsInExitCodeTwoAndOneSentence) {
    const TemporaryFolder folder;
    const sim_test::Outcome run = run_program({"lesson", folder.put("taken", "a file")});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.output, "");
    EXPECT_EQ(sim_test::line_count(run.errors), 1);
    EXPECT_NE(run.errors.find("taken"), std::string::npos);
    EXPECT_EQ(folder.get("taken"), "a file");
}

TEST(LessonCommand, HasHelpWithAnExample) {
    const sim_test::Outcome help = run_program({"lesson", "--help"});
    EXPECT_EQ(help.exit_code, 0);
    EXPECT_NE(help.output.find("Example: runup lesson lessons"), std::string::npos);
}

}  // namespace
