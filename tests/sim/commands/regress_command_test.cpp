// runup regress and runup merge, as typed.
#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "commands/program.hpp"
#include "files/temporary_folder.hpp"

namespace {

using sim_test::Outcome;
using sim_test::run_program;
using sim_test::TemporaryFolder;

/// Short starts on every supply that fits the unit; whoever reads it says how they should end.
std::string short_suite(const std::string& outcome, int draws = 1) {
    return R"([suite]
title = "Short starts"
seed = 5

[[spread]]
group = "call"
input = "phase_deg"
kind = "uniform"
lowest = 0
highest = 360

[[expectation]]
name = "wanted"
outcome = ")" +
           outcome + R"("

[[block]]
name = "short"
compressors = ["cold_room_230v_50hz"]
supplies = "fitting"
settings = "limiter"
spreads = ["call"]
expect = "wanted"
draws = )" +
           std::to_string(draws) + "\n[block.run]\nduration_s = 0.1\n";
}

class RegressCommand : public ::testing::Test {
  protected:
    Outcome regress(const std::string& suite, std::vector<std::string> more) {
        std::vector<std::string> words{"regress", suite};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    }
    const TemporaryFolder folder;
    const std::string fitting = folder.put("fitting.toml", short_suite("stalled"));
    const std::string unfit = folder.put("unfit.toml", short_suite("running"));
};

TEST_F(RegressCommand, ExitsWithZeroIfAllIsAsExpectedAndWithOneIfNot) {
    const Outcome good = regress(fitting, {"--results", folder / "good", "--quiet"});
    EXPECT_EQ(good.exit_code, 0) << good.output << good.errors;
    EXPECT_EQ(good.output.rfind("fitting: As expected: ", 0), 0U) << good.output;
    EXPECT_EQ(good.errors, "");
    const Outcome bad = regress(unfit, {"--results", folder / "bad"});
    EXPECT_EQ(bad.exit_code, 1);
    EXPECT_NE(bad.output.find("Rerun one: runup start --case " + unfit + "#0\n"), std::string::npos)
        << bad.output;
}

TEST_F(RegressCommand, WhatItSaysOfACaseIsWhatStartSaysOfIt) {
    const Outcome all = regress(unfit, {"--results", folder / "all", "--json", "-"});
    const auto json = nlohmann::json::parse(all.output);
    const std::string words = json["first_failed"][1]["words"];
    const std::string id = std::to_string(json["first_failed"][1]["case"].get<int>());
    const Outcome alone = run_program({"start", "--case", unfit + "#" + id});
    EXPECT_EQ(alone.exit_code, 1);
    EXPECT_NE(alone.output.find(words), std::string::npos) << words << "\n" << alone.output;
}

TEST_F(RegressCommand, JsonStandsAloneOnStandardOutput) {
    const Outcome run = regress(fitting, {"--results", folder / "a", "--json", "-"});
    const auto json = nlohmann::json::parse(run.output);
    EXPECT_EQ(json["schema"], "runup.regress/1");
    EXPECT_EQ(json["as_expected"], true);
    EXPECT_EQ(json["success"]["passed"], json["cases"]);
}

TEST_F(RegressCommand, ShardsMergeToTheBytesOfOneRun) {
    regress(unfit, {"--results", folder / "whole", "--jobs", "1"});
    std::vector<std::string> merge{"merge", "--results", folder / "merged", "--quiet"};
    for (const std::string index : {"2", "1", "3"}) {
        const std::string part = folder / "part" + index;
        EXPECT_EQ(regress(unfit, {"--results", part, "--shard", index + "/3"}).exit_code, 1);
        merge.push_back(part);
    }
    const Outcome merged = run_program(merge);
    EXPECT_EQ(merged.exit_code, 1) << merged.errors;
    EXPECT_TRUE(folder.get("merged") == folder.get("whole"));
    merge.pop_back();
    EXPECT_EQ(run_program(merge).exit_code, 2);
}

TEST_F(RegressCommand, KeepsWhatIsDoneWhenInterruptedAndSaysHowToGoOn) {
    const std::string many = folder.put("many.toml", short_suite("stalled", 3000));
    const std::string results = folder / "many.results";
    const std::vector<std::string> words{"regress", many, "--results", results, "--quiet"};
    const Outcome stopped = run_program(words, {}, [&results](int process) {
        while (!std::filesystem::exists(results)) {
        }
        ::kill(process, SIGINT);
    });
    EXPECT_EQ(stopped.exit_code, 1);
    EXPECT_NE(stopped.output.find("many: Not finished: "), std::string::npos) << stopped.output;
    EXPECT_EQ(stopped.errors, "Stopped; what is done is kept. Go on with: runup regress " + many +
                                  " --results " + results + " --resume\n");
    EXPECT_EQ(run_program(words).exit_code, 2) << "not begun anew unasked";
    EXPECT_EQ(regress(unfit, {"--results", results, "--resume"}).exit_code, 2);
}

TEST_F(RegressCommand, RefusesShardsThatAreNoneInOneSentence) {
    for (const std::string shard : {"0/3", "4/3", "1", "1/", "-1/2", "a/b", "9999999/9999999"}) {
        const Outcome run = regress(fitting, {"--shard=" + shard, "--results", folder / "a"});
        EXPECT_EQ(run.exit_code, 2) << shard;
        EXPECT_EQ(run.errors, "regress: --shard: '" + shard +
                                  "' is not accepted; give a number and how many there are, from "
                                  "1/1 to 100000/100000, as in 2/5\n");
        EXPECT_EQ(folder.names().count("a"), 0U);
    }
    const Outcome both =
        regress(fitting, {"--shard", "1/2", "--until", "5", "--results", folder / "a"});
    EXPECT_EQ(both.exit_code, 2);
    EXPECT_EQ(both.errors,
              "regress: --until: no shard knows the rate of the whole; leave out --until or "
              "--shard\n");
}

TEST(VersionOption, NamesTheBuild) {
    const Outcome version = run_program({"--version"});
    EXPECT_EQ(version.exit_code, 0);
    EXPECT_EQ(version.output.rfind("runup 0.", 0), 0U) << version.output;
    EXPECT_NE(version.output.find('+'), std::string::npos);
}

}  // namespace
