// Changes of a grid, of a split-phase service and of a generator; the line voltage of any supply.
//
// 110 % of the motor's rated voltage is what IEC 60038 allows a supply at its most (recalled).
#include <algorithm>
#include <cmath>
#include <variant>

#include "plant_models/numeric/units.hpp"
#include "sim/explaining/change_list.hpp"
#include "sim/explaining/pinned_inverter.hpp"

namespace sim {

namespace {

using plant_models::GeneratorParameters;
using plant_models::GridParameters;
using plant_models::InverterParameters;
using plant_models::SplitPhaseParameters;

constexpr double highest_share_of_rated = 1.10;
constexpr double lowest_share_of_now = 0.60;
constexpr double stiffest_share = 0.25;
constexpr double weakest_factor = 20.0;
constexpr double largest_set = 4.0;
constexpr double smallest_set = 0.25;
/// Below this a line is stiff for any compressor of this size.
constexpr double stiff_ohm = 0.02;
constexpr double longest_cut_s = 5.0;

double impedance_ohm(double resistance_ohm, double inductance_mH, double frequency_Hz) {
    const double reactance_ohm = 2.0 * plant_models::pi * frequency_Hz * 1e-3 * inductance_mH;
    return std::hypot(resistance_ohm, reactance_ohm);
}

/// 0 where the supply is not a line.
double line_impedance_ohm(const Scenario& scenario) {
    if (const auto* grid = std::get_if<GridParameters>(&scenario.source)) {
        return impedance_ohm(grid->resistance_ohm, grid->inductance_mH, grid->frequency_Hz);
    }
    if (const auto* service = std::get_if<SplitPhaseParameters>(&scenario.source)) {
        const double leg_ohm = impedance_ohm(service->leg_resistance_ohm,
                                             service->leg_inductance_mH, service->frequency_Hz);
        const double neutral_ohm = impedance_ohm(
            service->neutral_resistance_ohm, service->neutral_inductance_mH, service->frequency_Hz);
        return service->is_leg_to_leg() ? 2.0 * leg_ohm : leg_ohm + neutral_ohm;
    }
    return 0.0;
}

void scale_impedance(Scenario& scenario, double factor) {
    if (auto* grid = std::get_if<GridParameters>(&scenario.source)) {
        grid->resistance_ohm *= factor;
        grid->inductance_mH *= factor;
    }
    if (auto* service = std::get_if<SplitPhaseParameters>(&scenario.source)) {
        service->leg_resistance_ohm *= factor;
        service->leg_inductance_mH *= factor;
        service->neutral_resistance_ohm *= factor;
        service->neutral_inductance_mH *= factor;
    }
}

Changes line_impedance(const Scenario& scenario, const char* name, const char* what,
                       double factor) {
    const double given_ohm = line_impedance_ohm(scenario);
    if (given_ohm <= (factor < 1.0 ? stiff_ohm : 0.0)) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "ohm";
    change.subject = "line impedance";
    change.spacing = Spacing::ratio;
    change.given = given_ohm;
    change.boldest = factor * given_ohm;
    change.set = [given_ohm](Scenario& changed, double value) {
        scale_impedance(changed, value / given_ohm);
    };
    return {change};
}

void set_voltage(Scenario& scenario, double voltage_V) {
    if (auto* service = std::get_if<SplitPhaseParameters>(&scenario.source)) {
        service->leg_voltage_V = service->is_leg_to_leg() ? 0.5 * voltage_V : voltage_V;
        return;
    }
    if (auto* inverter = std::get_if<InverterParameters>(&scenario.source)) {
        // What the voltage would otherwise derive stays as it is.
        *inverter = pinned(*inverter);
        inverter->voltage_V = voltage_V;
        return;
    }
    if (auto* transformer =
            std::get_if<plant_models::TransformerInverterParameters>(&scenario.source)) {
        *transformer = pinned(*transformer);
        transformer->voltage_V = voltage_V;
        return;
    }
    if (auto* generator = std::get_if<GeneratorParameters>(&scenario.source)) {
        generator->voltage_V = voltage_V;
        return;
    }
    std::get<GridParameters>(scenario.source).voltage_V = voltage_V;
}

Changes line_voltage(const Scenario& scenario, const char* name, const char* what,
                     double boldest_V) {
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "V";
    change.subject = "line voltage";
    change.spacing = Spacing::ratio;
    change.given = nominal_voltage_V(scenario.source);
    change.boldest = boldest_V;
    change.set = set_voltage;
    return {change};
}

Changes generator_rating(const Scenario& scenario, const char* name, const char* what,
                         double factor) {
    const auto* generator = std::get_if<GeneratorParameters>(&scenario.source);
    if (generator == nullptr) {
        return {};
    }
    Change change;
    change.name = name;
    change.what = what;
    change.unit = "VA";
    change.subject = "generator";
    change.spacing = Spacing::ratio;
    change.given = generator->rated_power_VA;
    change.boldest = factor * generator->rated_power_VA;
    change.set = [given = *generator](Scenario& changed, double value) {
        const double ratio = value / given.rated_power_VA;
        auto& set = std::get<GeneratorParameters>(changed.source);
        set.rated_power_VA = value;
        set.engine_power_W = ratio * given.engine_power_W;
        set.breaker_current_A = ratio * given.breaker_current_A;
        set.breaker_instant_current_A = ratio * given.breaker_instant_current_A;
    };
    return {change};
}

const GridParameters* grid_with_sag(const Scenario& scenario) {
    const auto* grid = std::get_if<GridParameters>(&scenario.source);
    return grid != nullptr && grid->sag_to_percent < 100.0 ? grid : nullptr;
}

}  // namespace

Changes stiffer_line(const Scenario& scenario) {
    return line_impedance(scenario, "stiffer_line", "a stiffer line", stiffest_share);
}

Changes weaker_line(const Scenario& scenario) {
    return line_impedance(scenario, "weaker_line", "a weaker line", weakest_factor);
}

Changes higher_line_voltage(const Scenario& scenario) {
    const double highest_V = highest_share_of_rated * scenario.motor.rated_voltage_V;
    return nominal_voltage_V(scenario.source) < highest_V
               ? line_voltage(scenario, "higher_line_voltage", "a higher voltage of the supply",
                              highest_V)
               : Changes{};
}

Changes lower_line_voltage(const Scenario& scenario) {
    return line_voltage(scenario, "lower_line_voltage", "a lower voltage of the supply",
                        lowest_share_of_now * nominal_voltage_V(scenario.source));
}

Changes without_sag(const Scenario& scenario) {
    if (grid_with_sag(scenario) == nullptr) {
        return {};
    }
    Change change;
    change.name = "no_sag";
    change.what = "no sag of the supply";
    change.subject = "sag";
    change.set = [](Scenario& changed, double /*done*/) {
        auto& grid = std::get<GridParameters>(changed.source);
        grid.sag_begin_s = 0.0;
        grid.sag_fall_s = 0.0;
        grid.sag_length_s = 0.0;
        grid.sag_to_percent = 100.0;
    };
    return {change};
}

/// As a timer would make it that holds the contactor off after a cut.
Changes longer_sag(const Scenario& scenario) {
    const GridParameters* grid = grid_with_sag(scenario);
    if (grid == nullptr || grid->sag_length_s >= longest_cut_s) {
        return {};
    }
    Change change;
    change.name = "longer_sag";
    change.what = "a longer sag, as a delay timer would make of it";
    change.unit = "s";
    change.subject = "sag";
    change.spacing = Spacing::ratio;
    change.given = grid->sag_length_s;
    change.boldest = longest_cut_s;
    change.set = [given_s = grid->sag_length_s](Scenario& changed, double value) {
        std::get<GridParameters>(changed.source).sag_length_s = value;
        // Watched for as long after it as before.
        changed.run.duration_s += value - given_s;
    };
    return {change};
}

Changes larger_generator(const Scenario& scenario) {
    return generator_rating(scenario, "larger_generator", "a larger generator", largest_set);
}

Changes smaller_generator(const Scenario& scenario) {
    return generator_rating(scenario, "smaller_generator", "a smaller generator", smallest_set);
}

}  // namespace sim
