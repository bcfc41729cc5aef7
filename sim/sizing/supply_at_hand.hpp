// A supply that a compressor could be put on, and the figures by which one buys it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

/// Who stands behind the socket: decides who carries a surge, and what is bought.
enum class SupplyRole {
    utility,  ///< grid and split phase: there already, carries what its conductors let through
    storage,  ///< an inverter with its battery
    engine,   ///< a generator; runs when it is needed
};

struct SupplyAtHand {
    std::string name;
    std::string title;
    plant_models::AnySupplyParameters source;
    plant_models::WiringParameters wiring;

    SupplyRole role() const;
    std::string_view kind() const;
    /// What is printed on it; none for a utility.
    std::optional<double> rated_VA() const;
    /// Of an inverter that is on and feeds nothing; none where the supply does not say. A generator
    /// or a utility has none.
    std::optional<double> idle_draw_W() const;
    double voltage_V() const { return plant_models::nominal_voltage_V(source); }
    double frequency_Hz() const { return plant_models::nominal_frequency_Hz(source); }
};

/// Farthest that a supply's voltage may be from the motor's, as a share of it.
inline constexpr double most_voltage_difference = 0.15;
inline constexpr double most_frequency_difference_Hz = 2.5;

/// Whether voltage and frequency suit the motor.
bool suits(const SupplyAtHand& supply, const plant_models::MotorParameters& motor);

/// The entry of the library; none if there is no such.
std::optional<SupplyAtHand> library_supply(std::string_view name);
/// All of the library that suit, by name.
std::vector<SupplyAtHand> library_supplies_for(const plant_models::MotorParameters& motor);

/// The unit on this supply.
Scenario on_supply(const Scenario& unit, const SupplyAtHand& supply);

}  // namespace sim
