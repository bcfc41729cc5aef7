// runup size COMPRESSOR: does it need a limiter on these supplies, which supply would start it
// otherwise, and what would each choice cost.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include "sim/commands/asked_output.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/commands/thread_count.hpp"
#include "sim/files/input_error.hpp"
#include "sim/pages/size_page.hpp"
#include "sim/results/size_json.hpp"
#include "sim/results/size_text.hpp"
#include "sim/sizing/bad_day.hpp"
#include "sim/sizing/cost_file.hpp"

namespace sim {

namespace {

struct SizeOptions {
    std::string compressor;
    std::vector<std::string> supplies;
    std::string costs;
    std::string json;
    std::string page;
    int draws = 200;
    std::uint32_t seed = 1;
    int threads = all_cores();
    double least_percent = 90.0;
    double least_voltage_percent = 80.0;
    bool not_backed_up = false;
    bool variable_speed = false;
    bool assumptions = false;
    bool quiet = false;
};

std::string assumptions_text() {
    std::string text = "A bad day (each drawn evenly between its ends)\n";
    for (const BadDayFigure& figure : bad_day_figures()) {
        text += fmt::format("  {} {:g} to {:g}\n      {}\n      {}\n", figure.name, figure.lowest,
                            figure.highest, figure.meaning, figure.origin);
    }
    return text + "\nA file for --costs\n" + describe_cost_keys();
}

void check_draws(const SizeOptions& options) {
    const int fewest = fewest_draws(0.01 * options.least_percent);
    if (options.draws < fewest) {
        throw InputError("size", 0, "--draws",
                         fmt::format("{} bad days cannot show {:g} %, even if none is lost; give "
                                     "at least {}, or a lower --at-least",
                                     options.draws, options.least_percent, fewest));
    }
}

void put(bool prints_text, AskedOutput& json, const nlohmann::ordered_json& result,
         const std::string& text) {
    if (json) {
        json.put(result);
    }
    if (prints_text) {
        print_text(text);
    }
}

std::vector<SupplyAtHand> supplies_of(const SizeOptions& options, const SizedUnit& sized) {
    std::vector<SupplyAtHand> supplies = supplies_to_look_at(sized, options.supplies);
    if (options.not_backed_up) {
        supplies.erase(std::remove_if(supplies.begin(), supplies.end(),
                                      [](const SupplyAtHand& one) {
                                          return one.role() != SupplyRole::utility;
                                      }),
                       supplies.end());
        if (supplies.empty()) {
            throw InputError(
                "size", 0, "--not-backed-up",
                "the compressor is then on the utility, but no --supply is one; give a "
                "grid or a service, or no --supply at all");
        }
    }
    return supplies;
}

int run(const SizeOptions& options) {
    if (options.assumptions) {
        print_text(assumptions_text());
        return ended_as_expected;
    }
    if (options.compressor.empty()) {
        throw CLI::RequiredError("COMPRESSOR");
    }
    if (options.compressor == "-" && options.costs == "-") {
        throw CLI::ValidationError("COMPRESSOR and --costs",
                                   "only one of them can be standard input");
    }
    const bool prints_text =
        standard_output_is_free({{"--json", options.json}, {"--page", options.page}});
    check_draws(options);
    SizeReport report;
    report.sized = read_sized_unit(options.compressor);
    report.costs = options.costs.empty() ? example_costs() : read_costs(options.costs);
    report.costs_are_examples = options.costs.empty();
    const std::vector<SupplyAtHand> supplies = supplies_of(options, report.sized);
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    AskedOutput page(options.page);
    if (options.variable_speed) {
        put(prints_text, json, variable_speed_json(report.sized),
            options.quiet ? report.sized.unit.name + ": no limiter needed: variable speed\n"
                          : variable_speed_text(report.sized.unit.title));
        return ended_as_expected;
    }
    report.plan = {options.draws, options.seed, options.threads};
    report.not_backed_up = options.not_backed_up;
    Counter counter("starts; ctrl-C shows what is known");
    const InterruptLatch latch;
    report.findings =
        run_sizing(report.sized.unit, supplies, report.plan, [&counter](int done, int of) {
            counter.show(done, of);
            return !InterruptLatch::interrupted();
        });
    counter.clear();
    report.decision =
        decide(report.findings, options.draws,
               {0.01 * options.least_percent, 0.01 * options.least_voltage_percent}, report.costs);
    if (page) {
        page.put(render(size_page(report)));
    }
    put(prints_text, json, size_json(report),
        options.quiet ? size_verdict(report) : size_text(report));
    return report.decision.anything_starts_it() && !report.findings.ended_early ? ended_as_expected
                                                                                : ended_otherwise;
}

}  // namespace

void add_size_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<SizeOptions>();
    CLI::App* size = app.add_subcommand(
        "size", "Does it need a limiter, which supply would start it, and what each choice costs");
    size->add_option("COMPRESSOR", options->compressor,
                     "a compressor that runup list shows, a nameplate file as for runup fit, or a "
                     "scenario file (its own supply is then looked at, too)");
    size->add_option("--supply", options->supplies,
                     "a supply that runup list shows; repeat it for more. Without any: all that "
                     "suit the compressor's voltage and frequency")
        ->type_name("NAME")
        ->allow_extra_args(false);
    size->add_option("--costs", options->costs,
                     "file (TOML) of prices and sun; without it example prices. "
                     "--assumptions shows its keys")
        ->type_name("FILE");
    size->add_flag("--not-backed-up", options->not_backed_up,
                   "the compressor is not on the circuits that an inverter carries");
    size->add_option("--draws", options->draws, "bad days for each supply and way; 200")
        ->type_name("N")
        ->check(CLI::Range(10, 100000));
    size->add_option("--seed", options->seed, "of the bad days; 1")->type_name("N");
    size->add_option("--at-least", options->least_percent,
                     "lower end of the rate's interval that is good enough; 90")
        ->type_name("PERCENT")
        ->check(CLI::Range(1.0, 99.9));
    size->add_option("--least-voltage", options->least_voltage_percent,
                     "of nominal, to which an inverter's or a generator's voltage may fall; 80. 0: "
                     "nothing else hangs on it")
        ->type_name("PERCENT")
        ->check(CLI::Range(0.0, 100.0));
    size->add_option("--threads", options->threads,
                     "starts that run at the same time; as many as there are cores")
        ->type_name("N")
        ->check(CLI::Range(1, most_threads));
    size->add_option("--json", options->json,
                     "write the answer as JSON to FILE, - for standard output")
        ->type_name("FILE");
    CLI::Option* page = size->add_option("--page", options->page,
                                         "write a page with the answer to look at in a browser to "
                                         "FILE")
                            ->type_name("FILE");
    size->add_flag("--quiet", options->quiet, "print only one line");
    size->add_flag("--variable-speed", options->variable_speed,
                   "the compressor has a variable-speed drive of its own")
        ->excludes(page);
    size->add_flag("--assumptions", options->assumptions,
                   "print what a bad day is, and the keys of a file for --costs; nothing is run");
    size->footer(
        "Example: runup size cold_room_230v_50hz --supply hut_inverter_3kva_230v_50hz --supply "
        "house_grid_230v_50hz\n"
        "Exit code: 0 a way was found or none is needed, 1 nothing listed starts it (or the work "
        "was\n"
        "ended early), 2 bad input, 3 a run failed.\n"
        "ctrl-C ends the work; what is known until then is printed.");
    size->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
