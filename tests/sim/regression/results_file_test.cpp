// The results file: what was written is read, and nothing else is taken for one.
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/output_error.hpp"
#include "sim/regression/results_reader.hpp"
#include "sim/regression/results_schema.hpp"
#include "sim/regression/working_results.hpp"

namespace {

using sim::CampaignRow;
using sim::CaseRecord;
using sim::Database;
using sim::ExistingFile;
using sim::ResultsReader;
using sim::StartRow;
using sim::WorkingResults;
using sim_test::TemporaryFolder;

const std::vector<std::string> figures{"peak_A", "time_s"};

CampaignRow some_campaign() {
    CampaignRow campaign;
    campaign.schema = 1;
    campaign.suite = "night";
    campaign.title = "All of it; with 'quotes'";
    campaign.suite_text = "a = 1\n";
    campaign.suite_hash = "1234";
    campaign.build = "0.1.0+abc";
    campaign.cases = 3;
    return campaign;
}

CaseRecord some_case(std::int64_t id) {
    CaseRecord record;
    record.id = id;
    record.place = {"block", "unit", "supply", "cold", "", "x'y"};
    record.seed = 4000000000U;
    record.scenario_hash = "s";
    record.settings_hash = "t";
    record.inputs = {{"ambient_C", -10.0}, {"voltage_V", 231.25}};
    StartRow first;
    first.outcome = "running";
    first.expected = "running";
    first.passed = true;
    first.figures = {12.5, std::nullopt};
    StartRow second;
    second.start = 2;
    second.outcome = "stalled";
    second.cause = "rotor_never_turned";
    second.expected = "running";
    second.figures = {std::nullopt, 0.25};
    second.broken = {{"limit:peak_A", "too much"}, {"outcome", "stalled"}};
    record.starts = {first, second};
    return record;
}

void write_some(const std::string& path) {
    WorkingResults results(path, some_campaign(), figures, ExistingFile::refuse);
    for (const std::int64_t id : {2, 0, 1}) {
        results.put(some_case(id));
    }
    results.finish();
}

std::string refusal(const std::function<void()>& call) {
    try {
        call();
    } catch (const sim::InputError& error) {
        return error.what();
    } catch (const sim::OutputError& error) {
        return std::string("output ") + error.what();
    }
    return "nothing was refused";
}

TEST(ResultsFile, HoldsWhatWasWritten) {
    const TemporaryFolder folder;
    write_some(folder / "a.results");
    const ResultsReader reader(folder / "a.results");
    EXPECT_EQ(reader.campaign().title, "All of it; with 'quotes'");
    EXPECT_EQ(reader.campaign().suite_text, "a = 1\n");
    EXPECT_EQ(reader.campaign().cases, 3);
    EXPECT_TRUE(reader.campaign().finished);
    EXPECT_EQ(reader.figures(), figures);
    EXPECT_EQ(reader.place_of("time_s"), 1U);
    EXPECT_FALSE(reader.place_of("time"));
    std::vector<std::int64_t> ids;
    reader.each_case([&ids](const CaseRecord& record) {
        ids.push_back(record.id);
        EXPECT_EQ(record.place.setting, "x'y");
        EXPECT_EQ(record.seed, 4000000000U);
        EXPECT_EQ(record.inputs.size(), 2U);
        EXPECT_EQ(record.inputs[1].value, 231.25);
        ASSERT_EQ(record.starts.size(), 2U);
        EXPECT_TRUE(record.starts[0].passed);
        EXPECT_EQ(record.starts[0].figures[0], 12.5);
        EXPECT_FALSE(record.starts[0].figures[1]);
        EXPECT_TRUE(record.starts[0].broken.empty());
        EXPECT_EQ(record.starts[1].cause, "rotor_never_turned");
        ASSERT_EQ(record.starts[1].broken.size(), 2U);
        EXPECT_EQ(record.starts[1].broken[0].requirement, "limit:peak_A");
        EXPECT_FALSE(record.passed());
    });
    EXPECT_EQ(ids, (std::vector<std::int64_t>{0, 1, 2}));
    EXPECT_EQ(reader.case_of(1)->id, 1);
    EXPECT_EQ(reader.case_of(1)->starts[1].broken.size(), 2U);
    EXPECT_FALSE(reader.case_of(3));
    EXPECT_EQ(folder.names(), (std::set<std::string>{"a.results"}));
}

TEST(ResultsFile, CannotBeChangedThroughItsReader) {
    const TemporaryFolder folder;
    write_some(folder / "a.results");
    const ResultsReader reader(folder / "a.results");
    EXPECT_THROW(reader.database().run("DELETE FROM cases"), sim::InputError);
    EXPECT_EQ(reader.case_count(), 3);
}

TEST(ResultsFile, CanBeReadWhileItIsBeingWritten) {
    const TemporaryFolder folder;
    WorkingResults results(folder / "a.results", some_campaign(), figures, ExistingFile::refuse);
    results.put(some_case(1));
    results.keep();
    results.put(some_case(2));
    const ResultsReader reader(folder / "a.results");
    EXPECT_FALSE(reader.campaign().finished);
    EXPECT_EQ(reader.case_count(), 1);
}

TEST(ResultsFile, IsWrittenByOneCampaignAtATime) {
    const TemporaryFolder folder;
    const std::string path = folder / "a.results";
    const WorkingResults results(path, some_campaign(), figures, ExistingFile::refuse);
    EXPECT_EQ(refusal([&] { WorkingResults(path, some_campaign(), figures, ExistingFile::go_on); }),
              "output " + path +
                  ": another campaign is writing it; wait for its end or name another file");
}

TEST(ResultsFile, OtherFilesAreRefusedInOneSentence) {
    const TemporaryFolder folder;
    const std::string none = "this is no file of results; give one that runup regress wrote";
    const std::string text = folder.put("text", std::string(5000, 'x'));
    EXPECT_EQ(refusal([&] { ResultsReader{text}; }), text + ": " + none);
    const std::string empty = folder.put("empty", "");
    EXPECT_EQ(refusal([&] { ResultsReader{empty}; }), empty + ": " + none);
    Database(folder / "database", Database::Access::change).run("CREATE TABLE cases (id INTEGER)");
    EXPECT_EQ(refusal([&] { ResultsReader{folder / "database"}; }), folder / "database: " + none);
    EXPECT_EQ(refusal([&] { ResultsReader{folder / "missing"}; }),
              folder / "missing: there is no such file; give a file that can be read");
    EXPECT_EQ(refusal([&] { ResultsReader{folder.path()}; }),
              folder.path() + ": this is a folder; give a file that can be read");
    write_some(folder / "later");
    Database(folder / "later", Database::Access::change).run("UPDATE campaign SET schema = 2");
    EXPECT_EQ(refusal([&] { ResultsReader{folder / "later"}; }),
              folder / "later: its results are of version 2; give one of version 1");
}

TEST(ResultsFile, NothingIsWrittenOverThatHoldsNoResults) {
    const TemporaryFolder folder;
    const std::string letter = folder.put("letter", std::string(5000, 'x'));
    for (const ExistingFile existing :
         {ExistingFile::refuse, ExistingFile::go_on, ExistingFile::overwrite}) {
        EXPECT_EQ(refusal([&] { WorkingResults(letter, some_campaign(), figures, existing); }),
                  letter + ": this is no file of results; give one that runup regress wrote");
    }
    EXPECT_EQ(folder.get("letter"), std::string(5000, 'x'));
}

TEST(ResultsFile, WhatAnotherCampaignWroteIsRefusedWithTheDifference) {
    const TemporaryFolder folder;
    const std::string path = folder / "a.results";
    write_some(path);
    const std::string before = folder.get("a.results");
    const auto refused = [&](ExistingFile existing, const auto& change) {
        CampaignRow other = some_campaign();
        change(other);
        return refusal([&] { WorkingResults(path, other, figures, existing); });
    };
    const auto another_suite = [](CampaignRow& row) {
        row.suite = "smoke";
        row.suite_text = "b = 1\n";
    };
    const auto another_text = [](CampaignRow& row) { row.suite_text = "a = 2\n"; };
    const auto another_build = [](CampaignRow& row) { row.build = "0.1.0+def"; };
    const auto another_shard = [](CampaignRow& row) { row.shard_total = 4; };
    EXPECT_EQ(refused(ExistingFile::go_on, another_suite),
              path + ": --resume: it holds suite night, not smoke; give another --results FILE");
    EXPECT_EQ(refused(ExistingFile::go_on, another_text),
              path +
                  ": --resume: it holds suite night as it was before a change; give another "
                  "--results FILE");
    EXPECT_EQ(refused(ExistingFile::go_on, another_build),
              path +
                  ": --resume: it holds results of build 0.1.0+abc, and this is build "
                  "0.1.0+def; give another --results FILE");
    EXPECT_EQ(refused(ExistingFile::go_on, another_shard),
              path + ": --resume: it holds shard 1/1, not 1/4; give another --results FILE");
    EXPECT_EQ(refused(ExistingFile::refuse, another_build),
              path +
                  ": --results: it holds results of build 0.1.0+abc, and this is build "
                  "0.1.0+def; give another --results FILE, or --overwrite");
    EXPECT_EQ(folder.get("a.results"), before);
    EXPECT_EQ(refused(ExistingFile::overwrite, another_build), "nothing was refused");
    EXPECT_EQ(ResultsReader(path).campaign().build, "0.1.0+def");
}

TEST(ResultsFile, ABeginningIsNotThrownAwayUnasked) {
    const TemporaryFolder folder;
    const std::string path = folder / "a.results";
    {
        WorkingResults results(path, some_campaign(), figures, ExistingFile::refuse);
        results.put(some_case(1));
        results.keep();
    }
    EXPECT_EQ(
        refusal([&] { WorkingResults(path, some_campaign(), figures, ExistingFile::refuse); }),
        path +
            ": --results: it holds the beginning of this campaign; go on with --resume, "
            "or begin anew with --overwrite");
    const WorkingResults results(path, some_campaign(), figures, ExistingFile::go_on);
    ASSERT_EQ(results.known().size(), 1U);
    EXPECT_EQ(results.known()[0].id, 1);
    EXPECT_FALSE(results.known()[0].passed);
}

TEST(ResultsFile, AFileThatABegunCampaignLeftEmptyIsNone) {
    const TemporaryFolder folder;
    const std::string path = folder.put("a.results", "");
    WorkingResults results(path, some_campaign(), figures, ExistingFile::go_on);
    EXPECT_TRUE(results.known().empty());
}

TEST(ResultsFile, KeepsItsPlaceBehindALink) {
    const TemporaryFolder folder;
    write_some(folder / "a.results");
    ASSERT_EQ(::symlink((folder / "a.results").c_str(), (folder / "link").c_str()), 0);
    write_some(folder / "link");
    EXPECT_EQ(folder.names(), (std::set<std::string>{"a.results", "link"}));
    EXPECT_EQ(folder.get("a.results"), folder.get("link"));
}

}  // namespace
