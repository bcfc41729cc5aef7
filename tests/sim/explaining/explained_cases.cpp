#include "explaining/explained_cases.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "commands/program.hpp"
#include "sim/scenario/scenario_reader.hpp"

namespace sim_test {

sim::Scenario milk_cooler_with_faults(const std::vector<std::string>& kinds) {
    std::string text =
        "[library]\ncompressor = \"milk_cooler_240v_50hz\"\nsupply = \"rural_grid_230v_50hz\"\n"
        "[start_aid]\nkind = \"none\"\n"
        "[limiter]\nkind = \"builtin\"\nstart_capacitor_uF = 100\n";
    for (const std::string& kind : kinds) {
        text += "[[fault]]\nkind = \"" + kind + "\"\n";
    }
    return sim::parse_scenario(text, "milk_cooler.toml");
}

sim::Scenario bundled_with(const std::string& name, const std::string& key,
                           const std::string& value) {
    std::ifstream file(bundled_path(name));
    std::string text;
    int replaced = 0;
    for (std::string line; std::getline(file, line);) {
        if (line.rfind(key + " = ", 0) == 0) {
            line = key + " = " + value;
            ++replaced;
        }
        text += line + "\n";
    }
    if (replaced != 1) {
        throw std::logic_error(name + " does not have " + key + " once");
    }
    return sim::parse_scenario(text, name + ".toml");
}

const sim::WayOfChange& way_of(const sim::Explanation& explanation, const std::string& name) {
    const auto found =
        std::find_if(explanation.ways.begin(), explanation.ways.end(),
                     [&name](const sim::WayOfChange& way) { return way.change.name == name; });
    if (found == explanation.ways.end()) {
        throw std::logic_error("no change of the name " + name);
    }
    return *found;
}

sim::SearchControl with_threads(int threads) {
    sim::SearchControl control;
    control.threads = threads;
    return control;
}

}  // namespace sim_test
