#include "sim/fitting/motor_space.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/numeric/units.hpp"
#include "sim/fitting/inertia_estimate.hpp"

namespace sim {

namespace {

/// Film capacitors: loss factor 0.001 (judgement).
constexpr double capacitor_loss_factor = 0.001;
/// Of friction and windage together, what the bearings take (judgement).
constexpr double friction_part = 0.6;

/// Only the scale of iron, friction and windage; the currents and the shaft's power decide what the
/// losses really are.
double expected_losses_W(const Nameplate& plate) {
    const double apparent_VA = plate.rated_apparent_VA();
    const double power_factor = plate.has_run_capacitor() ? 0.97 : 0.65;
    const double usual_efficiency = apparent_VA < 500.0 ? 0.65 : apparent_VA < 2000.0 ? 0.77 : 0.86;
    const double input_W = apparent_VA * power_factor;
    const double shaft_W = plate.printed_shaft_W().value_or(usual_efficiency * input_W);
    return std::max(input_W - shaft_W, 0.04 * input_W);
}

double on_log_scale(const Unknown& side, double place) {
    return side.lowest * std::pow(side.highest / side.lowest, place);
}

}  // namespace

MotorSpace::MotorSpace(const Nameplate& plate, const MotorClass& of)
    : sides_{of.main_resistance, of.main_leakage, of.rotor_resistance,     of.rotor_leakage_ratio,
             of.magnetizing,     of.turns_ratio,  of.aux_resistance_ratio, of.aux_leakage_ratio,
             of.rated_slip,      of.iron_share,   of.mechanical_share},
      base_ohm_(plate.rated_voltage_V() / plate.rated_load_current_A),
      losses_W_(expected_losses_W(plate)) {
    frame_.poles = plate.pole_count();
    frame_.rated_voltage_V = plate.rated_voltage_V();
    frame_.rated_frequency_Hz = plate.frequency_Hz;
    frame_.run_capacitor_uF = plate.run_capacitor_uF;
    if (plate.has_run_capacitor()) {
        frame_.run_capacitor_esr_ohm =
            capacitor_loss_factor /
            (2.0 * plant_models::pi * plate.frequency_Hz * plate.run_capacitor_uF * 1e-6);
    }
    frame_.inertia_kg_m2 = inertia_estimate(plate).usual_kg_m2;
    point_.starting_resistance_ohm = plate.starting_resistance_ohm();
    point_.cooling_capacity_W = plate.cooling_capacity_W.value_or(0.0);
}

std::vector<double> MotorSpace::usual() const {
    std::vector<double> place;
    for (const Unknown& side : sides_) {
        place.push_back(std::log(side.usual / side.lowest) / std::log(side.highest / side.lowest));
    }
    return place;
}

Candidate MotorSpace::at(const double* place) const {
    const auto value = [this, place](std::size_t k) { return on_log_scale(sides_[k], place[k]); };
    plant_models::MotorParameters motor = frame_;
    motor.main_resistance_ohm = base_ohm_ * value(0);
    motor.main_leakage_reactance_ohm = base_ohm_ * value(1);
    motor.rotor_resistance_ohm = base_ohm_ * value(2);
    motor.rotor_leakage_reactance_ohm = motor.main_leakage_reactance_ohm * value(3);
    motor.magnetizing_reactance_ohm = base_ohm_ * value(4);
    motor.turns_ratio = value(5);
    const double turns_squared = motor.turns_ratio * motor.turns_ratio;
    motor.aux_resistance_ohm = turns_squared * motor.main_resistance_ohm * value(6);
    motor.aux_leakage_reactance_ohm = turns_squared * motor.main_leakage_reactance_ohm * value(7);
    motor.iron_loss_W = losses_W_ * value(9);
    motor.friction_loss_W = losses_W_ * value(10) * friction_part;
    motor.windage_loss_W = losses_W_ * value(10) * (1.0 - friction_part);
    OperatingPoint point = point_;
    point.rated_slip = value(8);
    return with_figures(motor, point);
}

Candidate with_figures(const plant_models::MotorParameters& motor, const OperatingPoint& point) {
    return {motor, point, figures_of(motor, point)};
}

}  // namespace sim
