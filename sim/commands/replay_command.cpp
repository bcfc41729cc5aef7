// runup replay RECORDING: the same sensor readings, another build or other settings.
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/commands/trace_options.hpp"
#include "sim/replay/replay.hpp"
#include "sim/results/replay_json.hpp"
#include "sim/results/replay_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

struct ReplayOptions {
    std::string file;
    std::string settings;
    std::string json;
    TraceOptions trace;
    bool quiet = false;
};

int run(const ReplayOptions& options) {
    std::vector<OutputOption> outputs = {{"--json", options.json}};
    append_outputs(outputs, options.trace);
    const bool prints_text = standard_output_is_free(outputs);
    const Recording recording = read_recording(options.file);
    std::optional<Scenario> other;
    if (!options.settings.empty()) {
        other = read_scenario(options.settings);
    }
    const std::unique_ptr<ControllerPort> controller =
        controller_for(recording, options.file, other ? &*other : nullptr);
    if (options.trace.asks_for_list()) {
        print_text(watch_text(*controller));
        return ended_as_expected;
    }
    AskedOutput json(options.json);
    Traces traces = open_traces(options.trace, *controller,
                                {recording.beginning.scenario, recording.beginning.frequency_Hz});
    const ReplayResult result = replay(recording, *controller, traces.empty() ? nullptr : &traces);
    traces.commit();
    if (json) {
        json.put(replay_json(result));
    }
    if (prints_text) {
        print_text(options.quiet ? replay_verdict(result) : replay_text(result));
    }
    return result.is_same() ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_replay_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ReplayOptions>();
    CLI::App* replay = app.add_subcommand(
        "replay", "Ask this build what it makes of recorded sensor readings, and compare");
    replay
        ->add_option("RECORDING", options->file,
                     "written by runup start or repeat with --record, - for standard input")
        ->required();
    replay
        ->add_option("--settings", options->settings,
                     "ask the controller of this scenario's [limiter] instead of the recorded one")
        ->type_name("SCENARIO");
    replay
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    add_trace_options(*replay, options->trace);
    replay->add_flag("--quiet", options->quiet, "print only the verdict");
    replay->footer(
        "Example: runup start sim/scenarios/hut_inverter.toml --record before.rec\n"
        "         runup replay before.rec\n"
        "Exit code: 0 the same decisions in every tick, 1 others, 2 bad input.");
    replay->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
