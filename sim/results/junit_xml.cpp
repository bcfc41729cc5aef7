#include "sim/results/junit_xml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "sim/results/xml_text.hpp"

namespace sim {

namespace {

struct Block {
    std::string name;
    std::vector<const CaseRecord*> cases;
    std::int64_t failures = 0;
    std::int64_t errors = 0;
};

bool is_error(const CaseRecord& one) {
    return std::any_of(one.starts.begin(), one.starts.end(),
                       [](const StartRow& start) { return has_no_result(start); });
}

std::vector<Block> blocks_of(const CampaignResults& results) {
    std::vector<Block> blocks;
    std::map<std::string, std::size_t> place;
    for (const CaseRecord& one : results.cases) {
        const auto [at, is_new] = place.try_emplace(one.place.block, blocks.size());
        if (is_new) {
            blocks.push_back(
                {one.place.block.empty() ? results.campaign.suite : one.place.block, {}, 0, 0});
        }
        Block& block = blocks[at->second];
        block.cases.push_back(&one);
        if (is_error(one)) {
            ++block.errors;
        } else if (!one.passed()) {
            ++block.failures;
        }
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

std::string failure_text(const CaseRecord& one, const CampaignRow& campaign,
                         const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) {
        text += reason.words + "\n";
    }
    for (const DrawnInput& input : one.inputs) {
        text += fmt::format("{} = {}\n", input.name, input.value);
    }
    return text +
           fmt::format("seed {}\nrun it again: {}\n", one.seed, rerun_command(campaign, one.id));
}

std::string testcase(const CaseRecord& one, const CampaignRow& campaign) {
    const std::string open =
        fmt::format("    <testcase classname=\"{}\" name=\"{}\"",
                    xml_text(campaign.suite + "." + one.place.block),
                    xml_text(fmt::format("#{} {}", one.id, place_words(one.place))));
    const bool error = is_error(one);
    if (one.passed() && !error) {
        return open + "/>\n";
    }
    const std::vector<Reason> reasons = reasons_of(one);
    return fmt::format("{}>\n      <{} type=\"{}\" message=\"{}\">{}</{}>\n    </testcase>\n", open,
                       error ? "error" : "failure", xml_text(reasons.front().kind),
                       xml_text(reasons.front().words),
                       xml_text(failure_text(one, campaign, reasons)), error ? "error" : "failure");
}

}  // namespace

std::string junit_xml(const CampaignResults& results) {
    const std::vector<Block> blocks = blocks_of(results);
    std::int64_t failures = 0;
    std::int64_t errors = 0;
    for (const Block& block : blocks) {
        failures += block.failures;
        errors += block.errors;
    }
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    text += fmt::format("<testsuites name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\">\n",
                        xml_text(results.campaign.suite), results.cases.size(), failures, errors);
    for (const Block& block : blocks) {
        text += fmt::format(
            "  <testsuite name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\" skipped=\"0\">\n",
            xml_text(block.name), block.cases.size(), block.failures, block.errors);
        text += properties(results.campaign);
        for (const CaseRecord* one : block.cases) {
            text += testcase(*one, results.campaign);
        }
        text += "  </testsuite>\n";
    }
    return text + "</testsuites>\n";
}

}  // namespace sim
