// What is printed on the bundled compressors, for the checks against it, and the running unit at
// its rating.
#pragma once

#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace published {

inline constexpr double watts_per_hp = 745.7;
inline constexpr double watts_per_ton = 3517.0;

/// What a unit's nameplate says. The five units whose currents are published have no power on it.
struct Plate {
    const char* name;
    double rated_load_A;
    double locked_rotor_A;
    double hp;  ///< 0: none
    /// Of NEMA MG 1, worked out by hand: rated V x locked-rotor A / 1000 / hp.
    char code_letter;
    double tons;  ///< 0: none
};

/// Those whose currents are published.
const std::vector<Plate>& published_plates();
/// All the others.
const std::vector<Plate>& invented_plates();
std::vector<Plate> all_plates();

/// The bundled compressor of this name, as its file gives it.
sim::Scenario unit_named(std::string_view name);

/// Phasors, by the same reckoning that `runup list` shows.
double locked_rotor_A(std::string_view name);

struct RatedRun {
    double current_A;
    double speed_rpm;
    sim::Outcome outcome;
};

/// The warm unit at the pressures of its rating, on rated voltage: means over the last second.
RatedRun run_at_rating(std::string_view name);

}  // namespace published
