// A made-up campaign that tests fill in: cases with one start each, unless a test adds more.
#pragma once

#include <string>
#include <utility>

#include "sim/reporting/campaign_results.hpp"

namespace sim_test {

inline sim::StartRow passed_start(double inrush_A = 25.0, double heat_C = 60.0) {
    sim::StartRow start;
    start.outcome = "running";
    start.expected = "running";
    start.passed = true;
    start.figures = {inrush_A, heat_C, 0.5};
    return start;
}

inline sim::StartRow failed_start(const std::string& requirement,
                                  const std::string& words = "words",
                                  const std::string& outcome = "stalled") {
    sim::StartRow start = passed_start();
    start.outcome = outcome;
    start.cause = "rotor_never_turned";
    start.passed = false;
    start.figures[2] = std::nullopt;
    start.broken = {{requirement, words}};
    return start;
}

inline sim::CampaignResults campaign() {
    sim::CampaignResults results;
    results.rerun_from = "smoke";
    results.campaign.suite = "smoke";
    results.campaign.title = "A short one";
    results.campaign.suite_hash = "5a17e";
    results.campaign.build = "build 1";
    results.campaign.finished = true;
    results.figures = {"line_current_inrush_100ms_rms_A", "hottest_winding_C", "time_to_speed_s"};
    return results;
}

inline sim::CaseRecord& add_case(sim::CampaignResults& results, sim::StartRow start,
                                 sim::CasePlace place = {"matrix", "cold_room", "hut_inverter", "",
                                                         "", ""}) {
    sim::CaseRecord one;
    one.id = static_cast<std::int64_t>(results.cases.size());
    one.place = std::move(place);
    one.seed = static_cast<std::uint32_t>(1000 + one.id);
    one.scenario_hash = "5ce0";
    one.settings_hash = "5e77";
    one.starts = {std::move(start)};
    results.cases.push_back(std::move(one));
    results.campaign.cases = static_cast<std::int64_t>(results.cases.size());
    return results.cases.back();
}

}  // namespace sim_test
