#include "sim/commands/trace_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "plant_models/supplies/supply_list.hpp"
#include "sim/bench/plant_of_scenario.hpp"
#include "sim/controllers/controller_port.hpp"
#include "sim/controllers/watch_list.hpp"
#include "sim/files/input_error.hpp"
#include "sim/recorder/watched_channels.hpp"

namespace sim {

namespace {

std::unique_ptr<ControllerPort> controller_to_watch(const Scenario& scenario) {
    if (std::holds_alternative<NoLimiter>(scenario.limiter)) {
        throw InputError(scenario.name, 0, "limiter.kind",
                         "a direct start has no controller to watch; leave --watch out");
    }
    return make_controller(scenario.limiter, scenario.motor);
}

void refuse_watch_without_trace(const TraceOptions& options) {
    if (!options.watch.empty() && options.files.empty()) {
        throw CLI::ValidationError("--watch",
                                   "what is watched goes into a trace; give --trace FILE, too");
    }
}

Traces open_all(const TraceOptions& options, const std::vector<TraceChannel>& channels,
                const TraceSubject& subject) {
    std::vector<std::unique_ptr<TraceWriter>> traces;
    for (const std::string& file : options.files) {
        const TraceFormat format =
            options.format.empty() ? trace_format_for(file) : *trace_format_of(options.format);
        traces.push_back(open_trace(file, format, channels, subject));
    }
    return Traces(std::move(traces));
}

}  // namespace

void add_trace_options(CLI::App& verb, TraceOptions& options) {
    verb.add_option("--trace", options.files,
                    "write every channel at every tick to FILE: .vcd, .cfg and .cff say which "
                    "format, anything else is CSV; - for standard output; may be given again")
        ->type_name("FILE")
        ->allow_extra_args(false);
    verb.add_option("--trace-format", options.format,
                    "of every trace, whatever its ending: " +
                        fmt::format("{}", fmt::join(trace_format_words(), ", ")))
        ->type_name("FORMAT")
        ->check(CLI::IsMember(trace_format_words()));
    verb.add_option("--watch", options.watch,
                    "trace these variables of the controller, too, with commas between them; "
                    "list prints them")
        ->type_name("NAMES");
}

void append_outputs(std::vector<OutputOption>& outputs, const TraceOptions& options) {
    for (const std::string& file : options.files) {
        outputs.push_back({"--trace", file});
    }
}

void Traces::observe(const TickView& view) {
    for (const std::unique_ptr<TraceWriter>& trace : traces_) {
        trace->observe(view);
    }
}

void Traces::commit() {
    for (const std::unique_ptr<TraceWriter>& trace : traces_) {
        trace->commit();
    }
}

Traces open_traces(const TraceOptions& options, const Scenario& scenario) {
    refuse_watch_without_trace(options);
    if (options.files.empty()) {
        return Traces({});
    }
    std::vector<WatchedChannel> watched;
    if (!options.watch.empty()) {
        watched = choose_watched(options.watch, controller_to_watch(scenario)->watchable());
    }
    const bool has_limiter = !std::holds_alternative<NoLimiter>(scenario.limiter);
    const auto plant = make_plant_run(describe_plant(scenario));
    const bool tells_only_states = std::holds_alternative<LibraryLimiter>(scenario.limiter);
    return open_all(options,
                    trace_channels(plant->channel_names(), has_limiter, watched, tells_only_states),
                    {scenario.name, plant_models::nominal_frequency_Hz(scenario.source)});
}

Traces open_traces(const TraceOptions& options, const ControllerPort& controller,
                   const TraceSubject& subject) {
    refuse_watch_without_trace(options);
    const std::vector<WatchedChannel> watched =
        options.watch.empty() ? std::vector<WatchedChannel>()
                              : choose_watched(options.watch, controller.watchable());
    return open_all(options, controller_trace_channels(watched), subject);
}

std::string watch_text(const Scenario& scenario) {
    return watch_text(*controller_to_watch(scenario));
}

std::string watch_text(const ControllerPort& controller) {
    const std::vector<std::string> names = controller.watchable();
    if (names.empty()) {
        return "This limiter's controller offers nothing to watch.\n";
    }
    std::size_t width = 0;
    for (const std::string& name : names) {
        width = std::max(width, name.size());
    }
    std::string text;
    for (const std::string& name : names) {
        const std::string_view meaning = watch_meaning(name);
        text += meaning.empty() ? name + "\n" : fmt::format("{:<{}}  {}\n", name, width, meaning);
    }
    return text;
}

}  // namespace sim
