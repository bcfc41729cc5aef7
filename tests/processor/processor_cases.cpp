#include "processor_cases.hpp"

#include <utility>
#include <variant>

#include "bench/cases.hpp"
#include "sim/campaigns/single_faults.hpp"
#include "sim/controllers/emulator_process.hpp"
#include "sim/controllers/processor_image.hpp"
#include "sim/controllers/processor_setup.hpp"

namespace processor_tests {

std::vector<Case> starts() {
    std::vector<Case> all;
    for (const std::string& name : sim_test::bundled_names()) {
        sim::Scenario scenario = sim_test::bundled(name);
        if (std::holds_alternative<sim::BuiltinLimiter>(scenario.limiter)) {
            all.push_back({name, std::move(scenario)});
        }
    }
    for (const sim_test::InventedMotor& motor : sim_test::invented_motors()) {
        all.push_back({motor.name, sim_test::limited_start(motor)});
    }
    return all;
}

std::vector<Case> faults() {
    std::vector<Case> all;
    const sim::Scenario sound = sim_test::bundled("reference_limited");
    for (const sim::SingleFault& single : sim::single_faults(sound)) {
        Case one{"fault " + single.name, sound};
        sim::Fault fault = single.fault;
        if (!single.only_from_the_beginning) {
            fault.timing.when = "climbing";
            fault.timing.after_s = 0.1;
        }
        one.scenario.faults = {fault};
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<Case> series() {
    std::vector<Case> all;
    for (const char* name : {"hut_inverter", "reference_limited", "dairy_50hz"}) {
        sim::Scenario scenario = sim_test::bundled(name);
        scenario.run.rest_between_s = 300.0;
        all.push_back({std::string("series ") + name, std::move(scenario), 12});
    }
    return all;
}

sim::Scenario on_processor(sim::Scenario scenario) {
    const auto& builtin = std::get<sim::BuiltinLimiter>(scenario.limiter);
    scenario.limiter = sim::ProcessorLimiter{builtin.parts, builtin.settings};
    return scenario;
}

std::string why_no_processor() {
    if (sim::embedded_processor_images().empty()) {
        return "built without the ARM compiler";
    }
    const std::string emulator = sim::processor_setup().emulator;
    return sim::can_be_started(emulator) ? "" : emulator + " is not installed";
}

}  // namespace processor_tests
