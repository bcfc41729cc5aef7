// runup start FILE: one start, the verdict, and the numbers that a practitioner asks for.
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/start_run.hpp"
#include "sim/commands/asked_output.hpp"
#include "sim/commands/case_option.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/pause_at_tick.hpp"
#include "sim/commands/progress.hpp"
#include "sim/commands/recording_file.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/commands/trace_options.hpp"
#include "sim/pages/start_page.hpp"
#include "sim/results/start_json.hpp"
#include "sim/results/start_text.hpp"

namespace sim {

namespace {

struct StartOptions {
    CaseOption what;
    std::string json;
    TraceOptions trace;
    std::string record;
    std::int64_t pause_at_tick = -1;
    std::string page;
    bool also_direct = false;
    bool quiet = false;
};

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
RecordedStart run_one(const Scenario& scenario, TickObserver* observer, PortListener* listener,
                      bool keeps_waves) {
    return keeps_waves ? run_recorded_start(scenario, observer, listener)
                       : RecordedStart{scenario, run_start(scenario, observer, listener), {}};
}

int run(const StartOptions& options) {
    if (options.trace.asks_for_list()) {
        print_text(watch_text(chosen_scenario(options.what, false).scenario));
        return ended_as_expected;
    }
    std::vector<OutputOption> outputs = {
        {"--json", options.json}, {"--page", options.page}, {"--record", options.record}};
    append_outputs(outputs, options.trace);
    const bool prints_text = standard_output_is_free(outputs);
    const ChosenScenario chosen = chosen_scenario(options.what, false);
    const Scenario& scenario = chosen.scenario;
    // Outputs are opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    AskedOutput page_file(options.page);
    Traces traces = open_traces(options.trace, scenario);
    std::optional<RecordingFile> recording;
    if (!options.record.empty()) {
        recording.emplace(options.record, scenario);
    }
    PauseAtTick pause(options.pause_at_tick, &traces);
    Progress progress(scenario.run.duration_s, &pause);
    std::optional<RecordedStart> direct;
    if (options.also_direct) {
        direct = run_one(without_limiter(scenario), nullptr, nullptr, static_cast<bool>(page_file));
    }
    RecordedStart start = run_one(scenario, &progress, recording ? &recording->writer() : nullptr,
                                  static_cast<bool>(page_file));
    progress.clear();
    judge_case(chosen, start.result);
    std::vector<StartResult> results;
    if (direct) {
        results.push_back(direct->result);
    }
    results.push_back(start.result);
    const StartResult& asked_for = results.back();

    traces.commit();
    if (recording) {
        recording->commit();
    }
    if (page_file) {
        page_file.put(render(start_page(start, direct)));
    }
    if (json) {
        nlohmann::ordered_json object = start_json(asked_for);
        if (options.also_direct) {
            object["direct"] = start_json(results.front());
        }
        if (chosen.one) {
            object["case"] = case_json(chosen, {asked_for});
        }
        json.put(object);
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
    add_trace_options(*start, options->trace);
    start
        ->add_option("--record", options->record,
                     "write what the controller met and decided to FILE, for runup replay")
        ->type_name("FILE");
    start
        ->add_option("--page", options->page,
                     "write a page with the waves to look at in a browser to FILE")
        ->type_name("FILE.html");
    start->add_flag("--also-direct", options->also_direct,
                    "run the same start without the limiter, too, and show both side by side");
    start
        ->add_option("--pause-at-tick", options->pause_at_tick,
                     "stop in the debugger just before the controller's step of tick N; without "
                     "a debugger, nothing")
        ->type_name("N")
        ->check(CLI::NonNegativeNumber);
    start->add_flag("--quiet", options->quiet, "print only the verdict");
    start->footer(
        "Example: runup start sim/scenarios/hut_inverter.toml --also-direct\n"
        "         runup start --case smoke#3 --page case.html\n"
        "Exit code: 0 ended as the scenario expects, 1 did not, 2 bad input, 3 the run failed.");
    start->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
