#include "sim/results/junit_xml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "sim/regression/start_failures.hpp"
#include "sim/reporting/block_verdict.hpp"
#include "sim/results/xml_text.hpp"

namespace sim {

namespace {

struct Block {
    BlockVerdict verdict;
    std::vector<const CaseRecord*> cases;
    std::int64_t failures = 0;
    std::int64_t errors = 0;
    std::int64_t skipped = 0;
};

enum class Verdict { passed, skipped, failure, error };

Verdict verdict_of(const CaseRecord& one, const BlockVerdict& block) {
    Verdict verdict = Verdict::passed;
    for (const StartRow& start : one.starts) {
        if (has_no_result(start)) {
            return Verdict::error;
        }
        if (!start.passed) {
            const bool tolerated =
                block.success_at_least_percent && only_counts_against_rate(start);
            verdict = std::max(verdict, tolerated ? Verdict::skipped : Verdict::failure);
        }
    }
    return verdict;
}

std::string_view element_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::passed:
            break;
        case Verdict::skipped:
            return "skipped";
        case Verdict::failure:
            return "failure";
        case Verdict::error:
            return "error";
    }
    return "";
}

std::vector<Block> blocks_of(const CampaignResults& results) {
    std::vector<Block> blocks;
    std::map<std::string, std::size_t> place;
    for (const BlockVerdict& verdict : block_verdicts(results)) {
        place[verdict.block] = blocks.size();
        blocks.push_back({verdict, {}, 0, 0, 0});
        blocks.back().failures += verdict.rate_met() ? 0 : 1;
    }
    for (const CaseRecord& one : results.cases) {
        Block& block = blocks[place.at(one.place.block)];
        block.cases.push_back(&one);
        const Verdict verdict = verdict_of(one, block.verdict);
        block.errors += verdict == Verdict::error ? 1 : 0;
        block.failures += verdict == Verdict::failure ? 1 : 0;
        block.skipped += verdict == Verdict::skipped ? 1 : 0;
    }
    return blocks;
}

std::string property(std::string_view name, std::string_view value) {
    return fmt::format("      <property name=\"{}\" value=\"{}\"/>\n", xml_text(name),
                       xml_text(value));
}

std::string properties(const CampaignRow& campaign) {
    return "    <properties>\n" + property("suite", campaign.suite) +
           property("suite_hash", campaign.suite_hash) + property("build", campaign.build) +
           property("shard", fmt::format("{}/{}", campaign.shard_index, campaign.shard_total)) +
           property("finished", campaign.finished ? "yes" : "no") + "    </properties>\n";
}

struct Reason {
    std::string kind;
    std::string words;
};

/// An end without a result comes first: it is what the element is called after.
std::vector<Reason> reasons_of(const CaseRecord& one) {
    std::vector<Reason> reasons;
    std::vector<Reason> others;
    for (const StartRow& start : one.starts) {
        const std::string of = one.starts.size() > 1 ? fmt::format("start {}: ", start.start) : "";
        if (has_no_result(start)) {
            reasons.push_back(
                {start.outcome, fmt::format("{}{}{}{}", of, start.outcome,
                                            start.cause.empty() ? "" : ": ", start.cause)});
        }
        for (const BrokenRequirement& broken : start.broken) {
            others.push_back(
                {broken.requirement, fmt::format("{}{}{}{}", of, broken.requirement,
                                                 broken.words.empty() ? "" : ": ", broken.words)});
        }
        if (!start.passed && start.broken.empty() && !has_no_result(start)) {
            others.push_back({"not passed", of + "ended as " + start.outcome});
        }
    }
    reasons.insert(reasons.end(), others.begin(), others.end());
    return reasons;
}

std::string failure_text(const CaseRecord& one, const CampaignResults& results,
                         const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) {
        text += reason.words + "\n";
    }
    for (const DrawnInput& input : one.inputs) {
        text += fmt::format("{} = {}\n", input.name, input.value);
    }
    return text + fmt::format("seed {}\nrun it again: {}\n", one.seed, rerun_command(results, one));
}

std::string testcase_opening(const CampaignRow& campaign, const std::string& block,
                             const std::string& name) {
    return fmt::format("    <testcase classname=\"{}\" name=\"{}\"",
                       xml_text(campaign.suite + "." + block), xml_text(name));
}

std::string reason_element(Verdict verdict, const Reason& reason, const std::string& text) {
    return fmt::format("      <{0} type=\"{1}\" message=\"{2}\">{3}</{0}>\n", element_of(verdict),
                       xml_text(reason.kind), xml_text(reason.words), xml_text(text));
}

std::string testcase(const CaseRecord& one, const BlockVerdict& block,
                     const CampaignResults& results) {
    const std::string open = testcase_opening(
        results.campaign, one.place.block, fmt::format("#{} {}", one.id, place_words(one.place)));
    const Verdict verdict = verdict_of(one, block);
    if (verdict == Verdict::passed) {
        return open + "/>\n";
    }
    const std::vector<Reason> reasons = reasons_of(one);
    return open + ">\n" +
           reason_element(verdict, reasons.front(), failure_text(one, results, reasons)) +
           "    </testcase>\n";
}

/// Whether the block's rate was met, as a testcase of its own; empty if it answers for none.
std::string rate_testcase(const BlockVerdict& block, const CampaignRow& campaign) {
    if (!block.answers_for_rate()) {
        return "";
    }
    const std::string open = testcase_opening(campaign, block.block, "rate");
    if (block.rate_met()) {
        return open + "/>\n";
    }
    const std::string words =
        fmt::format("{:.2f} % of {} starts ended as accepted; {:g} % are required",
                    block.success_percent(), block.starts, *block.success_at_least_percent);
    return open + ">\n" + reason_element(Verdict::failure, {"rate", words}, words) +
           "    </testcase>\n";
}

std::string testsuite(const Block& block, const CampaignResults& results) {
    const CampaignRow& campaign = results.campaign;
    const std::string rate = rate_testcase(block.verdict, campaign);
    std::string text = fmt::format(
        "  <testsuite name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\" skipped=\"{}\">\n",
        xml_text(block.verdict.block.empty() ? campaign.suite : block.verdict.block),
        block.cases.size() + (rate.empty() ? 0 : 1), block.failures, block.errors, block.skipped);
    text += properties(campaign);
    for (const CaseRecord* one : block.cases) {
        text += testcase(*one, block.verdict, results);
    }
    return text + rate + "  </testsuite>\n";
}

}  // namespace

std::string junit_xml(const CampaignResults& results) {
    const std::vector<Block> blocks = blocks_of(results);
    std::int64_t failures = 0;
    std::int64_t errors = 0;
    std::size_t tests = results.cases.size();
    for (const Block& block : blocks) {
        failures += block.failures;
        errors += block.errors;
        tests += block.verdict.answers_for_rate() ? 1 : 0;
    }
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    text += fmt::format("<testsuites name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\">\n",
                        xml_text(results.campaign.suite), tests, failures, errors);
    for (const Block& block : blocks) {
        text += testsuite(block, results);
    }
    return text + "</testsuites>\n";
}

}  // namespace sim
