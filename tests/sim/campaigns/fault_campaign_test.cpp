// The campaign in its thinned form; scripts/fault_campaign runs every 10 ms.
#include "sim/campaigns/fault_campaign.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "bench/cases.hpp"
#include "sim/bench/start_run.hpp"
#include "sim/campaigns/single_faults.hpp"
#include "sim/results/fault_campaign_json.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace {

std::vector<sim::Scenario> library_units() {
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::path(RUNUP_SOURCE_FOLDER) / "tests/sim/campaigns/units")) {
        files.push_back(entry.path().string());
    }
    std::sort(files.begin(), files.end());
    std::vector<sim::Scenario> units;
    for (const std::string& file : files) {
        units.push_back(sim::read_scenario(file));
    }
    return units;
}

sim::FaultCampaignPlan plan(double every_s, double until_s, double offset_s, int threads) {
    sim::FaultCampaignPlan plan;
    plan.every_s = every_s;
    plan.until_s = until_s;
    plan.offset_s = offset_s;
    plan.threads = threads;
    return plan;
}

TEST(FaultCampaign, TheUnitsComeUpWithoutAFault) {
    const std::vector<sim::Scenario> units = library_units();
    ASSERT_EQ(units.size(), 4U);
    for (const sim::Scenario& unit : units) {
        EXPECT_EQ(sim::run_start(unit).outcome, sim::Outcome::running) << unit.name;
    }
}

TEST(FaultCampaign, EveryFaultThroughAStartOfEachUnitStaysWithinHeatAndEnergy) {
    const sim::CampaignResult result =
        sim::run_fault_campaign(library_units(), plan(0.45, 0.9, 0.0437, 2));
    EXPECT_EQ(result.rows.size(), 37U);
    EXPECT_EQ(result.runs, 4 * (36 * 3 + 1));
    for (const sim::FaultCampaignRow& row : result.rows) {
        EXPECT_LT(row.worst_closure.value, 1e-3) << row.fault << " " << row.worst_closure.unit;
        EXPECT_LT(row.hottest_winding_C.value, 160.0) << row.fault;
        EXPECT_EQ(row.monitors.count("winding_too_hot"), 0U) << row.fault;
        EXPECT_EQ(row.monitors.count("outputs_on_after_call_ended"), 0U) << row.fault;
        EXPECT_EQ(row.monitors.count("standing_rotor_fed_too_long"), 0U) << row.fault;
    }
}

TEST(FaultCampaign, IsTheSameAtAnyNumberOfThreads) {
    std::vector<sim::Scenario> units = library_units();
    units.resize(1);
    sim::FaultCampaignPlan one = plan(0.5, 0.5, 0.1, 1);
    one.only = "thyristor";
    sim::FaultCampaignPlan three = one;
    three.threads = 3;
    EXPECT_EQ(sim::fault_campaign_json(sim::run_fault_campaign(units, one)),
              sim::fault_campaign_json(sim::run_fault_campaign(units, three)));
}

TEST(FaultCampaign, CountsEveryRunOnceAndTellsHowLongTheControllerTook) {
    std::vector<sim::Scenario> units = {sim_test::bundled("reference_limited")};
    sim::FaultCampaignPlan seized = plan(0.1, 0.4, 0.3, 1);
    seized.only = "rotor_seized";
    const sim::CampaignResult result = sim::run_fault_campaign(units, seized);
    ASSERT_EQ(result.rows.size(), 1U);
    EXPECT_EQ(result.rows[0].runs, 5);
    int outcomes = 0;
    for (const auto& [outcome, count] : result.rows[0].outcomes) {
        outcomes += count;
    }
    EXPECT_EQ(outcomes, 5);
    EXPECT_EQ(result.rows[0].let_go, 5);
    EXPECT_GT(result.rows[0].slowest_reaction_s.value, 0.1);
}

TEST(FaultCampaign, EndsWhenItIsTold) {
    std::vector<sim::Scenario> units = {sim_test::bundled("reference_limited")};
    const sim::CampaignResult result = sim::run_fault_campaign(
        units, plan(0.1, 1.0, 0.0, 1), [](int done, int /*of*/) { return done < 3; });
    EXPECT_EQ(result.runs, 3);
}

TEST(SingleFaults, AreThoseOfWhichTheUnitHasThePart) {
    sim::Scenario unit = sim_test::bundled("reference_limited");
    const std::size_t all = sim::single_faults(unit).size();
    sim_test::limiter_of(unit).parts.start_capacitor_uF = 0.0;
    EXPECT_EQ(sim::single_faults(unit).size(), all - 2);
    unit.motor.run_capacitor_uF = 0.0;
    EXPECT_EQ(sim::single_faults(unit).size(), all - 4);
}

TEST(SingleFaults, HaveNamesThatBeginWithTheirKindAndAreUnique) {
    std::vector<std::string> names;
    for (const sim::SingleFault& single :
         sim::single_faults(sim_test::bundled("reference_limited"))) {
        EXPECT_EQ(single.name.rfind(std::string(single.fault.kind()), 0), 0U) << single.name;
        EXPECT_EQ(std::count(names.begin(), names.end(), single.name), 0) << single.name;
        names.push_back(single.name);
    }
    sim::Faults every;
    for (const sim::TableKind& kind : sim::fault_kinds(every)) {
        EXPECT_TRUE(std::any_of(names.begin(), names.end(), [&kind](const std::string& name) {
            return name.rfind(std::string(kind.kind), 0) == 0;
        })) << kind.kind;
    }
}

}  // namespace
