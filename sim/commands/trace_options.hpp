// The options about traces, the same for every verb that has a run to trace.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <vector>

#include "sim/bench/start_bench.hpp"
#include "sim/commands/standard_output.hpp"
#include "sim/recorder/trace_writer.hpp"
#include "sim/scenario/scenario.hpp"

namespace sim {

struct TraceOptions {
    std::vector<std::string> files;
    std::string format;  ///< empty: by each file's ending
    std::string watch;

    bool asks_for_list() const { return watch == "list"; }
};

/// `options` must outlive the application.
void add_trace_options(CLI::App& verb, TraceOptions& options);
void append_outputs(std::vector<OutputOption>& outputs, const TraceOptions& options);

/// All traces of one run.
class Traces final : public TickObserver {
  public:
    explicit Traces(std::vector<std::unique_ptr<TraceWriter>> traces)
        : traces_(std::move(traces)) {}

    void observe(const TickView& view) override;
    void commit();
    bool empty() const { return traces_.empty(); }

  private:
    std::vector<std::unique_ptr<TraceWriter>> traces_;
};

/// Of a run of this scenario. Throws InputError and OutputError.
Traces open_traces(const TraceOptions& options, const Scenario& scenario);
/// Of a controller without a plant.
Traces open_traces(const TraceOptions& options, const ControllerPort& controller,
                   const TraceSubject& subject);

/// What --watch list prints: the variables of the scenario's controller.
std::string watch_text(const Scenario& scenario);
std::string watch_text(const ControllerPort& controller);

}  // namespace sim
