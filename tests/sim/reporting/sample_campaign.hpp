// A made-up campaign that tests fill in: cases with one start each, unless a test adds more.
#pragma once

#include <string>

#include "sim/reporting/campaign_results.hpp"

namespace sim_test {

inline sim::ReportedStart passed_start(double inrush_A = 25.0, double heat_C = 60.0) {
    sim::ReportedStart start;
    start.outcome = "running";
    start.expected = "running";
    start.passed = true;
    start.figures = {inrush_A, heat_C, 0.5};
    return start;
}

inline sim::ReportedStart failed_start(const std::string& requirement,
                                       const std::string& words = "words",
                                       const std::string& outcome = "stalled") {
    sim::ReportedStart start = passed_start();
    start.outcome = outcome;
    start.cause = "rotor_never_turned";
    start.passed = false;
    start.figures[2] = std::nullopt;
    start.broken = {{requirement, words}};
    return start;
}

inline sim::CampaignResults campaign() {
    sim::CampaignResults results;
    results.identity = {"smoke", "A short one", "5a17e", "build 1", 0, 1, 1, true};
    results.figures = {"line_current_inrush_100ms_rms_A", "hottest_winding_C", "time_to_speed_s"};
    return results;
}

inline sim::ReportedCase& add_case(sim::CampaignResults& results, sim::ReportedStart start,
                                   sim::CasePlace place = {"matrix", "cold_room", "hut_inverter",
                                                           "", "", ""}) {
    sim::ReportedCase one;
    one.id = static_cast<std::int64_t>(results.cases.size());
    one.place = std::move(place);
    one.seed = static_cast<std::uint32_t>(1000 + one.id);
    one.scenario_hash = "5ce0";
    one.settings_hash = "5e77";
    one.starts = {std::move(start)};
    results.cases.push_back(std::move(one));
    results.identity.cases = static_cast<std::int64_t>(results.cases.size());
    return results.cases.back();
}

}  // namespace sim_test
