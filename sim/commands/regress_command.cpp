// runup regress SUITE: every start of a suite, into a file of results.
#include <fmt/format.h>

#include <memory>
#include <regex>
#include <string>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/commands/report_files.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/commands/thread_count.hpp"
#include "sim/files/input_error.hpp"
#include "sim/regression/campaign_run.hpp"
#include "sim/regression/regress_summary.hpp"
#include "sim/results/regress_json.hpp"
#include "sim/results/regress_text.hpp"

namespace sim {

namespace {

struct RegressOptions {
    std::string suite;
    std::string results;
    std::string shard;
    std::string json;
    ReportPaths reports;
    int jobs = all_cores();
    double until_percent = 0.0;
    bool resume = false;
    bool overwrite = false;
    bool quiet = false;
};

constexpr int most_shards = 100'000;

/// "2/5"; the list of digits keeps std::stoi from overflowing.
Shard shard_of(const std::string& text) {
    if (text.empty()) {
        return {};
    }
    std::smatch parts;
    if (std::regex_match(text, parts, std::regex(R"((\d{1,6})/(\d{1,6}))"))) {
        const Shard shard{std::stoi(parts[1]), std::stoi(parts[2])};
        if (shard.index >= 1 && shard.index <= shard.total && shard.total <= most_shards) {
            return shard;
        }
    }
    throw InputError("regress", 0, "--shard",
                     "'" + text +
                         "' is not accepted; give a number and how many there are, from "
                         "1/1 to " +
                         fmt::format("{0}/{0}", most_shards) + ", as in 2/5");
}

std::string results_of(const RegressOptions& options, const std::string& suite,
                       const Shard& shard) {
    if (!options.results.empty()) {
        return options.results;
    }
    return shard.total == 1 ? suite + ".results"
                            : fmt::format("{}-{}-of-{}.results", suite, shard.index, shard.total);
}

RegressPlan plan_of(const RegressOptions& options, const Suite& suite) {
    RegressPlan plan;
    plan.shard = shard_of(options.shard);
    plan.results = results_of(options, suite.name(), plan.shard);
    plan.jobs = options.jobs;
    plan.existing = options.resume      ? ExistingFile::go_on
                    : options.overwrite ? ExistingFile::overwrite
                                        : ExistingFile::refuse;
    if (options.until_percent > 0.0) {
        plan.until_width = 0.01 * options.until_percent;
        if (plan.shard.total > 1) {
            throw InputError("regress", 0, "--until",
                             "no shard knows the rate of the whole; leave out --until or --shard");
        }
    }
    return plan;
}

std::string how_to_go_on(const RegressOptions& options, const RegressPlan& plan) {
    std::string words =
        fmt::format("Stopped; what is done is kept. Go on with: runup regress {}", options.suite);
    words += options.results.empty() ? "" : " --results " + options.results;
    words += options.shard.empty() ? "" : " --shard " + options.shard;
    words += plan.until_width ? fmt::format(" --until {:g}", options.until_percent) : "";
    return words + " --resume\n";
}

int run(const RegressOptions& options) {
    const bool prints_text = standard_output_is_free({{"--json", options.json},
                                                      {"--junit", options.reports.junit},
                                                      {"--csv", options.reports.csv},
                                                      {"--page", options.reports.page}});
    const std::unique_ptr<Suite> suite = read_suite(options.suite);
    const RegressPlan plan = plan_of(options, *suite);
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    ReportFiles reports(options.reports);
    Counter counter("cases; ctrl-C keeps what is done");
    const InterruptLatch latch;
    std::int64_t before = -1;
    const bool ran_to_its_end =
        run_campaign(*suite, plan, [&](std::int64_t done, std::int64_t of, std::int64_t failed) {
            before = before < 0 ? done : before;
            counter.show(static_cast<int>(done - before), static_cast<int>(of - before),
                         failed > 0 ? fmt::format(", {} not passed", failed) : "");
            return !InterruptLatch::interrupted();
        });
    counter.clear();
    const RegressSummary summary = summarize(ResultsReader(plan.results), *suite);
    const RegressNames names{options.suite, plan.results};
    if (options.reports.any()) {
        CampaignResults results = read_campaign(plan.results);
        judge_by_suite(results);
        reports.write(results);
    }
    if (json) {
        json.put(regress_json(summary, names));
    }
    if (prints_text) {
        print_text(options.quiet ? regress_verdict(summary) : regress_text(summary, names));
    }
    if (!ran_to_its_end) {
        fmt::print(stderr, "{}", how_to_go_on(options, plan));
    }
    return ran_to_its_end && summary.as_expected() ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_regress_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<RegressOptions>();
    CLI::App* regress =
        app.add_subcommand("regress", "Run every start of a suite and keep what each came to");
    regress->add_option("SUITE", options->suite, "suite file (TOML), or the name of a bundled one")
        ->required();
    regress
        ->add_option("--results", options->results,
                     "the file that every start goes into (SQLite); SUITE.results in this folder")
        ->type_name("FILE");
    regress
        ->add_option("--jobs", options->jobs,
                     "cases that run at the same time; as many as there are cores")
        ->type_name("N")
        ->check(CLI::Range(1, most_threads));
    CLI::Option* resume =
        regress->add_flag("--resume", options->resume,
                          "go on with the file where it stopped; begin it if there is none");
    regress
        ->add_flag("--overwrite", options->overwrite, "begin anew, whatever results the file holds")
        ->excludes(resume);
    regress
        ->add_option("--shard", options->shard,
                     "run the Ith of N parts only; runup merge puts them together")
        ->type_name("I/N");
    regress
        ->add_option("--until", options->until_percent,
                     "end as soon as the 95 % interval of the success rate is no wider than this; "
                     "looked at after every hundred cases")
        ->type_name("PERCENT")
        ->check(CLI::Range(0.01, 100.0));
    regress
        ->add_option("--json", options->json,
                     "write the summary as JSON to FILE, - for standard output")
        ->type_name("FILE");
    add_report_options(*regress, options->reports);
    regress->add_flag("--quiet", options->quiet, "print only the verdict");
    regress->footer(
        "Example: runup regress smoke --results before.results\n"
        "Exit code: 0 all as expected, 1 not (or ended early), 2 bad input, 3 the campaign "
        "failed.\n"
        "A case that crashes, hangs or fails is recorded as such, and the others go on.\n"
        "ctrl-C keeps what is done; --resume goes on. What the file holds, and how to ask it:\n"
        "sim/regression/RESULTS.md.");
    regress->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
