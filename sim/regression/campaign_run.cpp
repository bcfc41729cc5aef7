#include "sim/regression/campaign_run.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "sim/regression/build_identity.hpp"
#include "sim/regression/fingerprint.hpp"
#include "sim/regression/results_schema.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

namespace {

CampaignRow campaign_of(const Suite& suite, const Shard& shard) {
    CampaignRow campaign;
    campaign.schema = results_schema_version;
    campaign.suite = suite.name();
    campaign.title = suite.title();
    campaign.suite_text = suite.text();
    campaign.suite_hash = fingerprint_of(campaign.suite_text);
    campaign.build = build_identity();
    campaign.cases = suite.case_count();
    campaign.shard_index = shard.index;
    campaign.shard_total = shard.total;
    return campaign;
}

/// What is known of each case, and how far the order has come.
class Course {
  public:
    Course(std::int64_t cases, const RegressPlan& plan)
        : order_(cases),
          begin_(plan.shard.begin(cases)),
          end_(plan.shard.end(cases)),
          until_width_(plan.until_width),
          state_(static_cast<std::size_t>(cases), State::open),
          next_(begin_),
          boundary_(begin_) {}

    void know(std::int64_t id, bool passed) {
        state_[static_cast<std::size_t>(id)] = passed ? State::passed : State::failed;
        ++done_;
        failed_ += passed ? 0 : 1;
    }

    /// The next case that may run; none: all have been given out, or the rate has to be looked at
    /// first, for which some are still awaited.
    std::optional<std::int64_t> next(std::int64_t keep_back) {
        look_at_rate();
        const std::int64_t limit = this->limit();
        while (next_ < limit && is_known(next_)) {
            ++next_;
        }
        if (next_ >= limit - keep_back) {
            return std::nullopt;
        }
        return order_.id_at(next_++);
    }

    std::int64_t done() const { return done_; }
    std::int64_t failed() const { return failed_; }
    std::int64_t size() const { return end_ - begin_; }

  private:
    enum class State : unsigned char { open, passed, failed };

    State at(std::int64_t place) const {
        return state_[static_cast<std::size_t>(order_.id_at(place))];
    }
    bool is_known(std::int64_t place) const { return at(place) != State::open; }

    std::int64_t batch_end() const { return std::min(boundary_ + until_batch, end_); }
    std::int64_t limit() const {
        return !until_width_ ? end_ : is_enough_ ? boundary_ : batch_end();
    }

    bool batch_is_known() const {
        for (std::int64_t place = boundary_; place < batch_end(); ++place) {
            if (!is_known(place)) {
                return false;
            }
        }
        return true;
    }

    void look_at_rate() {
        while (until_width_ && !is_enough_ && boundary_ < end_ && batch_is_known()) {
            const std::int64_t reached = batch_end();
            for (; boundary_ < reached; ++boundary_) {
                ++rate_.trials;
                rate_.successes += at(boundary_) == State::passed ? 1 : 0;
            }
            is_enough_ = rate_.highest() - rate_.lowest() <= *until_width_;
        }
    }

    CaseOrder order_;
    std::int64_t begin_;
    std::int64_t end_;
    std::optional<double> until_width_;
    std::vector<State> state_;  ///< by id
    std::int64_t next_;         ///< place up to which all are known or given out
    std::int64_t boundary_;     ///< place up to which the rate was looked at
    SuccessRate rate_;          ///< of the cases before the boundary
    bool is_enough_ = false;
    std::int64_t done_ = 0;
    std::int64_t failed_ = 0;
};

}  // namespace

bool run_campaign(const Suite& suite, const RegressPlan& plan, const CampaignWatch& watch) {
    WorkingResults results(plan.results, campaign_of(suite, plan.shard), recorded_figures(),
                           plan.existing);
    Course course(suite.case_count(), plan);
    for (const WorkingResults::Known& known : results.known()) {
        course.know(known.id, known.passed);
    }
    // The last ones go to whoever is free, so that nobody waits for a worker that has two.
    const std::int64_t kept_back = 2 * std::int64_t{plan.jobs};
    WorkerPool::Work work;
    work.next = [&](bool ahead) { return course.next(ahead ? kept_back : 0); };
    work.take = [&](const CaseRecord& record) {
        course.know(record.id, record.passed());
        results.put(record);
    };
    work.goes_on = [&] { return watch(course.done(), course.size(), course.failed()); };
    const bool is_done = WorkerPool(suite, plan.jobs, plan.budget).run(work);
    if (is_done) {
        results.finish();
    } else {
        results.keep();
    }
    return is_done;
}

}  // namespace sim
