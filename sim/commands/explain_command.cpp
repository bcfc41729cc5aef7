// runup explain FILE: why a start failed and what would fix it, or how much a good one can bear.
#include <memory>
#include <string>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/commands/thread_count.hpp"
#include "sim/explaining/explanation.hpp"
#include "sim/pages/explain_page.hpp"
#include "sim/results/explain_json.hpp"
#include "sim/results/explain_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

struct ExplainOptions {
    std::string file;
    std::string json;
    std::string page;
    int threads = all_cores();
    bool quiet = false;
};

int run(const ExplainOptions& options) {
    const bool prints_text =
        standard_output_is_free({{"--json", options.json}, {"--page", options.page}});
    const Scenario scenario = read_scenario(options.file);
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    AskedOutput page_file(options.page);
    Counter counter("changes; ctrl-C keeps what is known");
    const InterruptLatch latch;
    SearchControl control;
    control.threads = options.threads;
    control.progress = [&counter](int done, int of) { counter.show(done, of); };
    control.interrupted = [] { return InterruptLatch::interrupted(); };
    const Explanation explanation = explain(scenario, control);
    counter.clear();
    if (page_file) {
        page_file.put(render(explain_page(explanation, run_recorded_start(scenario))));
    }
    if (json) {
        json.put(explain_json(explanation));
    }
    if (prints_text) {
        print_text(options.quiet ? explain_verdict(explanation) : explain_text(explanation));
    }
    return explanation.start.as_expected ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_explain_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ExplainOptions>();
    CLI::App* explain =
        app.add_subcommand("explain", "Why a start fails and what would fix it, proved by reruns");
    explain->add_option("FILE", options->file, "scenario file (TOML), - for standard input")
        ->required();
    explain
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    explain
        ->add_option("--page", options->page,
                     "write a page with the story, the changes and the waves to FILE")
        ->type_name("FILE.html");
    explain
        ->add_option("--threads", options->threads,
                     "reruns at the same time; all cores if not given")
        ->type_name("N")
        ->check(CLI::Range(1, most_threads));
    explain->add_flag("--quiet", options->quiet, "print only the verdict");
    explain->footer(
        "Example: runup explain sim/scenarios/hut_inverter_direct.toml\n"
        "Exit code: 0 the start ended as the scenario expects, 1 it did not, 2 bad input,\n"
        "3 a run failed. ctrl-C ends the reruns; what is known by then is printed.");
    explain->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
