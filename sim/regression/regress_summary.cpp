#include "sim/regression/regress_summary.hpp"

#include <algorithm>
#include <map>

#include "sim/regression/case_order.hpp"
#include "sim/regression/start_failures.hpp"

namespace sim {

namespace {

class Summing {
  public:
    Summing(const Suite& suite, RegressSummary& summary) : suite_(suite), summary_(summary) {}

    void add(const CaseRecord& record) {
        BlockSummary& block = block_of(record.place.block);
        const bool passed = record.passed();
        for (SuccessRate* rate : {&summary_.passed, &block.passed}) {
            ++rate->trials;
            rate->successes += passed ? 1 : 0;
        }
        bool fails = false;
        for (const StartRow& row : record.starts) {
            ++summary_.starts;
            ++block.starts;
            block.accepted += ended_otherwise(row) ? 0 : 1;
            fails = fails || !(row.passed ||
                               (block.least_accepted_percent && only_counts_against_rate(row)));
            for (const BrokenRequirement& broken : row.broken) {
                add(record.id, broken);
            }
        }
        block.failures += fails ? 1 : 0;
        if (fails && summary_.first_failed.size() < most_listed_failures) {
            list(record);
        }
    }

    void finish() {
        for (auto& [requirement, row] : broken_) {
            summary_.broken.push_back(std::move(row));
        }
        std::stable_sort(
            summary_.broken.begin(), summary_.broken.end(),
            [](const BrokenSummary& a, const BrokenSummary& b) { return a.starts > b.starts; });
    }

  private:
    BlockSummary& block_of(const std::string& name) {
        const auto [place, is_new] = places_.emplace(name, summary_.blocks.size());
        if (is_new) {
            BlockSummary block;
            block.block = name;
            block.rate_is_judged = summary_.campaign.shard_total == 1;
            for (const RateRequirement& rate : suite_.rates()) {
                if (rate.block == name) {
                    block.least_accepted_percent = rate.success_at_least_percent;
                }
            }
            summary_.blocks.push_back(std::move(block));
        }
        return summary_.blocks[place->second];
    }

    void add(std::int64_t id, const BrokenRequirement& broken) {
        const auto [row, is_new] = broken_.try_emplace(broken.requirement);
        if (is_new) {
            row->second = {broken.requirement, 0, id, broken.words};
        }
        ++row->second.starts;
    }

    void list(const CaseRecord& record) {
        const auto row = std::find_if(record.starts.begin(), record.starts.end(),
                                      [](const StartRow& one) { return !one.passed; });
        const BrokenRequirement& first = row->broken.front();
        summary_.first_failed.push_back({record.id, record.place, record.starts.size() > 1,
                                         row->start, first.requirement, first.words});
    }

    const Suite& suite_;
    RegressSummary& summary_;
    std::map<std::string, std::size_t> places_;
    std::map<std::string, BrokenSummary> broken_;
};

}  // namespace

bool RegressSummary::as_expected() const {
    return campaign.finished && std::all_of(blocks.begin(), blocks.end(),
                                            [](const BlockSummary& one) { return one.holds(); });
}

RegressSummary summarize(const ResultsReader& results, const Suite& suite) {
    RegressSummary summary;
    summary.campaign = results.campaign();
    const Shard shard{summary.campaign.shard_index, summary.campaign.shard_total};
    summary.share = shard.end(summary.campaign.cases) - shard.begin(summary.campaign.cases);
    Summing summing(suite, summary);
    results.each_case([&summing](const CaseRecord& record) { summing.add(record); });
    summing.finish();
    return summary;
}

}  // namespace sim
