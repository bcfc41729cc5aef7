#include "sim/fitting/acceptance.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

namespace sim {

namespace {

constexpr double rounding_room = 1e-4;

double half_width(const SoftFigure& soft) {
    return 0.5 * (soft.highest - soft.lowest);
}

bool within_scenario_bounds(const plant_models::MotorParameters& motor) {
    const auto& table = plant_models::MotorParameters::table();
    return std::all_of(table.begin(), table.end(), [&motor](const auto& row) {
        const double value = std::visit(
            [&motor](auto member) { return static_cast<double>(motor.*member); }, row.member);
        return value >= row.lowest && value <= row.highest;
    });
}

}  // namespace

double difference(const HardFigure& hard, const MotorFigures& figures) {
    return figures.*hard.member / hard.asked - 1.0;
}

double below_band(const SoftFigure& soft, const MotorFigures& figures) {
    return (soft.lowest - figures.*soft.member) / half_width(soft);
}

double above_band(const SoftFigure& soft, const MotorFigures& figures) {
    return (figures.*soft.member - soft.highest) / half_width(soft);
}

bool inside_band(const SoftFigure& soft, const MotorFigures& figures) {
    return below_band(soft, figures) <= rounding_room && above_band(soft, figures) <= rounding_room;
}

bool meets_printed_figures(const MotorClass& motor_class, const MotorFigures& figures) {
    return std::all_of(motor_class.hard.begin(), motor_class.hard.end(),
                       [&figures](const HardFigure& hard) {
                           return std::abs(difference(hard, figures)) <= hard_tolerance;
                       });
}

bool is_accepted(const MotorClass& motor_class, const Candidate& candidate) {
    return meets_printed_figures(motor_class, candidate.figures) &&
           std::all_of(motor_class.soft.begin(), motor_class.soft.end(),
                       [&candidate](const SoftFigure& soft) {
                           return inside_band(soft, candidate.figures);
                       }) &&
           within_scenario_bounds(candidate.motor);
}

}  // namespace sim
