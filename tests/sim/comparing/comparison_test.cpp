// What got better, what got worse, and what is noise.
#include "sim/comparing/comparison.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <random>
#include <string>

#include "reporting/sample_campaign.hpp"

namespace {

using sim_test::failed_start;
using sim_test::passed_start;

sim::CampaignResults campaign_of(int cases) {
    sim::CampaignResults results = sim_test::campaign();
    std::mt19937 random(1);
    std::normal_distribution<double> spread(25.0, 4.0);
    for (int k = 0; k < cases; ++k) {
        sim::CaseRecord& one = sim_test::add_case(results, passed_start(spread(random)));
        one.inputs = {{"line_voltage_percent", spread(random)}};
    }
    return results;
}

/// A copy in which `change` has its way with the number and the first start of every case.
sim::CampaignResults changed(sim::CampaignResults results,
                             const std::function<void(int, sim::StartRow&)>& change) {
    int number = 0;
    for (sim::CaseRecord& one : results.cases) {
        change(number++, one.starts.front());
    }
    return results;
}

const sim::FigureChange& inrush(const sim::Comparison& comparison) {
    for (const sim::FigureChange& one : comparison.figures) {
        if (one.figure == "line_current_inrush_100ms_rms_A" && one.block.empty()) {
            return one;
        }
    }
    throw std::out_of_range("no inrush");
}

const sim::RequirementChange& requirement(const sim::Comparison& comparison,
                                          const std::string& name) {
    for (const sim::RequirementChange& one : comparison.requirements) {
        if (one.requirement == name && one.block.empty()) {
            return one;
        }
    }
    throw std::out_of_range(name);
}

TEST(Comparison, OfTheSameResultsIsIdentical) {
    const sim::CampaignResults results = campaign_of(40);
    const sim::Comparison comparison = sim::compared(results, results, {});
    EXPECT_TRUE(comparison.all_identical());
    EXPECT_FALSE(comparison.anything_worse());
    EXPECT_EQ(inrush(comparison).change, sim::Change::identical);
    EXPECT_EQ(inrush(comparison).identical, 40);
}

TEST(Comparison, SeesOneBitThatMovedAndDoesNotCallItAChange) {
    const sim::CampaignResults old_results = campaign_of(40);
    const sim::CampaignResults new_results =
        changed(old_results, [](int number, sim::StartRow& start) {
            if (number == 3) {
                start.figures[0] = std::nextafter(*start.figures[0], 100.0);
            }
        });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_FALSE(comparison.all_identical());
    EXPECT_EQ(inrush(comparison).identical, 39);
    EXPECT_EQ(inrush(comparison).change, sim::Change::same);
}

TEST(Comparison, FindsAShiftThatIsSmallAgainstTheSpreadOfTheCases) {
    const sim::CampaignResults old_results = campaign_of(40);
    const auto shifted = [&old_results](double by_A) {
        std::mt19937 random(2);
        std::normal_distribution<double> unequal(by_A, 0.3);
        return changed(old_results,
                       [&](int, sim::StartRow& start) { *start.figures[0] += unequal(random); });
    };
    const sim::CampaignResults up = shifted(0.4);
    const sim::Comparison worse = sim::compared(old_results, up, {});
    EXPECT_EQ(inrush(worse).change, sim::Change::worse);
    EXPECT_TRUE(worse.anything_worse());
    ASSERT_TRUE(inrush(worse).difference.interval);
    EXPECT_LT(inrush(worse).difference.interval->first, 0.4);
    EXPECT_GT(inrush(worse).difference.interval->second, 0.4);

    const sim::CampaignResults down = shifted(-0.4);
    const sim::Comparison better = sim::compared(old_results, down, {});
    EXPECT_EQ(inrush(better).change, sim::Change::better);
    EXPECT_FALSE(better.anything_worse());
}

TEST(Comparison, CallsWhatHelpsSomeAndHurtsOthersNoise) {
    const sim::CampaignResults old_results = campaign_of(40);
    const sim::CampaignResults new_results =
        changed(old_results, [](int number, sim::StartRow& start) {
            *start.figures[0] += number % 2 == 0 ? 0.5 : -0.5;
        });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).change, sim::Change::noise);
    EXPECT_FALSE(comparison.anything_worse());
}

TEST(Comparison, IsMixedWhereManyGainALittleAndSomeLoseALot) {
    const sim::CampaignResults old_results = campaign_of(100);
    const sim::CampaignResults new_results =
        changed(old_results, [](int number, sim::StartRow& start) {
            *start.figures[0] += number < 46 ? 5.0 + 0.01 * number : -0.2;
        });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).change, sim::Change::mixed);
    EXPECT_TRUE(comparison.anything_worse());
}

