#include "plant_models/loads/rolling_piston.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/loads/chambers_at_rest.hpp"
#include "plant_models/loads/crank_angle.hpp"
#include "plant_models/numeric/relaxation.hpp"
#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {
constexpr double pascal_per_kPa = 1000.0;

CompressorSize size_of(const RollingPistonParameters& load) {
    // The port leaves the first part of the turn unused; the clearance refers to
    // the rest.
    const double used = 1.0 - RollingPistonShape(load.radius_ratio)
                                  .behind(degrees_to_radians(load.suction_port_deg))
                                  .share;
    return {used * 1e-6 * load.displacement_cm3 * load.reference_speed_rpm / 60.0,
            0.01 * load.clearance_percent / used};
}
}  // namespace

const ParameterTable<RollingPistonParameters>& RollingPistonParameters::table() {
    using L = RollingPistonParameters;
    static const ParameterTable<L> rows = {
        {"cylinders", &L::cylinders, 1, 2, 1.0, "number of cylinders; two stand at 180 degrees"},
        {"displacement_cm3",
         &L::displacement_cm3,
         0.5,
         500,
         {},
         "swept per revolution, all cylinders together"},
        {"radius_ratio", &L::radius_ratio, 0.6, 0.98, 0.85, "rolling piston / cylinder"},
        {"suction_port_deg", &L::suction_port_deg, 10, 60, 25.0,
         "angle after the vane at which the contact has passed the suction port"},
        {"clearance_percent", &L::clearance_percent, 0.1, 20, 1.0,
         "volume left at the discharge port, of the displacement"},
        {"crank_angle_deg", &L::crank_angle_deg, -360, 360, 30.0,
         "angle at which the crank rests; 0 is the contact at the vane"},
        {"leak_s", &L::leak_s, 0.05, 1e6, 0.5,
         "time constant with which a closed chamber leaks to the suction"},
        {"breakaway_torque_Nm",
         &L::breakaway_torque_Nm,
         0,
         100,
         {},
         "static friction with warm oil; bearing_torque_Nm if that is larger"},
        {"bearing_torque_Nm", &L::bearing_torque_Nm, 0, 100, {}, "friction at any speed"},
        {"oil_torque_Nm",
         &L::oil_torque_Nm,
         0,
         100,
         {},
         "drag of warm oil at the reference speed, in proportion to speed"},
        {"reference_speed_rpm",
         &L::reference_speed_rpm,
         500,
         10000,
         {},
         "speed at the rating, of the oil drag and of the refrigerant flow"},
    };
    return rows;
}

std::string_view RollingPistonParameters::inconsistency_with(
    const RefrigerantParameters& refrigerant) const {
    if (!RefrigerantCircuit::can_pump(refrigerant, 0.01 * clearance_percent)) {
        return "clearance_percent is too large for evaporating_C and condensing_C: the gas left in "
               "it takes up more than four fifths of the displacement";
    }
    return {};
}

RollingPiston::RollingPiston(const RollingPistonParameters& load,
                             const RefrigerantParameters& refrigerant, const Conditions& conditions)
    : cylinders_(static_cast<std::size_t>(load.cylinders)),
      cylinder_m3_(1e-6 * load.displacement_cm3 / load.cylinders),
      clearance_(0.01 * load.clearance_percent),
      middle_rad_(0.5 * degrees_to_radians(load.suction_port_deg)),
      middle_sine_(std::sin(middle_rad_)),
      middle_cosine_(std::cos(middle_rad_)),
      initial_angle_rad_(degrees_to_radians(load.crank_angle_deg)),
      shape_(load.radius_ratio),
      friction_({load.breakaway_torque_Nm, load.bearing_torque_Nm, load.oil_torque_Nm,
                 rpm_to_rad_per_s(load.reference_speed_rpm)}),
      circuit_(refrigerant, conditions, size_of(load)),
      chamber_(circuit_.gas().isentropic_exponent, load.leak_s) {
    for (std::size_t k = 0; k < cylinders_; ++k) {
        const double angle = contact_angle(initial_angle_rad_, k);
        closed_[k] = angle >= 2.0 * middle_rad_ && angle < 2.0 * pi;
    }
}

double RollingPiston::contact_angle(double crank_rad, std::size_t k) const {
    const double angle = crank_rad + static_cast<double>(k) * pi;
    return angle - 2.0 * pi * std::floor((angle - middle_rad_) * (0.5 / pi));
}

double RollingPiston::volume_power(double behind) const {
    // A step that tries a point beyond the vane must not meet an empty chamber.
    const double ahead = std::max(1.0 + clearance_ - behind, 0.5 * clearance_);
    return chamber_.volume_power(ahead / (1.0 + clearance_));
}

RollingPiston::Cylinders RollingPiston::cylinders(const double* x) const {
    const double sine = std::sin(x[crank_angle]);
    const double cosine = std::cos(x[crank_angle]);
    Cylinders all{};
    double side = 1.0;  // the second eccentric stands opposite
    for (std::size_t k = 0; k < cylinders_; ++k) {
        // cos of half the open part less cos of the angle from its middle
        all[k].beyond = middle_cosine_ - side * (cosine * middle_cosine_ + sine * middle_sine_);
        if (closed_[k]) {
            const double angle = contact_angle(x[crank_angle], k);
            const auto behind = shape_.behind(angle, side * sine, side * cosine);
            const double power = volume_power(behind.share);
            all[k].slope = behind.slope;
            all[k].power = power;
            all[k].closed_kPa = x[content + k] / power;
        }
        side = -1.0;
    }
    return all;
}

