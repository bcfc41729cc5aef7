#include "plant_models/motor/steady_state.hpp"

#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace plant_models {

namespace {

using Phasor = std::complex<double>;

constexpr double pi = 3.14159265358979323846;
constexpr Phasor j{0.0, 1.0};

/// Air-gap impedance of one revolving field, seen from the main winding. Written without r_r / s
/// so that synchronous speed is an ordinary point.
Phasor field_impedance(double field_slip, double rotor_resistance, double rotor_leakage,
                       double magnetizing) {
    const Phasor rotor = rotor_resistance + j * field_slip * rotor_leakage;
    return j * magnetizing * rotor / (rotor + j * field_slip * magnetizing);
}

Phasor branch_admittance(const std::optional<CapacitorBranch>& branch, double omega) {
    if (!branch) {
        return 0.0;
    }
    return 1.0 / Phasor(branch->esr_ohm, -1.0 / (omega * branch->capacitance_uF * 1e-6));
}

/// Loss in the series resistances: each branch sees the whole voltage between R and S.
double branch_loss(const std::optional<CapacitorBranch>& branch, double omega, Phasor voltage) {
    return branch ? std::norm(voltage * branch_admittance(branch, omega)) * branch->esr_ohm : 0.0;
}

double mechanical_loss(const MotorParameters& motor, double speed_rad_per_s) {
    // The losses are given at the synchronous speed of the rated frequency, whatever the supply.
    const double ratio =
        std::abs(speed_rad_per_s) / motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz);
    return motor.friction_loss_W * ratio + motor.windage_loss_W * ratio * ratio * ratio;
}

void require(bool holds, const char* sentence) {
    if (!holds) {
        throw std::invalid_argument(sentence);
    }
}

}  // namespace

AuxiliaryConnection run_connection(const MotorParameters& motor) {
    AuxiliaryConnection connection;
    if (motor.run_capacitor_uF > 0.0) {
        connection.run = CapacitorBranch{motor.run_capacitor_uF, motor.run_capacitor_esr_ohm};
    }
    return connection;
}

