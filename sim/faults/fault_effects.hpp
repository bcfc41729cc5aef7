// What the faults that are there at one instant come to together: what is broken in the plant, and
// what stands between the plant and its controller.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "firmware/contract/frames.hpp"
#include "plant_models/damage.hpp"
#include "sim/scenario/fault_choice.hpp"

namespace sim {

enum Sensor : std::size_t { line_voltage_sensor, output_current_sensor, start_terminal_sensor };

struct StuckSensor {
    bool stuck = false;
    std::optional<std::uint16_t> counts;  ///< none: those of the last sample before
};

struct FaultEffects {
    plant_models::Damage damage;
    bool call_removed = false;
    bool controller_unpowered = false;
    std::array<StuckSensor, 3> sensors{};

    /// What comes through to the controller: `sample`, with the stuck readings held at those of
    /// `last`, the frame before.
    firmware::SensorFrame through_sensors(const firmware::SensorFrame& sample,
                                          const firmware::SensorFrame& last) const;
};

/// Where a fault stands.
struct FaultMoment {
    double elapsed_s = 0.0;  ///< since it began
    double supply_Hz = 0.0;  ///< nominal frequency of the supply
};

/// Adds a fault. Of two that claim the same part the later one in the list counts; voltage and
/// torque add up.
void add_effect(const Fault& fault, const FaultMoment& moment, FaultEffects& effects);

}  // namespace sim
