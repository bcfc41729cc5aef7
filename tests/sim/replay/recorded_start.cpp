#include "replay/recorded_start.hpp"

#include "sim/bench/repeat_run.hpp"
#include "sim/bench/start_run.hpp"

namespace sim_test {

namespace {

template <class Run>
std::string recorded(const sim::Scenario& scenario, Run run) {
    const TemporaryFolder folder;
    sim::AtomicOutput output(folder / "a.rec");
    sim::RecordingWriter writer(output, sim::recorded_beginning(scenario));
    run(writer);
    writer.finish();
    output.commit();
    return folder.get("a.rec");
}

}  // namespace

std::string recorded_start(const sim::Scenario& scenario) {
    return recorded(scenario, [&scenario](sim::RecordingWriter& writer) {
        sim::run_start(scenario, nullptr, &writer);
    });
}

std::string recorded_series(const sim::Scenario& scenario, int starts, double rest_s,
                            bool power_cuts) {
    return recorded(scenario, [&](sim::RecordingWriter& writer) {
        sim::run_repeat(
            scenario, {starts, rest_s, power_cuts}, [](int) { return true; }, {}, {}, &writer);
    });
}

sim::Recording read_back(const std::string& text) {
    const TemporaryFolder folder;
    return sim::read_recording(folder.put("a.rec", text));
}

}  // namespace sim_test