SteadyState steady_state(const MotorParameters& motor, const SinusoidalSupply& supply,
                         const AuxiliaryConnection& auxiliary, double slip) {
    require(supply.voltage_V > 0.0, "steady state: the supply voltage must be above 0 V");
    require(supply.frequency_Hz > 0.0, "steady state: the supply frequency must be above 0 Hz");
    require(std::isfinite(slip), "steady state: the slip must be a finite number");

    const double omega = 2.0 * pi * supply.frequency_Hz;
    const double scale = supply.frequency_Hz / motor.rated_frequency_Hz;
    const double n = motor.turns_ratio;
    const Phasor field_forward =
        field_impedance(slip, motor.rotor_resistance_ohm, motor.rotor_leakage_reactance_ohm * scale,
                        motor.magnetizing_reactance_ohm * scale);
    const Phasor field_backward = field_impedance(2.0 - slip, motor.rotor_resistance_ohm,
                                                  motor.rotor_leakage_reactance_ohm * scale,
                                                  motor.magnetizing_reactance_ohm * scale);
    // Back from fields to windings: both windings see the mean of the two field impedances, and
    // their difference couples them, with opposite signs. It vanishes at rest, so the windings of
    // a locked rotor do not see each other.
    const Phasor mean = 0.5 * (field_forward + field_backward);
    const Phasor coupling = j * n * 0.5 * (field_forward - field_backward);

    // The iron-loss conductance is folded into the supply (Thevenin), so only i_m and i_a are left.
    const double iron_conductance =
        motor.iron_loss_W / (motor.rated_voltage_V * motor.rated_voltage_V);
    const Phasor series{supply.resistance_ohm, omega * supply.inductance_mH * 1e-3};
    const Phasor divider = 1.0 / (1.0 + series * iron_conductance);
    const Phasor open_voltage = supply.voltage_V * divider;
    const Phasor source = series * divider;

    // The source impedance carries both currents: it stands in every place of the 2 x 2 system.
    const Phasor main_self =
        source + mean + Phasor(motor.main_resistance_ohm, motor.main_leakage_reactance_ohm * scale);
    const Phasor winding_aux =
        n * n * mean + Phasor(motor.aux_resistance_ohm, motor.aux_leakage_reactance_ohm * scale);

    SteadyState point;
    point.slip = slip;
    point.speed_rad_per_s = (1.0 - slip) * motor.synchronous_speed_rad_per_s(supply.frequency_Hz);
    if (auxiliary.open()) {
        point.main_current_A = open_voltage / main_self;
    } else {
        const Phasor admittance =
            branch_admittance(auxiliary.run, omega) + branch_admittance(auxiliary.start, omega);
        const Phasor aux_self = source + winding_aux + 1.0 / admittance;
        // Row main: main_self i_m + (source - coupling) i_a; row auxiliary: + coupling.
        const Phasor determinant = main_self * aux_self - source * source + coupling * coupling;
        point.main_current_A = open_voltage * (aux_self - source + coupling) / determinant;
        point.aux_current_A = open_voltage * (main_self - source - coupling) / determinant;
    }

    const Phasor main = point.main_current_A;
    const Phasor aux = point.aux_current_A;
    const Phasor forward = 0.5 * (main - j * n * aux);
    const Phasor backward = 0.5 * (main + j * n * aux);
    // The air-gap voltage is j X_m (stator + rotor current) of the same field.
    const Phasor magnetizing = j * motor.magnetizing_reactance_ohm * scale;
    const Phasor rotor_forward = forward * (field_forward / magnetizing - 1.0);
    const Phasor rotor_backward = backward * (field_backward / magnetizing - 1.0);
    point.rotor_main_current_A = rotor_forward + rotor_backward;
    point.rotor_aux_current_A = j * (rotor_forward - rotor_backward);

    point.terminal_voltage_V = open_voltage - source * (main + aux);
    point.line_current_A = main + aux + point.terminal_voltage_V * iron_conductance;
    // Written from the winding, not from the line: it also holds with S open.
    point.s_voltage_V = winding_aux * aux + coupling * main;
    point.capacitor_voltage_V = point.terminal_voltage_V - point.s_voltage_V;

    // Air-gap power over synchronous speed; the backward field pulls the other way.
    point.torque_Nm =
        motor.poles / omega *
        (field_forward.real() * std::norm(forward) - field_backward.real() * std::norm(backward));
    point.main_copper_W = motor.main_resistance_ohm * std::norm(main);
    point.aux_copper_W = motor.aux_resistance_ohm * std::norm(aux);
    // Each field's rotor current flows in two axes, hence the 2.
    point.rotor_copper_W =
        2.0 * motor.rotor_resistance_ohm * (std::norm(rotor_forward) + std::norm(rotor_backward));
    point.capacitor_loss_W = branch_loss(auxiliary.run, omega, point.capacitor_voltage_V) +
                             branch_loss(auxiliary.start, omega, point.capacitor_voltage_V);
    point.iron_loss_W = iron_conductance * std::norm(point.terminal_voltage_V);
    point.supply_loss_W = supply.resistance_ohm * std::norm(point.line_current_A);
    point.mechanical_loss_W = mechanical_loss(motor, point.speed_rad_per_s);

    const Phasor apparent = point.terminal_voltage_V * std::conj(point.line_current_A);
    point.input_power_W = apparent.real();
    point.power_factor = apparent.real() / std::abs(apparent);
    point.shaft_power_W = point.torque_Nm * point.speed_rad_per_s - point.mechanical_loss_W;
    // A driven or braked rotor has no efficiency: the number would be meaningless or above 1.
    if (point.input_power_W > 0.0 && point.shaft_power_W >= 0.0) {
        point.efficiency = point.shaft_power_W / point.input_power_W;
    }
    return point;
}

SteadyState locked_rotor(const MotorParameters& motor, const SinusoidalSupply& supply,
                         const AuxiliaryConnection& auxiliary) {
    return steady_state(motor, supply, auxiliary, 1.0);
}

std::vector<SteadyState> torque_speed_curve(const MotorParameters& motor,
                                            const SinusoidalSupply& supply,
                                            const AuxiliaryConnection& auxiliary, int points) {
    require(points >= 2, "torque-speed curve: at least 2 points are needed");
    std::vector<SteadyState> curve;
    curve.reserve(static_cast<std::size_t>(points));
    for (int k = 0; k < points; ++k) {
        const double slip = 1.0 - static_cast<double>(k) / (points - 1);
        curve.push_back(steady_state(motor, supply, auxiliary, slip));
    }
    return curve;
}

}  // namespace plant_models
