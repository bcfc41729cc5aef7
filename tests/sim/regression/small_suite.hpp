// A suite of very short starts, some of which may misbehave.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "sim/regression/campaign_run.hpp"
#include "sim/suites/suite.hpp"

namespace sim_test {

class SmallSuite final : public sim::Suite {
  public:
    /// Direct starts of a fiftieth of a second at voltages that follow from the case's number;
    /// every tenth is a series of two. In about one of eight the current is above its limit.
    explicit SmallSuite(std::int64_t cases, const std::string& name = "small");

    const std::string& name() const override { return name_; }
    const std::string& title() const override { return title_; }
    const std::string& text() const override { return text_; }
    std::int64_t case_count() const override { return cases_; }
    const std::vector<sim::RateRequirement>& rates() const override { return rates_; }
    sim::SuiteCase case_at(std::int64_t id) const override;

    /// Done in case_at, before the case is known.
    std::map<std::int64_t, std::function<void()>> instead;
    /// What a case needs to be is here before it runs.
    std::function<void(sim::SuiteCase&)> also;
    std::vector<sim::RateRequirement> rates_;

  private:
    std::int64_t cases_;
    std::string name_;
    std::string title_ = "Short starts for the tests";
    std::string text_;
    sim::Scenario scenario_;
};

/// Runs it to its end.
void run_small(const sim::Suite& suite, const sim::RegressPlan& plan);

sim::RegressPlan plan_for(const std::string& results, int jobs = 2);

}  // namespace sim_test
