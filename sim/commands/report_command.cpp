// runup report RESULTS: what a campaign came to, for people and for other programs.
#include <memory>
#include <string>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/report_files.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/reporting/block_verdict.hpp"
#include "sim/results/campaign_json.hpp"
#include "sim/results/campaign_text.hpp"
#include "sim/results/campaign_words.hpp"

namespace sim {

namespace {

struct ReportOptions {
    std::string results;
    std::string json;
    ReportPaths paths;
    bool quiet = false;
};

int run(const ReportOptions& options) {
    const bool prints_text = standard_output_is_free({{"--json", options.json},
                                                      {"--junit", options.paths.junit},
                                                      {"--csv", options.paths.csv},
                                                      {"--page", options.paths.page}});
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    ReportFiles files(options.paths);
    CampaignResults results = read_campaign(options.results);
    judge_by_suite(results);
    if (json) {
        json.put(campaign_json(results));
    }
    files.write(results);
    if (prints_text) {
        print_text(options.quiet ? campaign_verdict(results) + "\n" : campaign_text(results));
    }
    return campaign_passed(results) ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_report_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ReportOptions>();
    CLI::App* report =
        app.add_subcommand("report",
                           "What a campaign came to: rates, the worst starts, what drives "
                           "failure; XML, CSV and a page of it");
    report
        ->add_option("RESULTS", options->results, "file of results that runup regress has written")
        ->required();
    report
        ->add_option("--json", options->json,
                     "write the summary as JSON to FILE, - for standard output")
        ->type_name("FILE");
    add_report_options(*report, options->paths);
    report->add_flag("--quiet", options->quiet, "print only the verdict");
    report->footer(
        "Example: runup report nightly.results --page nightly.html --junit nightly.xml\n"
        "Exit code: 0 the campaign is whole and everything was as expected, 1 it is not, 2 bad "
        "input.");
    report->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
