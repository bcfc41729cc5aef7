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
    std::vector<const ReportedCase*> cases;
    std::int64_t failures = 0;
    std::int64_t errors = 0;
};

bool is_error(const ReportedCase& one) {
    return std::any_of(one.starts.begin(), one.starts.end(),
                       [](const ReportedStart& start) { return start.has_no_result(); });
}

std::vector<Block> blocks_of(const CampaignResults& results) {
    std::vector<Block> blocks;
    std::map<std::string, std::size_t> place;
    for (const ReportedCase& one : results.cases) {
        const auto [at, is_new] = place.try_emplace(one.place.block, blocks.size());
        if (is_new) {
            blocks.push_back(
                {one.place.block.empty() ? results.identity.suite : one.place.block, {}, 0, 0});
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

std::string properties(const CampaignIdentity& identity) {
    return "    <properties>\n" + property("suite", identity.suite) +
           property("suite_hash", identity.suite_hash) + property("build", identity.build) +
           property("shard", fmt::format("{}/{}", identity.shard_index, identity.shard_total)) +
           property("finished", identity.finished ? "yes" : "no") + "    </properties>\n";
}

struct Reason {
    std::string kind;
    std::string words;
};

/// An end without a result comes first: it is what the element is called after.
std::vector<Reason> reasons_of(const ReportedCase& one) {
    std::vector<Reason> reasons;
    std::vector<Reason> others;
    for (const ReportedStart& start : one.starts) {
        const std::string of = one.starts.size() > 1 ? fmt::format("start {}: ", start.start) : "";
        if (start.has_no_result()) {
            reasons.push_back(
                {start.outcome, fmt::format("{}{}{}{}", of, start.outcome,
                                            start.cause.empty() ? "" : ": ", start.cause)});
        }
        for (const BrokenRequirement& broken : start.broken) {
            others.push_back(
                {broken.requirement, fmt::format("{}{}{}{}", of, broken.requirement,
                                                 broken.words.empty() ? "" : ": ", broken.words)});
        }
        if (!start.passed && start.broken.empty() && !start.has_no_result()) {
            others.push_back({"not passed", of + "ended as " + start.outcome});
        }
    }
    reasons.insert(reasons.end(), others.begin(), others.end());
    return reasons;
}

std::string failure_text(const ReportedCase& one, const CampaignIdentity& identity,
                         const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) {
        text += reason.words + "\n";
    }
    for (const DrawnInput& input : one.inputs) {
        text += fmt::format("{} = {}\n", input.name, input.value);
    }
    return text +
           fmt::format("seed {}\nrun it again: {}\n", one.seed, rerun_command(identity, one.id));
}

std::string testcase(const ReportedCase& one, const CampaignIdentity& identity) {
    const std::string open =
        fmt::format("    <testcase classname=\"{}\" name=\"{}\"",
                    xml_text(identity.suite + "." + one.place.block),
                    xml_text(fmt::format("#{} {}", one.id, place_words(one.place))));
    const bool error = is_error(one);
    if (one.passed() && !error) {
        return open + "/>\n";
    }
    const std::vector<Reason> reasons = reasons_of(one);
    return fmt::format("{}>\n      <{} type=\"{}\" message=\"{}\">{}</{}>\n    </testcase>\n", open,
                       error ? "error" : "failure", xml_text(reasons.front().kind),
                       xml_text(reasons.front().words),
                       xml_text(failure_text(one, identity, reasons)), error ? "error" : "failure");
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
                        xml_text(results.identity.suite), results.cases.size(), failures, errors);
    for (const Block& block : blocks) {
        text += fmt::format(
            "  <testsuite name=\"{}\" tests=\"{}\" failures=\"{}\" errors=\"{}\" skipped=\"0\">\n",
            xml_text(block.name), block.cases.size(), block.failures, block.errors);
        text += properties(results.identity);
        for (const ReportedCase* one : block.cases) {
            text += testcase(*one, results.identity);
        }
        text += "  </testsuite>\n";
    }
    return text + "</testsuites>\n";
}

}  // namespace sim