TEST(Comparison, DoesNotLetTinyChangesHideTheFewThatMatter) {
    const sim::CampaignResults old_results = campaign_of(200);
    const sim::CampaignResults new_results = changed(
        old_results,
        [](int number, sim::StartRow& start) { *start.figures[0] += number < 20 ? 5.0 : -1e-9; });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).change, sim::Change::worse);
    EXPECT_EQ(inrush(comparison).moved.positive, 20U);
    EXPECT_EQ(inrush(comparison).moved.negative, 0U);
}

TEST(Comparison, FindsAnythingByChanceInAtMostFivePercentOfComparisons) {
    const sim::CampaignResults old_results = campaign_of(30);
    std::mt19937 random(4);
    std::normal_distribution<double> noise(0.0, 1.0);
    int found = 0;
    constexpr int trials = 400;
    for (int trial = 0; trial < trials; ++trial) {
        const sim::CampaignResults new_results =
            changed(old_results, [&](int, sim::StartRow& start) {
                for (std::optional<double>& figure : start.figures) {
                    *figure += noise(random);
                }
            });
        const sim::Comparison comparison = sim::compared(old_results, new_results, {});
        bool any = false;
        for (const sim::FigureChange& one : comparison.figures) {
            any = any || one.change != sim::Change::noise;
        }
        found += any ? 1 : 0;
    }
    // 5 % of 400 with three standard deviations of 4.4.
    EXPECT_LE(found, 33);
    EXPECT_GT(found, 0);
}

TEST(Comparison, CallsNewFailuresWorseWhereNoneNewlyPasses) {
    const sim::CampaignResults old_results = campaign_of(200);
    const sim::CampaignResults one_fails =
        changed(old_results, [](int number, sim::StartRow& start) {
            if (number == 3) {
                start = failed_start("outcome");
            }
        });
    const sim::Comparison worse = sim::compared(old_results, one_fails, {});
    EXPECT_EQ(requirement(worse, "outcome").change, sim::Change::worse);
    EXPECT_EQ(requirement(worse, "passed").newly_failed, (std::vector<std::int64_t>{3}));
    EXPECT_TRUE(worse.anything_worse());
    const sim::Comparison better = sim::compared(one_fails, old_results, {});
    EXPECT_EQ(requirement(better, "outcome").change, sim::Change::better);
    EXPECT_FALSE(better.anything_worse());
}

TEST(Comparison, LeavesItToTheTestWhereSomeNewlyFailAndOthersNewlyPassUnlessItIsStrict) {
    const sim::CampaignResults base = campaign_of(200);
    const auto failing = [&base](int from, int to) {
        return changed(base, [from, to](int number, sim::StartRow& start) {
            if (number >= from && number < to) {
                start = failed_start("outcome");
            }
        });
    };
    // Two newly pass; three newly fail, or twenty.
    const sim::CampaignResults old_results = failing(0, 2);
    const sim::CampaignResults few = failing(2, 5);
    EXPECT_EQ(requirement(sim::compared(old_results, few, {}), "outcome").change,
              sim::Change::noise);
    sim::ComparisonRules strict;
    strict.strict = true;
    EXPECT_TRUE(sim::compared(old_results, few, strict).anything_worse());
    const sim::CampaignResults many = failing(2, 22);
    EXPECT_EQ(requirement(sim::compared(old_results, many, {}), "outcome").change,
              sim::Change::worse);
    EXPECT_EQ(requirement(sim::compared(many, old_results, {}), "outcome").change,
              sim::Change::better);
}

TEST(Comparison, CallsOneNewlyBrokenMonitorAndOneNewCrashWorse) {
    const sim::CampaignResults old_results = campaign_of(200);
    for (const sim::StartRow& bad :
         {failed_start("monitor:standing_rotor"), failed_start("outcome", "", "crashed")}) {
        const sim::CampaignResults new_results =
            changed(old_results, [&bad](int number, sim::StartRow& start) {
                if (number == 7) {
                    start = bad;
                }
            });
        EXPECT_TRUE(sim::compared(old_results, new_results, {}).anything_worse());
        EXPECT_FALSE(sim::compared(new_results, old_results, {}).anything_worse());
    }
}

TEST(Comparison, SetsNoRepairedMonitorAgainstABrokenOne) {
    const sim::CampaignResults base = campaign_of(40);
    const auto breaking = [&base](int from, int to) {
        return changed(base, [from, to](int number, sim::StartRow& start) {
            if (number >= from && number < to) {
                start = failed_start("monitor:standing_rotor");
            }
        });
    };
    const sim::CampaignResults old_results = breaking(0, 20);
    const sim::CampaignResults new_results = breaking(20, 21);
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(requirement(comparison, "passed").change, sim::Change::better);
    EXPECT_EQ(requirement(comparison, "monitor:standing_rotor").change, sim::Change::worse);
}

