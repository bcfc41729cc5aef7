// What a run shows of its state, as numbers in a row, so that runs can be compared number by
// number.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "plant_models/plant_outputs.hpp"

namespace published {

inline constexpr std::size_t observed_count = 10;
inline constexpr std::array<const char*, observed_count> observed_names = {
    "main current",  "auxiliary current", "capacitor voltage", "speed",        "torque",
    "source energy", "copper loss",       "wiring loss",       "work on load", "stored energy"};

using Observed = std::array<double, observed_count>;

inline Observed observed(const plant_models::PlantOutputs& out,
                         const plant_models::EnergyAudit& energy) {
    return {out.main_current_A,  out.aux_current_A, out.run_capacitor_voltage_V,
            out.speed_rad_per_s, out.torque_Nm,     energy.source_J,
            energy.copper_J,     energy.wiring_J,   energy.load_J,
            energy.stored_J};
}

/// For each number the largest magnitude over all instants.
inline Observed largest(const std::vector<Observed>& rows) {
    Observed result{};
    for (const Observed& row : rows) {
        for (std::size_t k = 0; k < observed_count; ++k) {
            result[k] = std::max(result[k], std::abs(row[k]));
        }
    }
    return result;
}

/// For each number the largest difference over all instants.
inline Observed largest_difference(const std::vector<Observed>& one,
                                   const std::vector<Observed>& other) {
    std::vector<Observed> difference = one;
    for (std::size_t row = 0; row < difference.size(); ++row) {
        for (std::size_t k = 0; k < observed_count; ++k) {
            difference[row][k] -= other.at(row)[k];
        }
    }
    return largest(difference);
}

}  // namespace published
