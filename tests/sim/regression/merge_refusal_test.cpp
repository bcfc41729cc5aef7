// Shards that make no whole.
#include <gtest/gtest.h>

#include "files/temporary_folder.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/database.hpp"
#include "sim/regression/merged_results.hpp"
#include "small_suite.hpp"

namespace {

using sim_test::plan_for;
using sim_test::SmallSuite;
using sim_test::TemporaryFolder;

class MergeRefusal : public ::testing::Test {
  protected:
    std::string shard(int index, int total, const SmallSuite& suite = SmallSuite(9)) {
        const std::string path =
            folder / suite.name() + std::to_string(index) + "of" + std::to_string(total);
        sim::RegressPlan plan = plan_for(path);
        plan.shard = {index, total};
        sim_test::run_small(suite, plan);
        return path;
    }
    std::string refusal(const std::vector<std::string>& shards) {
        try {
            sim::merge_results(shards, folder / "merged");
        } catch (const sim::InputError& error) {
            EXPECT_EQ(folder.names().count("merged"), 0U);
            return error.what();
        }
        return "merged";
    }
    const TemporaryFolder folder;
};

TEST_F(MergeRefusal, NamesTheShardsThatAreMissing) {
    const std::string second = shard(2, 4);
    EXPECT_EQ(refusal({shard(3, 4), second}),
              folder /
                  "small3of4: of its campaign these shards are missing: 1/4, 4/4; give all of "
                  "them");
}

TEST_F(MergeRefusal, NamesAShardThatIsGivenTwice) {
    const std::string first = shard(1, 2);
    const std::string copy = folder.put("copy", folder.get("small1of2"));
    EXPECT_EQ(refusal({first, copy}),
              copy + ": shard 1/2 is in " + first + ", too; give each shard once");
}

TEST_F(MergeRefusal, NamesShardsOfAnotherDivision) {
    const std::string first = shard(1, 2);
    const std::string other = shard(2, 3);
    EXPECT_EQ(refusal({first, other}), other + ": it is shard 2/3, and " + first +
                                           " is shard 1/2; give shards of one campaign");
}

TEST_F(MergeRefusal, NamesShardsOfAnotherSuiteAndOfAnotherBuild) {
    const std::string first = shard(1, 2);
    const std::string other = shard(2, 2, SmallSuite(8, "other"));
    EXPECT_EQ(refusal({first, other}), other + ": it holds suite other, and " + first +
                                           " suite small; give shards of one campaign");
    const std::string changed = shard(2, 2, SmallSuite(8));
    EXPECT_EQ(refusal({first, changed}), changed + ": suite small was another one here than in " +
                                             first + "; give shards of one campaign");
    std::filesystem::remove(changed);
    const std::string second = shard(2, 2);
    sim::Database(second, sim::Database::Access::change).run("UPDATE campaign SET build = 'old'");
    EXPECT_EQ(refusal({first, second}).substr(0, second.size() + 26),
              second + ": build old ran it, and bu");
}

TEST_F(MergeRefusal, NamesAShardThatIsNotFinished) {
    const std::string first = shard(1, 2);
    const std::string second = shard(2, 2);
    sim::Database(second, sim::Database::Access::change)
        .run("DELETE FROM cases WHERE id = (SELECT min(id) FROM cases)");
    EXPECT_EQ(refusal({first, second}), second +
                                            ": shard 2/2 has 4 of its 5 cases; finish it with "
                                            "runup regress --shard 2/2 --resume");
}

TEST_F(MergeRefusal, DoesNotWriteOverWhatIsNoResult) {
    const std::string first = shard(1, 1);
    const std::string letter = folder.put("letter", "Dear all");
    EXPECT_THROW(sim::merge_results({first}, letter), sim::InputError);
    EXPECT_EQ(folder.get("letter"), "Dear all");
}

}  // namespace