TEST(Comparison, DoesNotCreditACrashWithAKeptMonitor) {
    const sim::CampaignResults base = campaign_of(20);
    const sim::CampaignResults old_results = changed(
        base, [](int, sim::StartRow& start) { start = failed_start("monitor:standing_rotor"); });
    const sim::CampaignResults new_results = changed(
        base, [](int, sim::StartRow& start) { start = failed_start("outcome", "", "crashed"); });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(requirement(comparison, "monitor:standing_rotor").cases.pairs(), 0);
    EXPECT_EQ(requirement(comparison, "result").change, sim::Change::worse);
}

TEST(Comparison, CountsASeriesOnceHoweverLongItIs) {
    sim::CampaignResults old_results = campaign_of(4);
    for (sim::CaseRecord& one : old_results.cases) {
        for (int start = 2; start <= 50; ++start) {
            one.starts.push_back(one.starts.front());
            one.starts.back().start = start;
        }
    }
    sim::CampaignResults new_results = old_results;
    for (sim::CaseRecord& one : new_results.cases) {
        for (sim::StartRow& start : one.starts) {
            *start.figures[0] += 1.0;
        }
    }
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).pairs, 4);
    // Four cases cannot tell: 2 / 2^4.
    EXPECT_EQ(inrush(comparison).change, sim::Change::noise);
}

TEST(Comparison, CountsAFigureThatOnlyOneSideHas) {
    const sim::CampaignResults old_results = campaign_of(20);
    const sim::CampaignResults new_results =
        changed(old_results, [](int number, sim::StartRow& start) {
            if (number < 5) {
                start.figures[0] = std::nullopt;
            }
        });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).only_old, 5);
    EXPECT_EQ(inrush(comparison).pairs, 15);
    EXPECT_EQ(inrush(comparison).change, sim::Change::same);
    EXPECT_FALSE(comparison.all_identical());
}

TEST(Comparison, LooksAtEveryBlockByItself) {
    sim::CampaignResults old_results = campaign_of(60);
    for (std::size_t k = 30; k < 60; ++k) {
        old_results.cases[k].place.block = "second";
    }
    const sim::CampaignResults new_results =
        changed(old_results, [](int number, sim::StartRow& start) {
            *start.figures[0] += (number < 30 ? 1.0 : -1.0) * (1.0 + 0.01 * (number % 30));
        });
    const sim::Comparison comparison = sim::compared(old_results, new_results, {});
    EXPECT_EQ(inrush(comparison).change, sim::Change::noise);
    EXPECT_TRUE(comparison.anything_worse());
    int worse = 0;
    int better = 0;
    for (const sim::FigureChange& one : comparison.figures) {
        worse += one.block == "matrix" && one.change == sim::Change::worse ? 1 : 0;
        better += one.block == "second" && one.change == sim::Change::better ? 1 : 0;
    }
    EXPECT_EQ(worse, 1);
    EXPECT_EQ(better, 1);
}

TEST(CasePairs, AreTheSamePlaceSeedAndInputsAndSaySoWhereNot) {
    const sim::CampaignResults old_results = campaign_of(8);
    sim::CampaignResults new_results = old_results;
    new_results.cases[0].seed += 1;
    new_results.cases[1].inputs[0].value =
        std::nextafter(new_results.cases[1].inputs[0].value, 100.0);
    new_results.cases[2].place.supply = "another";
    new_results.cases[3].place.setting = "soft";
    new_results.cases[3].settings_hash = "another";
    new_results.cases.pop_back();
    sim_test::add_case(new_results, passed_start()).id = 99;
    const sim::CasePairs pairs = sim::paired_cases(old_results, new_results);
    EXPECT_EQ(pairs.pairs.size(), 4U);
    EXPECT_EQ(pairs.other_inputs, 2);
    EXPECT_EQ(pairs.other_place, 1);
    EXPECT_EQ(pairs.only_old, 1);
    EXPECT_EQ(pairs.only_new, 1);
    EXPECT_EQ(pairs.other_settings, 1);
}

TEST(CasePairs, PairTheStartsThatBothHave) {
    sim::CampaignResults old_results = campaign_of(1);
    sim::CampaignResults new_results = old_results;
    for (const int start : {2, 3}) {
        old_results.cases[0].starts.push_back(passed_start());
        old_results.cases[0].starts.back().start = start;
    }
    new_results.cases[0].starts.push_back(passed_start());
    new_results.cases[0].starts.back().start = 3;
    const sim::CasePairs pairs = sim::paired_cases(old_results, new_results);
    ASSERT_EQ(pairs.pairs.size(), 1U);
    EXPECT_EQ(pairs.pairs[0].starts.size(), 2U);
    EXPECT_EQ(pairs.unpaired_starts, 1);
}

}  // namespace
