#include "support/plant_positions.hpp"

#include <utility>

namespace support {

using plant_models::MainPath;

std::vector<PlantPosition> all_positions() {
    const std::vector<std::pair<MainPath, double>> paths = {
        {MainPath::open, 0.0},       {MainPath::bypass, 0.0}, {MainPath::thyristor, 1.0},
        {MainPath::thyristor, -1.0}, {MainPath::arc, 1.0},    {MainPath::arc, -1.0}};
    std::vector<PlantPosition> positions;
    for (const auto& [path, direction] : paths) {
        for (const bool line : {false, true}) {
            for (const bool start : {false, true}) {
                for (const double rotation : {-1.0, 0.0, 1.0}) {
                    positions.push_back({path, direction, line, start, rotation});
                }
            }
        }
    }
    return positions;
}

std::string describe(const PlantPosition& position) {
    const char* const names[] = {"open", "thyristor", "bypass", "arc"};
    return std::string("main path ") + names[static_cast<int>(position.main_path)] + " " +
           std::to_string(static_cast<int>(position.main_direction)) + ", line " +
           (position.line_connected ? "on" : "off") + ", start capacitor " +
           (position.start_capacitor_in ? "in" : "out") + ", rotation " +
           std::to_string(static_cast<int>(position.rotation));
}

FreeCurrents free_currents(const PlantPosition& position, bool run_capacitor) {
    const bool main = position.main_path != MainPath::open;
    const bool auxiliary = run_capacitor || position.start_capacitor_in;
    if (position.line_connected) {
        return {main, auxiliary, false};
    }
    return {main && auxiliary, main && auxiliary, main && auxiliary};
}

}  // namespace support
