// runup merge SHARD...: the results of a campaign that ran in parts, as one file.
#include <memory>
#include <string>
#include <vector>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/merged_results.hpp"
#include "sim/regression/regress_summary.hpp"
#include "sim/results/regress_json.hpp"
#include "sim/results/regress_text.hpp"

namespace sim {

namespace {

struct MergeOptions {
    std::vector<std::string> shards;
    std::string results;
    std::string json;
    bool quiet = false;
};

int run(const MergeOptions& options) {
    const bool prints_text = standard_output_is_free({{"--json", options.json}});
    for (const std::string& shard : options.shards) {
        if (shard == options.results) {
            throw InputError(shard, 0, "--results",
                             "this is one of the shards; name another file for the whole");
        }
    }
    AskedOutput json(options.json);
    const CampaignRow campaign = merge_results(options.shards, options.results);
    const std::unique_ptr<Suite> suite = suite_from_text(campaign.suite_text, campaign.suite);
    const RegressSummary summary = summarize(ResultsReader(options.results), *suite);
    const RegressNames names{campaign.suite, options.results};
    if (json) {
        json.put(regress_json(summary, names));
    }
    if (prints_text) {
        print_text(options.quiet ? regress_verdict(summary) : regress_text(summary, names));
    }
    return summary.as_expected() ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_merge_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<MergeOptions>();
    CLI::App* merge = app.add_subcommand("merge", "Put the shards of a campaign together");
    merge->add_option("SHARD", options->shards, "results of runup regress --shard, all of them")
        ->required();
    merge->add_option("--results", options->results, "the file for the whole; written over")
        ->type_name("FILE")
        ->required();
    merge
        ->add_option("--json", options->json,
                     "write the summary as JSON to FILE, - for standard output")
        ->type_name("FILE");
    merge->add_flag("--quiet", options->quiet, "print only the verdict");
    merge->footer(
        "Example: runup merge nightly-1-of-2.results nightly-2-of-2.results --results "
        "nightly.results\n"
        "The whole has the same bytes as if one machine had run it.\n"
        "Exit code: as of runup regress.");
    merge->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
