#include "plant_models/loads/reciprocating.hpp"

#include <algorithm>
#include <cmath>

#include "plant_models/loads/chambers_at_rest.hpp"
#include "plant_models/loads/crank_angle.hpp"
#include "plant_models/numeric/relaxation.hpp"
#include "plant_models/numeric/units.hpp"

namespace plant_models {

namespace {
constexpr double pascal_per_kPa = 1000.0;

CompressorSize size_of(const ReciprocatingParameters& load) {
    return {1e-6 * load.displacement_cm3 * load.reference_speed_rpm / 60.0,
            0.01 * load.clearance_percent};
}
}  // namespace

const ParameterTable<ReciprocatingParameters>& ReciprocatingParameters::table() {
    using L = ReciprocatingParameters;
    static const ParameterTable<L> rows = {
        {"cylinders", &L::cylinders, 1, 2, 1.0, "number of cylinders; two stand at 180 degrees"},
        {"displacement_cm3",
         &L::displacement_cm3,
         0.5,
         500,
         {},
         "swept per revolution, all cylinders together"},
        {"clearance_percent", &L::clearance_percent, 0.1, 20, 4.0,
         "volume left at top dead centre, of the displacement"},
        {"rod_ratio", &L::rod_ratio, 2, 20, 4.0, "length of the connecting rod / crank radius"},
        {"crank_angle_deg", &L::crank_angle_deg, -360, 360, 180.0,
         "angle at which the crank rests; 0 is top dead centre"},
        {"ring_leak_s", &L::ring_leak_s, 0.05, 1e6, 1.0,
         "time constant with which a closed cylinder leaks to the suction"},
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

std::string_view ReciprocatingParameters::inconsistency_with(
    const RefrigerantParameters& refrigerant) const {
    if (!RefrigerantCircuit::can_pump(refrigerant, 0.01 * clearance_percent)) {
        return "clearance_percent is too large for evaporating_C and condensing_C: the gas left in "
               "it takes up more than four fifths of the displacement";
    }
    return {};
}

Reciprocating::Reciprocating(const ReciprocatingParameters& load,
                             const RefrigerantParameters& refrigerant, const Conditions& conditions)
    : cylinders_(static_cast<std::size_t>(load.cylinders)),
      cylinder_m3_(1e-6 * load.displacement_cm3 / load.cylinders),
      clearance_(0.01 * load.clearance_percent),
      inverse_rod_ratio_(1.0 / load.rod_ratio),
      initial_angle_rad_(degrees_to_radians(load.crank_angle_deg)),
      friction_({load.breakaway_torque_Nm, load.bearing_torque_Nm, load.oil_torque_Nm,
                 rpm_to_rad_per_s(load.reference_speed_rpm)}),
      circuit_(refrigerant, conditions, size_of(load)),
      chamber_(circuit_.gas().isentropic_exponent, load.ring_leak_s),
      half_turn_(std::sin(initial_angle_rad_) < 0.0 ? -1.0 : 1.0) {}

double Reciprocating::Cylinder::pressure_kPa(const RefrigerantCircuit::Pressures& at) const {
    return std::max(std::min(closed_kPa, at.discharge_kPa), at.suction_kPa);
}

Reciprocating::Cylinders Reciprocating::cylinders(const double* x) const {
    const double sine = std::sin(x[crank_angle]);
    const double cosine = std::cos(x[crank_angle]);
    // The rod leans by an angle whose sine is the crank's over the rod ratio.
    const double rod_sine = inverse_rod_ratio_ * sine;
    const double rod_cosine = std::sqrt(1.0 - rod_sine * rod_sine);
    const double rod_drop = 0.5 * (1.0 - rod_cosine) / inverse_rod_ratio_;
    const double rod_slope = 0.5 * rod_sine * cosine / rod_cosine;
    const double share_of_largest = 1.0 / (1.0 + clearance_);
    Cylinders all{};
    double side = 1.0;  // the second crank pin stands opposite
    for (std::size_t k = 0; k < cylinders_; ++k) {
        const double position = 0.5 - side * 0.5 * cosine + rod_drop;
        const double power = chamber_.volume_power((clearance_ + position) * share_of_largest);
        all[k] = {rod_slope + side * 0.5 * sine, power, x[content + k] / power};
        side = -1.0;
    }
    return all;
}

double Reciprocating::gas_torque_Nm(const Cylinders& all,
                                    const RefrigerantCircuit::Pressures& at) const {
    // A piston that comes down gives its pressure difference back to the shaft.
    double torque_kPa = 0.0;
    for (std::size_t k = 0; k < cylinders_; ++k) {
        torque_kPa -= (all[k].pressure_kPa(at) - at.suction_kPa) * all[k].slope;
    }
    return pascal_per_kPa * cylinder_m3_ * torque_kPa;
}

std::array<double, Reciprocating::state_count> Reciprocating::initial_state() const {
    std::array<double, state_count> x{};
    const auto pressures = circuit_.initial_state();
    std::copy(pressures.begin(), pressures.end(), x.begin() + first_circuit_state);
    x[crank_angle] = initial_angle_rad_;
    // An empty content commits to suction pressure.
    commit(x.data());
    return x;
}

LoadTorque<double> Reciprocating::torque(const double* x, const LoadMotion<double>& motion) const {
    return {gas_torque_Nm(cylinders(x), circuit_.pressures(x + first_circuit_state)),
            friction_.opposing_Nm(motion)};
}

double Reciprocating::breakaway_torque_Nm(const double* /*x*/, double oil_drag_factor) const {
    return friction_.breakaway_torque_Nm(oil_drag_factor);
}

LoadTorque<double> Reciprocating::torque_and_derivatives(const double* x, double* dxdt,
                                                         const LoadMotion<double>& motion) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    double pushed_m3_per_s = 0.0;
    for (std::size_t k = 0; k < most_cylinders; ++k) {
        dxdt[content + k] = 0.0;
    }
    for (std::size_t k = 0; k < cylinders_; ++k) {
        dxdt[content + k] = chamber_.leak_rate(x[content + k], all[k].power, at.suction_kPa);
        // The flow begins with a jump as the valve opens, so it is only of first order in the step;
        // the pressures, which it moves, are slow.
        const double shrinking = -all[k].slope * motion.speed_rad_per_s;
        if (all[k].closed_kPa >= at.discharge_kPa && shrinking > 0.0) {
            pushed_m3_per_s += cylinder_m3_ * shrinking;
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

void Reciprocating::guards(const double* x, const LoadMotion<double>& motion,
                           double* values) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    values[dead_centre] = half_turn_ * std::sin(x[crank_angle]);
    values[expansion_device] = circuit_.running_guard(motion.speed_rad_per_s);
    for (std::size_t k = 0; k < most_cylinders; ++k) {
        const bool fitted = k < cylinders_;
        values[suction_valve + k] = fitted ? all[k].closed_kPa - at.suction_kPa : 1.0;
        values[discharge_valve + k] = fitted ? at.discharge_kPa - all[k].closed_kPa : 1.0;
    }
}

void Reciprocating::on_guard(std::size_t guard, double* x) {
    if (guard == dead_centre) {
        // All volumes turn here: one cylinder stands at the top, the other at the bottom.
        commit(x);
        half_turn_ = -half_turn_;
    }
}

// Doing it twice does no harm, so it may be done wherever a volume might have turned.
void Reciprocating::commit(double* x) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    for (std::size_t k = 0; k < cylinders_; ++k) {
        x[content + k] = CompressionChamber::committed(x[content + k], all[k].power, at.suction_kPa,
                                                       at.discharge_kPa);
    }
}

void Reciprocating::rest(double* x, double duration_s) const {
    const Cylinders all = cylinders(x);
    equalise_with_leaks(circuit_, x + first_circuit_state, duration_s,
                        [&](double before_kPa, double after_kPa, double step_s) {
                            for (std::size_t k = 0; k < cylinders_; ++k) {
                                x[content + k] =
                                    relaxed(x[content + k], before_kPa * all[k].power,
                                            after_kPa * all[k].power, chamber_.leak_s(), step_s);
                            }
                        });
}

void Reciprocating::continue_from(const Reciprocating& before, double* x) {
    half_turn_ = before.half_turn_;
    const double ratio = circuit_.pressure_ratio_to(before.circuit_);
    for (std::size_t k = content; k < state_count; ++k) {
        x[k] *= ratio;
    }
}

std::array<std::string_view, Reciprocating::channel_count> Reciprocating::channel_names() {
    return {"crank_angle_deg", "suction_pressure_kPa", "discharge_pressure_kPa",
            "chamber_1_pressure_kPa", "chamber_2_pressure_kPa"};
}

std::array<double, Reciprocating::channel_count> Reciprocating::channels(const double* x) const {
    const auto at = circuit_.pressures(x + first_circuit_state);
    const Cylinders all = cylinders(x);
    std::array<double, channel_count> values{turn_angle_deg(x[crank_angle]), at.suction_kPa,
                                             at.discharge_kPa};
    for (std::size_t k = 0; k < cylinders_; ++k) {
        values[3 + k] = all[k].pressure_kPa(at);
    }
    return values;
}

}  // namespace plant_models
