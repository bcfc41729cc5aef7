#include "sim/results/regress_json.hpp"

#include "sim/results/json_values.hpp"
#include "sim/results/rate_json.hpp"

namespace sim {

namespace {

using Json = nlohmann::ordered_json;

Json block_json(const BlockSummary& block) {
    return {{"block", block.block},
            {"success", rate_json(block.passed)},
            {"starts", block.starts},
            {"accepted", block.accepted},
            {"least_accepted_percent", number_or_null(block.least_accepted_percent)},
            {"failures", block.failures},
            {"as_expected", block.holds()}};
}

Json failed_json(const FailedCase& one) {
    return {{"case", one.id},
            {"block", one.place.block},
            {"compressor", one.place.compressor},
            {"supply", one.place.supply},
            {"condition", one.place.condition},
            {"fault", one.place.fault},
            {"setting", one.place.setting},
            {"start", one.start},
            {"requirement", one.requirement},
            {"words", one.words}};
}

}  // namespace

Json regress_json(const RegressSummary& summary, const RegressNames& names) {
    const CampaignRow& campaign = summary.campaign;
    Json json;
    json["schema"] = "runup.regress/1";
    json["suite"] = campaign.suite;
    json["title"] = campaign.title;
    json["suite_hash"] = campaign.suite_hash;
    json["build"] = campaign.build;
    json["results"] = names.results;
    json["cases"] = campaign.cases;
    json["shard"] = {
        {"index", campaign.shard_index}, {"total", campaign.shard_total}, {"cases", summary.share}};
    json["starts"] = summary.starts;
    json["finished"] = campaign.finished;
    json["as_expected"] = summary.as_expected();
    json["success"] = rate_json(summary.passed);
    json["blocks"] = Json::array();
    for (const BlockSummary& block : summary.blocks) {
        json["blocks"].push_back(block_json(block));
    }
    json["broken"] = Json::array();
    for (const BrokenSummary& row : summary.broken) {
        json["broken"].push_back({{"requirement", row.requirement},
                                  {"starts", row.starts},
                                  {"first_case", row.first_case}});
    }
    json["first_failed"] = Json::array();
    for (const FailedCase& one : summary.first_failed) {
        json["first_failed"].push_back(failed_json(one));
    }
    return json;
}

}  // namespace sim
