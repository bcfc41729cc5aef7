// runup tune FILE: the ladder that starts a compressor on the least line current.
#include <memory>
#include <string>
#include <variant>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/input_error.hpp"
#include "sim/results/tune_json.hpp"
#include "sim/results/tune_text.hpp"
#include "sim/scenario/scenario_reader.hpp"
#include "sim/tuning/ladder_search.hpp"

namespace sim {

namespace {

struct TuneOptions {
    std::string file;
    std::string json;
    int starts = 400;
    bool quiet = false;
};

int run(const TuneOptions& options) {
    const Scenario scenario = read_scenario(options.file);
    if (!std::holds_alternative<BuiltinLimiter>(scenario.limiter)) {
        throw InputError(options.file, 0, "limiter.kind",
                         "there is no ladder to tune; give [limiter] kind = \"builtin\"");
    }
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    Counter counter("starts; ctrl-C keeps what is found");
    const InterruptLatch latch;
    const LadderSearch search =
        search_ladder(scenario, options.starts, [&counter](int done, int of) {
            counter.show(done, of);
            return !InterruptLatch::interrupted();
        });
    counter.clear();
    if (json) {
        json.put(tune_json(scenario.name, search));
    }
    if (options.json != "-") {
        AtomicOutput output("-");
        output.write(options.quiet ? tune_verdict(scenario.name, search)
                                   : tune_text(scenario.title, search));
        output.commit();
    }
    return search.best.counts ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_tune_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<TuneOptions>();
    CLI::App* tune = app.add_subcommand("tune", "Search the ladder with the least line current");
    tune->add_option("FILE", options->file, "scenario file (TOML), - for standard input")
        ->required();
    tune->add_option("--starts", options->starts, "starts to simulate; 400 if not given")
        ->type_name("N")
        ->check(CLI::Range(30, 100000));
    tune->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    tune->add_flag("--quiet", options->quiet, "print only what was gained");
    tune->footer(
        "Example: runup tune sim/scenarios/reference_limited.toml --starts 60\n"
        "Exit code: 0 found one, 1 no ladder brings the rotor up in time, 2 bad input.\n"
        "ctrl-C ends the search; what was found until then is printed.");
    tune->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
