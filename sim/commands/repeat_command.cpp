// runup repeat FILE: starts in a row, with pressures, heat and memory carried over.
#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <optional>
#include <string>

#include "sim/bench/repeat_run.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/files/atomic_output.hpp"
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
std::string refuse_no_number(const std::string& text) {
    return std::isnan(std::strtod(text.c_str(), nullptr)) ? "Value " + text + " is not a number"
                                                          : std::string();
}

/// One line on a terminal that says how far it has come; nothing anywhere else.
class StartCounter {
  public:
    explicit StartCounter(int starts)
        : starts_(starts), on_terminal_(isatty(STDERR_FILENO) != 0 && starts > 1) {}
    void show(int done) const {
        if (on_terminal_) {
            fmt::print(stderr, "\r{} of {} starts; ctrl-C keeps them", done, starts_);
            std::fflush(stderr);
        }
    }
    void clear() const {
        if (on_terminal_) {
            fmt::print(stderr, "\r{:60}\r", "");
            std::fflush(stderr);
        }
    }

  private:
    int starts_;
    bool on_terminal_;
};

int run(const RepeatOptions& options) {
    const Scenario scenario = read_scenario(options.file);
    const InterruptLatch latch;
    // Opened before the work, so that a wrong path costs no time.
    std::optional<AtomicOutput> json;
    if (!options.json.empty()) {
        json.emplace(options.json);
    }
    const RepeatPlan plan{options.starts, options.rest_s.value_or(scenario.run.rest_between_s)};
    const StartCounter counter(plan.starts);
    const RepeatResult result = run_repeat(scenario, plan, [&counter](int done) {
        counter.show(done);
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
        ->check(CLI::Range(shortest_rest_between_s, longest_rest_between_s))
        ->check(refuse_no_number);
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
