// Whether a parameter struct that was changed in the program, and not read from a file, is still
// inside its own table.
#pragma once

#include <fmt/format.h>

#include <string>
#include <variant>

#include "plant_models/parameter_table.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

/// "run_capacitor_uF would become 2000; keep it from 0 to 500", or what is inconsistent; empty if
/// all is well.
template <class P>
std::string out_of_bounds(const P& parameters) {
    for (const plant_models::Parameter<P>& row : P::table()) {
        const double value = std::visit(
            [&](auto member) { return static_cast<double>(parameters.*member); }, row.member);
        if (!(value >= row.lowest && value <= row.highest)) {
            return fmt::format("{} would become {:g}; keep it from {:g} to {:g}", row.key, value,
                               row.lowest, row.highest);
        }
    }
    if constexpr (HasInconsistency<P>::value) {
        return std::string(parameters.inconsistency());
    } else {
        return {};
    }
}

}  // namespace sim
