#include "sim/results/comparison_json.hpp"

#include "sim/results/campaign_json.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json block_json(const std::string& block) {
    return block.empty() ? Json(nullptr) : Json(block);
}

Json pairs_json(const CasePairs& pairs) {
    return {{"cases", pairs.pairs.size()},
            {"only_old", pairs.only_old},
            {"only_new", pairs.only_new},
            {"other_place", pairs.other_place},
            {"other_inputs", pairs.other_inputs},
            {"other_settings", pairs.other_settings},
            {"other_scenario", pairs.other_scenario},
            {"unpaired_starts", pairs.unpaired_starts}};
}

Json requirement_json(const RequirementChange& one) {
    Json json;
    json["block"] = block_json(one.block);
    json["requirement"] = one.requirement;
    json["change"] = word_of(one.change);
    json["pairs"] = one.cases.pairs();
    json["newly_failed"] = one.cases.newly_failed;
    json["newly_passed"] = one.cases.newly_passed;
    json["both_failed"] = one.cases.both_failed;
    json["rate_change"] = one.cases.pairs() > 0 ? Json{{"value", one.cases.difference()},
                                                       {"lowest", one.cases.difference_lowest()},
                                                       {"highest", one.cases.difference_highest()}}
                                                : Json(nullptr);
    json["p"] = one.is_safety ? Json(nullptr) : Json(one.p_value);
    json["adjusted_p"] = one.is_safety ? Json(nullptr) : Json(one.adjusted_p);
    json["newly_failed_cases"] = one.newly_failed;
    return json;
}

Json figure_json(const FigureChange& one) {
    const bool has_pairs = one.pairs > 0;
    const auto if_paired = [has_pairs](double value) {
        return has_pairs ? Json(value) : Json(nullptr);
    };
    Json json;
    json["block"] = block_json(one.block);
    json["figure"] = one.figure;
    json["change"] = word_of(one.change);
    json["pairs"] = one.pairs;
    json["identical"] = one.identical;
    json["up"] = one.moved.positive;
    json["down"] = one.moved.negative;
    json["only_old"] = one.only_old;
    json["only_new"] = one.only_new;
    json["old_median"] = if_paired(one.old_median);
    json["new_median"] = if_paired(one.new_median);
    json["median_difference"] = if_paired(one.difference.median);
    const auto& interval = one.difference.interval;
    json["median_difference_lowest"] = interval ? Json(interval->first) : Json(nullptr);
    json["median_difference_highest"] = interval ? Json(interval->second) : Json(nullptr);
    json["lean"] = one.moved.lean();
    json["p"] = one.moved.p_value;
    json["adjusted_p"] = one.adjusted_p;
    return json;
}

}  // namespace

Json comparison_json(const ComparedCampaigns& compared) {
    const Comparison& comparison = compared.comparison;
    Json json;
    json["schema"] = "runup.compare/1";
    json["old"] = campaign_row_json(*compared.old_results);
    json["new"] = campaign_row_json(*compared.new_results);
    json["rules"] = {{"least_change", compared.rules.least_change},
                     {"error", compared.rules.error},
                     {"strict", compared.rules.strict}};
    json["identical"] = comparison.all_identical();
    json["anything_worse"] = comparison.anything_worse();
    json["pairs"] = pairs_json(comparison.pairs);
    json["requirements"] = Json::array();
    for (const RequirementChange& one : comparison.requirements) {
        json["requirements"].push_back(requirement_json(one));
    }
    json["figures"] = Json::array();
    for (const FigureChange& one : comparison.figures) {
        json["figures"].push_back(figure_json(one));
    }
    return json;
}

}  // namespace sim