double RollingPiston::gas_torque_Nm(const Cylinders& all,
                                    const RefrigerantCircuit::Pressures& at) const {
    double torque_kPa = 0.0;
    for (std::size_t k = 0; k < cylinders_; ++k) {
        // An open chamber has slope 0 here.
        torque_kPa +=
            (std::min(all[k].closed_kPa, at.discharge_kPa) - at.suction_kPa) * all[k].slope;
    }
    return pascal_per_kPa * cylinder_m3_ * torque_kPa;
}

std::array<double, RollingPiston::state_count> RollingPiston::initial_state() const {
    std::array<double, state_count> x{};
    const auto pressures = circuit_.initial_state();
    std::copy(pressures.begin(), pressures.end(), x.begin() + first_circuit_state);
    x[crank_angle] = initial_angle_rad_;
    for (std::size_t k = 0; k < cylinders_; ++k) {
        fill(x.data(), k);
    }
    return x;
}

LoadTorque<double> RollingPiston::torque(const double* x, const LoadMotion<double>& motion) const {
    return {gas_torque_Nm(cylinders(x), circuit_.pressures(x + first_circuit_state)),
            friction_.opposing_Nm(motion)};
}

double RollingPiston::breakaway_torque_Nm(const double* /*x*/, double oil_drag_factor) const {
    return friction_.breakaway_torque_Nm(oil_drag_factor);
}

LoadTorque<double> RollingPiston::torque_and_derivatives(const double* x, double* dxdt,
                                                         const LoadMotion<double>& motion) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    // The flow begins with a jump as the valve opens, so it is only of first order in the step; the
    // pressures, which it moves, are slow.
    double pushed_m3_per_s = 0.0;
    for (std::size_t k = 0; k < most_cylinders; ++k) {
        dxdt[content + k] = 0.0;
        if (closed_[k]) {
            dxdt[content + k] = chamber_.leak_rate(x[content + k], all[k].power, at.suction_kPa);
            const double shrinking = all[k].slope * motion.speed_rad_per_s;
            if (all[k].closed_kPa >= at.discharge_kPa && shrinking > 0.0) {
                pushed_m3_per_s += cylinder_m3_ * shrinking;
            }
        }
    }
    double flow_kg_per_s = 0.0;
    if (pushed_m3_per_s > 0.0) {
        flow_kg_per_s = pushed_m3_per_s *
                        circuit_.discharge_density_kg_per_m3(at.suction_kPa, at.discharge_kPa);
    }
    dxdt[crank_angle] = motion.speed_rad_per_s;
    circuit_.derivatives(x + first_circuit_state, dxdt + first_circuit_state, flow_kg_per_s,
                         motion.speed_rad_per_s);
    return {gas_torque_Nm(all, at), friction_.opposing_Nm(motion)};
}

void RollingPiston::guards(const double* x, const LoadMotion<double>& motion,
                           double* values) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    values[expansion_device] = circuit_.running_guard(motion.speed_rad_per_s);
    for (std::size_t k = 0; k < most_cylinders; ++k) {
        const double inside = closed_[k] ? all[k].beyond : -all[k].beyond;
        values[port_or_vane + k] = k < cylinders_ ? inside : 1.0;
        values[discharge_valve + k] = closed_[k] ? at.discharge_kPa - all[k].closed_kPa : 1.0;
    }
}

void RollingPiston::on_guard(std::size_t guard, double* x) {
    if (guard < port_or_vane + most_cylinders) {
        const std::size_t k = guard - port_or_vane;
        closed_[k] = !closed_[k];
        // Closed at the port: a charge of suction gas. At the vane, backwards: its
        // clearance of it.
        fill(x, k);
    }
}

void RollingPiston::fill(double* x, std::size_t k) const {
    const double behind = shape_.behind(contact_angle(x[crank_angle], k)).share;
    x[content + k] = circuit_.pressures(x + first_circuit_state).suction_kPa * volume_power(behind);
}

// Only the discharge valve shuts as the volume turns: the suction has none, so a pressure below
// suction stays.
void RollingPiston::on_standstill(double* x) {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    for (std::size_t k = 0; k < cylinders_; ++k) {
        if (closed_[k]) {
            x[content + k] =
                CompressionChamber::committed(x[content + k], all[k].power, 0.0, at.discharge_kPa);
        }
    }
}

void RollingPiston::rest(double* x, double duration_s) const {
    const Cylinders all = cylinders(x);
    equalise_with_leaks(circuit_, x + first_circuit_state, duration_s,
                        [&](double before_kPa, double after_kPa, double step_s) {
                            for (std::size_t k = 0; k < cylinders_; ++k) {
                                if (closed_[k]) {
                                    x[content + k] = relaxed(
                                        x[content + k], before_kPa * all[k].power,
                                        after_kPa * all[k].power, chamber_.leak_s(), step_s);
                                }
                            }
                        });
}

void RollingPiston::continue_from(const RollingPiston& before, double* x) {
    closed_ = before.closed_;
    const double ratio = circuit_.pressure_ratio_to(before.circuit_);
    for (std::size_t k = content; k < state_count; ++k) {
        x[k] *= ratio;
    }
}

std::array<std::string_view, RollingPiston::channel_count> RollingPiston::channel_names() {
    return {"crank_angle_deg", "suction_pressure_kPa", "discharge_pressure_kPa",
            "chamber_1_pressure_kPa", "chamber_2_pressure_kPa"};
}

std::array<double, RollingPiston::channel_count> RollingPiston::channels(const double* x) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    std::array<double, channel_count> values{turn_angle_deg(x[crank_angle]), at.suction_kPa,
                                             at.discharge_kPa};
    for (std::size_t k = 0; k < cylinders_; ++k) {
        values[3 + k] = closed_[k] ? std::min(all[k].closed_kPa, at.discharge_kPa) : at.suction_kPa;
    }
    return values;
}

}  // namespace plant_models
