#include "recorder/traced_start.hpp"

#include <memory>
#include <variant>

#include "sim/bench/start_run.hpp"
#include "sim/controllers/watch_list.hpp"
#include "sim/recorder/trace_writer.hpp"

namespace sim_test {

namespace {

class All final : public sim::TickObserver {
  public:
    void observe(const sim::TickView& view) override {
        for (const auto& trace : traces) {
            trace->observe(view);
        }
    }
    std::vector<std::unique_ptr<sim::TraceWriter>> traces;
};

}  // namespace

void trace_start(const sim::Scenario& scenario, const TemporaryFolder& folder,
                 const std::vector<std::string>& names, const std::string& format) {
    const bool has_limiter = !std::holds_alternative<sim::NoLimiter>(scenario.limiter);
    const auto plant = sim::make_plant_run(sim::describe_plant(scenario));
    const auto channels =
        sim::trace_channels(plant->channel_names(), has_limiter,
                            has_limiter ? sim::choose_watched("line,sequence", sim::watch_names())
                                        : std::vector<sim::WatchedChannel>());
    All all;
    for (const std::string& name : names) {
        const sim::TraceFormat chosen =
            format.empty() ? sim::trace_format_for(name) : *sim::trace_format_of(format);
        all.traces.push_back(
            sim::open_trace(folder / name, chosen, channels,
                            {scenario.name, plant_models::nominal_frequency_Hz(scenario.source)}));
    }
    sim::run_start(scenario, &all);
    for (const auto& trace : all.traces) {
        trace->commit();
    }
}

std::vector<std::string> split(const std::string& text, char separator) {
    std::vector<std::string> pieces(1);
    for (const char letter : text) {
        if (letter == separator) {
            pieces.emplace_back();
        } else {
            pieces.back() += letter;
        }
    }
    return pieces;
}

CsvColumns::CsvColumns(const std::string& text) {
    std::vector<std::string> lines = split(text, '\n');
    lines.pop_back();  // behind the last line end
    names = split(lines.at(0), ',');
    rows = lines.size() - 1;
    for (std::size_t row = 1; row < lines.size(); ++row) {
        const std::vector<std::string> cells = split(lines[row], ',');
        for (std::size_t k = 0; k < names.size(); ++k) {
            columns[names[k]].push_back(cells.at(k));
        }
    }
}

}  // namespace sim_test
