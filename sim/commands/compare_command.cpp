// runup compare OLD NEW: what a change did to the same starts.
#include <memory>
#include <string>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/pages/comparison_page.hpp"
#include "sim/results/comparison_json.hpp"
#include "sim/results/comparison_text.hpp"

namespace sim {

namespace {

struct CompareOptions {
    std::string old_results;
    std::string new_results;
    std::string json;
    std::string page;
    double least_change_percent = 0.1;
    bool strict = false;
    bool quiet = false;
};

void check_pairs(const CompareOptions& options, const CasePairs& pairs) {
    if (pairs.pairs.empty()) {
        throw InputError(options.new_results, 0, "",
                         "no case of it is also in " + options.old_results +
                             "; give results of the same suite, with the same seeds");
    }
}

int run(const CompareOptions& options) {
    const bool prints_text =
        standard_output_is_free({{"--json", options.json}, {"--page", options.page}});
    AskedOutput json(options.json);
    AskedOutput page(options.page);
    const CampaignResults old_results = read_campaign(options.old_results);
    const CampaignResults new_results = read_campaign(options.new_results);
    ComparedCampaigns both;
    both.old_name = options.old_results;
    both.new_name = options.new_results;
    both.old_results = &old_results;
    both.new_results = &new_results;
    constexpr double percent = 0.01;
    both.rules.least_change = percent * options.least_change_percent;
    both.rules.strict = options.strict;
    both.comparison = compared(old_results, new_results, both.rules);
    check_pairs(options, both.comparison.pairs);
    if (json) {
        json.put(comparison_json(both));
    }
    if (page) {
        page.put(render(comparison_page(both)));
    }
    if (prints_text) {
        print_text(options.quiet ? comparison_verdict(both.comparison) + "\n"
                                 : comparison_text(both));
    }
    return both.comparison.anything_worse() ? ended_otherwise : ended_as_expected;
}

}  // namespace

void add_compare_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<CompareOptions>();
    CLI::App* compare = app.add_subcommand(
        "compare", "Two results of the same suite: what got better, what got worse, what is noise");
    compare->add_option("OLD", options->old_results, "file of results to compare with")->required();
    compare->add_option("NEW", options->new_results, "file of results to judge")->required();
    compare
        ->add_option("--json", options->json,
                     "write the comparison as JSON to FILE, - for standard output")
        ->type_name("FILE");
    compare->add_option("--page", options->page, "write a page to look at in a browser to FILE")
        ->type_name("FILE");
    compare
        ->add_option("--least-change", options->least_change_percent,
                     "share of a figure by which it must change to have moved; 0.1")
        ->type_name("PERCENT")
        ->check(CLI::Range(0.0, 50.0));
    compare->add_flag("--strict", options->strict,
                      "one case that newly fails is worse, however many newly pass");
    compare->add_flag("--quiet", options->quiet, "print only the verdict");
    compare->footer(
        "Example: runup compare before.results after.results --page change.html\n"
        "Exit code: 0 nothing got worse, 1 something did, 2 bad input.");
    compare->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
