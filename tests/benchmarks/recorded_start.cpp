#include "recorded_start.hpp"

#include <string>

#include "sim/scenario/scenario_reader.hpp"

namespace benchmarks {

namespace {

class Recorder final : public sim::TickObserver {
  public:
    explicit Recorder(RecordedStart& into) : into_(into) {}

    void observe(const sim::TickView& view) override {
        into_.line_current_A.push_back(view.plant.line_current_A);
        // A view brings the commands of the tick that ends there.
        if (view.time.count() > 0) {
            into_.commands.push_back(view.commands);
        }
        if (view.samples != nullptr) {
            into_.samples.push_back(*view.samples);
        }
    }

  private:
    RecordedStart& into_;
};

}  // namespace

sim::Scenario bundled_scenario(const char* name) {
    return sim::read_scenario(std::string(RUNUP_SCENARIOS_FOLDER) + "/" + name + ".toml");
}

RecordedStart record_start(const sim::Scenario& scenario) {
    RecordedStart start;
    start.scenario = scenario;
    Recorder recorder(start);
    start.result = sim::run_start(scenario, &recorder);
    return start;
}

}  // namespace benchmarks
