// runup repeat FILE: starts in a row, with pressures, heat and memory carried over.
#include <fmt/format.h>

#include <cstdlib>
#include <memory>
#include <optional>
#include <string>

#include "sim/bench/repeat_run.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/files/atomic_output.hpp"
#include "sim/files/quoting.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/repeat_text.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim {

namespace {

constexpr int most_starts = 10000;

struct RepeatOptions {
    std::string file;
    std::string json;
    int starts = 12;
    std::optional<double> rest_s;
    bool quiet = false;
};

/// A range alone lets NaN through, which is neither below nor above it.
std::string refuse_rest(const std::string& text) {
    const double rest_s = std::strtod(text.c_str(), nullptr);
    const bool fits = rest_s >= shortest_rest_between_s && rest_s <= longest_rest_between_s;
    return fits && text.find_first_not_of("0123456789.eE+-") == std::string::npos
               ? std::string()
               : fmt::format("{} is not accepted; give a number from {:g} to {:g}",
                             sim::quoted(text), shortest_rest_between_s, longest_rest_between_s);
}

int run(const RepeatOptions& options) {
    const Scenario scenario = read_scenario(options.file);
    const InterruptLatch latch;
    // Opened before the work, so that a wrong path costs no time.
    std::optional<AtomicOutput> json;
    if (!options.json.empty()) {
        json.emplace(options.json);
    }
    const RepeatPlan plan{options.starts, options.rest_s.value_or(scenario.run.rest_between_s)};
    Counter counter("starts; ctrl-C keeps them");
    const RepeatResult result = run_repeat(scenario, plan, [&counter, &plan](int done) {
        counter.show(done, plan.starts);
        return !InterruptLatch::interrupted();
    });
    counter.clear();
    if (json) {
        json->write(repeat_json(result).dump(2) + "\n");
        json->commit();
    }
    // JSON on standard output stands alone, so that it can be piped.
    if (options.json != "-") {
        AtomicOutput output("-");
        output.write(options.quiet ? repeat_verdict(result) : repeat_text(result));
        output.commit();
    }
    return result.as_expected() ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_repeat_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<RepeatOptions>();
    CLI::App* repeat =
        app.add_subcommand("repeat", "Run starts in a row, with what rest and memory make of them");
    repeat->add_option("FILE", options->file, "scenario file (TOML), - for standard input")
        ->required();
    repeat->add_option("--starts", options->starts, "how many; 12 if not given")
        ->type_name("N")
        ->check(CLI::Range(1, most_starts));
    repeat
        ->add_option("--rest", options->rest_s,
                     "seconds from the end of a start to the next; [run] rest_between_s if not "
                     "given")
        ->type_name("S")
        ->check(refuse_rest);
    repeat
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    repeat->add_flag("--quiet", options->quiet, "print only the verdict");
    repeat->footer(
        "Example: runup repeat sim/scenarios/reference_limited.toml --starts 3\n"
        "Exit code: 0 each start ended as the scenario expects, 1 one did not or ctrl-C cut the\n"
        "series short (what is finished is printed all the same), 2 bad input, 3 a run failed.");
    repeat->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
