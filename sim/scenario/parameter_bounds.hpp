// Whether a parameter struct that was changed in the program, and not read from a file, is still
// inside its own table.
#pragma once

#include <fmt/format.h>

#include <string>
#include <variant>

#include "plant_models/parameter_table.hpp"
#include "sim/scenario/parameter_keys.hpp"

namespace sim {

/// "run_capacitor_uF would become 2000; keep it from 0 to 500"; empty if every number is in bounds.
template <class P>
std::string number_out_of_bounds(const P& parameters) {
    for (const plant_models::Parameter<P>& row : P::table()) {
        const double value = std::visit(
            [&](auto member) { return static_cast<double>(parameters.*member); }, row.member);
        if (!(value >= row.lowest && value <= row.highest)) {
            return fmt::format("{} would become {:g}; keep it from {:g} to {:g}", row.key, value,
                               row.lowest, row.highest);
        }
    }
    return {};
}

/// The same, or what is inconsistent.
template <class P>
std::string out_of_bounds(const P& parameters) {
    std::string fault = number_out_of_bounds(parameters);
    if constexpr (HasInconsistency<P>::value) {
        if (fault.empty()) {
            fault = std::string(parameters.inconsistency());
        }
    }
    return fault;
}

}  // namespace sim
