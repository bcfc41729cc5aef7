// runup start FILE: one start, the verdict, and the numbers that a practitioner asks for.
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/start_run.hpp"
#include "sim/commands/case_option.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/progress.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/pages/start_page.hpp"
#include "sim/recorder/csv_trace.hpp"
#include "sim/results/start_json.hpp"
#include "sim/results/start_text.hpp"

namespace sim {

namespace {

struct StartOptions {
    CaseOption what;
    std::string json;
    std::string trace;
    std::string page;
    bool also_direct = false;
    bool quiet = false;
};

std::vector<std::string_view> model_channels(const Scenario& scenario) {
    return make_plant_run(describe_plant(scenario))->channel_names();
}

std::string printed(const StartOptions& options, const std::vector<StartResult>& results) {
    if (!options.quiet) {
        return start_text(results);
    }
    std::string lines;
    for (const StartResult& result : results) {
        lines += verdict_line(result);
    }
    return lines;
}

/// Only a page needs the waves.
RecordedStart run_one(const Scenario& scenario, TickObserver* observer, bool keeps_waves) {
    return keeps_waves ? run_recorded_start(scenario, observer)
                       : RecordedStart{scenario, run_start(scenario, observer), {}};
}

int run(const StartOptions& options) {
    const bool prints_text = standard_output_is_free(
        {{"--json", options.json}, {"--trace", options.trace}, {"--page", options.page}});
    const ChosenScenario chosen = chosen_scenario(options.what, false);
    const Scenario& scenario = chosen.scenario;
    // Outputs are opened before the work, so that a wrong path costs no time.
    std::optional<AtomicOutput> json;
    std::optional<AtomicOutput> trace_file;
    std::optional<CsvTrace> trace;
    std::optional<AtomicOutput> page_file;
    if (!options.json.empty()) {
        json.emplace(options.json);
    }
    const bool has_limiter = !std::holds_alternative<NoLimiter>(scenario.limiter);
    if (!options.trace.empty()) {
        trace_file.emplace(options.trace);
        trace.emplace(*trace_file, trace_channels(model_channels(scenario), has_limiter));
    }
    if (!options.page.empty()) {
        page_file.emplace(options.page);
    }

    Progress progress(scenario.run.duration_s, trace ? &*trace : nullptr);
    std::optional<RecordedStart> direct;
    if (options.also_direct) {
        direct = run_one(without_limiter(scenario), nullptr, page_file.has_value());
    }
    RecordedStart start = run_one(scenario, &progress, page_file.has_value());
    progress.clear();
    judge_case(chosen, start.result);
    std::vector<StartResult> results;
    if (direct) {
        results.push_back(direct->result);
    }
    results.push_back(start.result);
    const StartResult& asked_for = results.back();

    if (trace_file) {
        trace_file->commit();
    }
    if (page_file) {
        page_file->write(render(start_page(start, direct)));
        page_file->commit();
    }
    if (json) {
        nlohmann::ordered_json object = start_json(asked_for);
        if (options.also_direct) {
            object["direct"] = start_json(results.front());
        }
        if (chosen.one) {
            object["case"] = case_json(chosen, {asked_for});
        }
        json->write(object.dump(2) + "\n");
        json->commit();
    }
    if (prints_text) {
        print_text(printed(options, results) + case_lines(chosen, {asked_for}));
    }
    return asked_for.as_expected ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_start_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<StartOptions>();
    CLI::App* start = app.add_subcommand("start", "Run one start and say how it went");
    add_case_option(*start, options->what);
    start
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    start
        ->add_option("--trace", options->trace,
                     "write every channel at every tick as CSV to FILE, - for standard output")
        ->type_name("FILE");
    start
        ->add_option("--page", options->page,
                     "write a page with the waves to look at in a browser to FILE")
        ->type_name("FILE.html");
    start->add_flag("--also-direct", options->also_direct,
                    "run the same start without the limiter, too, and show both side by side");
    start->add_flag("--quiet", options->quiet, "print only the verdict");
    start->footer(
        "Example: runup start sim/scenarios/hut_inverter.toml --also-direct\n"
        "         runup start --case smoke#3 --page case.html\n"
        "Exit code: 0 ended as the scenario expects, 1 did not, 2 bad input, 3 the run failed.");
    start->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
