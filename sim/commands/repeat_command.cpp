// runup repeat FILE: starts in a row, with pressures, heat and memory carried over.
#include <fmt/format.h>

#include <cstdlib>
#include <memory>
#include <optional>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "sim/bench/repeat_comparison.hpp"
#include "sim/commands/asked_output.hpp"
#include "sim/commands/case_option.hpp"
#include "sim/commands/command_list.hpp"
#include "sim/commands/counter.hpp"
#include "sim/commands/interrupt.hpp"
#include "sim/commands/recording_file.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/files/bounded_input.hpp"
#include "sim/files/input_error.hpp"
#include "sim/files/quoting.hpp"
#include "sim/pages/repeat_page.hpp"
#include "sim/results/repeat_comparison_json.hpp"
#include "sim/results/repeat_comparison_text.hpp"
#include "sim/results/repeat_json.hpp"
#include "sim/results/repeat_text.hpp"
#include "sim/scenario/controller_settings.hpp"
#include "sim/tuning/regret.hpp"

namespace sim {

namespace {

constexpr int most_starts = 10000;

struct RepeatOptions {
    CaseOption what;
    std::string json;
    std::string page;
    std::string record;
    int starts = 12;
    std::optional<double> rest_s;
    std::string compare;
    int regret_starts = 0;
    bool power_cuts = false;
    bool quiet = false;
};

/// At the commas.
std::vector<std::string> separated(const std::string& list) {
    std::vector<std::string> words;
    std::istringstream stream(list);
    for (std::string word; std::getline(stream, word, ',');) {
        words.push_back(word);
    }
    return words;
}

/// A range alone lets NaN through, which is neither below nor above it.
std::string refuse_rest(const std::string& text) {
    const double rest_s = std::strtod(text.c_str(), nullptr);
    const bool fits = rest_s >= shortest_rest_between_s && rest_s <= longest_rest_between_s;
    return fits && text.find_first_not_of("0123456789.eE+-") == std::string::npos
               ? std::string()
               : fmt::format("{} is not accepted; give a number from {:g} to {:g}",
                             sim::quoted(text), shortest_rest_between_s, longest_rest_between_s);
}

std::string refuse_laws(const std::string& list) {
    const std::vector<std::string_view> names = learning_law_names();
    std::size_t count = 0;
    for (const std::string& law : separated(list)) {
        if (!learning_law_of(law)) {
            return fmt::format(
                "{} is not accepted; give learning laws with commas between them, "
                "of {}",
                sim::quoted(law), fmt::join(names, ", "));
        }
        ++count;
    }
    return count >= 2 ? std::string() : "give at least two learning laws to compare";
}

void refuse_without_controller(const Scenario& scenario, const RepeatOptions& options) {
    if (std::holds_alternative<BuiltinLimiter>(scenario.limiter)) {
        return;
    }
    const char* option = !options.compare.empty()    ? "--compare"
                         : options.regret_starts > 0 ? "--regret"
                                                     : nullptr;
    if (option != nullptr) {
        throw InputError(options.what.suite_case.empty() ? input_name(options.what.file)
                                                         : options.what.suite_case,
                         0, "limiter.kind",
                         fmt::format("{} needs a controller that learns; give [limiter] of kind "
                                     "\"builtin\"",
                                     option));
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

int run(const RepeatOptions& options) {
    const bool prints_text = standard_output_is_free(
        {{"--json", options.json}, {"--page", options.page}, {"--record", options.record}});
    const ChosenScenario chosen = chosen_scenario(options.what, true);
    const Scenario& scenario = chosen.scenario;
    refuse_without_controller(scenario, options);
    const InterruptLatch latch;
    // Opened before the work, so that a wrong path costs no time.
    AskedOutput json(options.json);
    AskedOutput page_file(options.page);
    std::optional<RecordingFile> recording;
    if (!options.record.empty()) {
        recording.emplace(options.record, scenario);
    }
    const RepeatPlan plan =
        chosen.one
            ? chosen.one->series
            : RepeatPlan{options.starts, options.rest_s.value_or(scenario.run.rest_between_s),
                         options.power_cuts || scenario.run.cuts_power_between_starts()};
    Counter counter("starts; ctrl-C keeps them");
    const GoOn go_on = [&counter, &plan](int done) {
        counter.show(done, plan.starts);
        return !InterruptLatch::interrupted();
    };
    if (!options.compare.empty()) {
        const RepeatComparison comparison =
            run_repeat_comparison(scenario, plan, separated(options.compare), go_on);
        counter.clear();
        put(prints_text, json, repeat_comparison_json(comparison),
            options.quiet ? repeat_comparison_verdict(comparison)
                          : repeat_comparison_text(comparison));
        return comparison.as_expected() ? ended_as_expected : ended_otherwise;
    }
    Afterwards afterwards;
    if (options.regret_starts > 0) {
        afterwards = [&](StartBench& bench, const Scenario& now) {
            counter.clear();
            Counter search_counter("ladders tried; ctrl-C keeps the best");
            std::optional<Regret> regret =
                measure_regret(bench, now, options.regret_starts, [&](int done, int of) {
                    search_counter.show(done, of);
                    return !InterruptLatch::interrupted();
                });
            search_counter.clear();
            return regret;
        };
    }
    FirstAndLast waves(plan.starts);
    Watchers watchers;
    if (page_file) {
        watchers = [&waves](int start_number, const Scenario& now) {
            return waves.watcher(start_number, now);
        };
    }
    RepeatResult result = run_repeat(scenario, plan, go_on, afterwards, watchers,
                                     recording ? &recording->writer() : nullptr);
    counter.clear();
    if (recording) {
        recording->commit();
    }
    std::vector<StartResult> judged;
    for (RepeatedStart& one : result.starts) {
        judge_case(chosen, one.start);
        if (chosen.one) {
            judged.push_back(one.start);
        }
    }
    if (page_file) {
        page_file.put(render(repeat_page(result, waves.finish(result))));
    }
    nlohmann::ordered_json object = repeat_json(result);
    if (chosen.one) {
        object["case"] = case_json(chosen, judged);
    }
    put(prints_text, json, object,
        (options.quiet ? repeat_verdict(result) : repeat_text(result)) +
            case_lines(chosen, judged));
    return result.as_expected() ? ended_as_expected : ended_otherwise;
}

}  // namespace

void add_repeat_command(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<RepeatOptions>();
    CLI::App* repeat =
        app.add_subcommand("repeat", "Run starts in a row, with what rest and memory make of them");
    add_case_option(*repeat, options->what);
    CLI::Option* starts =
        repeat->add_option("--starts", options->starts, "how many; 12 if not given")
            ->type_name("N")
            ->check(CLI::Range(1, most_starts));
    CLI::Option* rest =
        repeat
            ->add_option("--rest", options->rest_s,
                         "seconds from the end of a start to the next; [run] rest_between_s if not "
                         "given")
            ->type_name("S")
            ->check(refuse_rest);
    CLI::Option* power_cuts =
        repeat->add_flag("--power-cuts", options->power_cuts,
                         "the controller loses its power in every rest, as with [run] "
                         "power_between_starts = \"off\"");
    // A case says these itself.
    for (CLI::Option* option : {starts, rest, power_cuts}) {
        option->excludes(repeat->get_option("--case"));
    }
    CLI::Option* compare =
        repeat
            ->add_option("--compare", options->compare,
                         "the same series with each of these learning laws, as easing,none; "
                         "ratios are to the last")
            ->type_name("LAWS")
            ->check(refuse_laws);
    repeat
        ->add_option("--regret", options->regret_starts,
                     "after the series, search among so many ladders for the one with the least "
                     "line current, and compare")
        ->type_name("N")
        ->check(CLI::Range(30, 100000))
        ->excludes(compare);
    repeat
        ->add_option("--json", options->json,
                     "write the result as JSON to FILE, - for standard output")
        ->type_name("FILE");
    repeat
        ->add_option("--page", options->page,
                     "write a page with the learning curve to look at in a browser to FILE")
        ->type_name("FILE.html")
        ->excludes(compare);
    repeat
        ->add_option("--record", options->record,
                     "write what the controller met and decided in the whole series to FILE, for "
                     "runup replay")
        ->type_name("FILE")
        ->excludes(compare);
    repeat->add_flag("--quiet", options->quiet, "print only the verdict");
    repeat->footer(
        "Example: runup repeat sim/scenarios/reference_limited.toml --starts 3\n"
        "         runup repeat sim/scenarios/hut_inverter.toml --compare easing,none\n"
        "         runup repeat --case learning#0\n"
        "Exit code: 0 each start ended as the scenario expects, 1 one did not or ctrl-C cut the\n"
        "series short (what is finished is printed all the same), 2 bad input, 3 a run failed.");
    repeat->callback([options, &exit_code] { exit_code = run(*options); });
}

}  // namespace sim
