// Which drawn inputs drive failure: found where it was put in, silent where there is nothing.
#include "sim/reporting/failure_drivers.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <random>
#include <string>

#include "sample_campaign.hpp"

namespace {

/// Cases with three inputs between 0 and 1, of which `fails` decides by the first.
sim::CampaignResults drawn_campaign(int cases, const std::function<bool(double, double)>& fails,
                                    unsigned seed = 1) {
    sim::CampaignResults results = sim_test::campaign();
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (int k = 0; k < cases; ++k) {
        const double decisive = unit(random);
        const double chance = unit(random);
        sim::CaseRecord& one =
            sim_test::add_case(results, fails(decisive, chance) ? sim_test::failed_start("outcome")
                                                                : sim_test::passed_start());
        one.inputs = {
            {"decisive", decisive}, {"idle_one", unit(random)}, {"idle_two", unit(random)}};
    }
    return results;
}

TEST(FailureDrivers, FindTheInputThatDecides) {
    const auto blocks = sim::failure_drivers(drawn_campaign(
        300, [](double decisive, double chance) { return decisive + 0.5 * chance < 0.5; }));
    ASSERT_EQ(blocks.size(), 1U);
    ASSERT_EQ(blocks[0].inputs.size(), 3U);
    EXPECT_EQ(blocks[0].inputs[0].input, "decisive");
    EXPECT_TRUE(blocks[0].inputs[0].drives());
    EXPECT_LT(blocks[0].inputs[0].failed_above_passed.highest, 0.5);
    EXPECT_FALSE(blocks[0].inputs[1].drives());
    EXPECT_GT(blocks[0].inputs[0].failed_by_third[0].share(), 0.5);
    EXPECT_LT(blocks[0].inputs[0].failed_by_third[2].share(), 0.1);
    const auto sentences = sim::driver_sentences(blocks[0]);
    ASSERT_EQ(sentences.size(), 1U);
    EXPECT_EQ(sentences[0].rfind("A low decisive drives failure:", 0), 0U) << sentences[0];
}

TEST(FailureDrivers, NameTheDirectionInTheOtherWayToo) {
    const auto blocks = sim::failure_drivers(
        drawn_campaign(300, [](double decisive, double) { return decisive > 0.8; }));
    const std::string first = sim::driver_sentences(blocks[0]).at(0);
    EXPECT_EQ(first.rfind("A high decisive", 0), 0U) << first;
}

TEST(FailureDrivers, AreSilentWithTooFewFailures) {
    const auto blocks = sim::failure_drivers(
        drawn_campaign(300, [](double decisive, double) { return decisive < 0.02; }));
    ASSERT_LT(blocks[0].failed, sim::fewest_of_each);
    EXPECT_TRUE(blocks[0].too_few());
    EXPECT_TRUE(blocks[0].inputs.empty());
    EXPECT_NE(sim::driver_sentences(blocks[0])[0].find("too few"), std::string::npos);
}

TEST(FailureDrivers, BlameChanceInAtMostFivePercentOfBlocks) {
    int blamed = 0;
    constexpr int trials = 400;
    for (unsigned seed = 0; seed < trials; ++seed) {
        const auto blocks = sim::failure_drivers(drawn_campaign(
            120, [](double, double chance) { return chance < 0.2; }, seed));
        for (const sim::DrivingInput& one : blocks[0].inputs) {
            if (one.drives()) {
                ++blamed;
                break;
            }
        }
    }
    // 5 % of 400 with three standard deviations of 4.4.
    EXPECT_LE(blamed, 33);
}

TEST(FailureDrivers, ShowAnInputThatHarmsAtBothEndsInItsThirds) {
    const auto blocks = sim::failure_drivers(drawn_campaign(
        600, [](double decisive, double) { return decisive < 0.15 || decisive > 0.85; }));
    for (const sim::DrivingInput& one : blocks[0].inputs) {
        if (one.input == "decisive") {
            EXPECT_GT(one.failed_by_third[0].share(), 0.3);
            EXPECT_EQ(one.failed_by_third[1].successes, 0);
            EXPECT_GT(one.failed_by_third[2].share(), 0.3);
        }
    }
}

TEST(FailureDrivers, LeaveOutAnInputThatIsTheSameEverywhere) {
    sim::CampaignResults results =
        drawn_campaign(100, [](double decisive, double) { return decisive < 0.3; });
    for (sim::CaseRecord& one : results.cases) {
        one.inputs[1].value = 7.0;
    }
    EXPECT_EQ(sim::failure_drivers(results)[0].inputs.size(), 2U);
}

TEST(FailureDrivers, JudgeEveryBlockByItself) {
    sim::CampaignResults results =
        drawn_campaign(200, [](double decisive, double) { return decisive < 0.3; });
    for (std::size_t k = 100; k < 200; ++k) {
        results.cases[k].place.block = "other";
    }
    const auto blocks = sim::failure_drivers(results);
    ASSERT_EQ(blocks.size(), 2U);
    EXPECT_EQ(blocks[0].block, "matrix");
    EXPECT_EQ(blocks[1].block, "other");
    EXPECT_EQ(blocks[0].failed + blocks[0].passed, 100);
}

}  // namespace
