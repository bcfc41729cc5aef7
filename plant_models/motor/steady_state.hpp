// Steady state of the single-phase induction motor at a fixed speed, by revolving fields.
//
// A second way to the numbers of motor_equations.hpp: no differential equation, no matrix of
// windings. The stator ampere-turns are split into a forward and a backward revolving field; each
// sees the rotor at its own slip, so the rotor becomes two impedances:
//
//   I_f = (I_m - j n I_a) / 2          I_b = (I_m + j n I_a) / 2
//   Z_f = j X_m (r_r + j s X_lr) / (r_r + j s (X_lr + X_m)),   Z_b the same at slip 2 - s
//   E_m = Z_f I_f + Z_b I_b            E_a = j n (Z_f I_f - Z_b I_b)
//   V   = (r_m + j X_lm) I_m + E_m     V = (r_a + j X_la + Z_C) I_a + E_a
//   V   = V_s - (R_s + j X_s) (I_m + I_a + V G_Fe)
//   T   = 2 p / w_e,supply (Re Z_f |I_f|^2 - Re Z_b |I_b|^2)
//
// Assumptions: those of motor_equations.hpp; a sinusoidal supply; a speed held constant, so that
// the torque is the mean of the real one, which pulsates at twice the supply frequency. Iron loss
// is a conductance G_Fe = P_Fe / V_rated^2 at the terminals R and C: it is in the line current.
// Reactances are those of the parameters, scaled by supply frequency / rated frequency.
// Signs: motor convention; slip 1 at rest, 0 at synchronous speed, above 1 turning backwards.
// Phasors are RMS, their angle is counted from the supply's open-circuit voltage.
// Source: standard double-revolving-field theory, e.g. A. E. Fitzgerald, C. Kingsley, S. D. Umans,
// "Electric Machinery", 6th ed., chapter 9; written out from the equations of
// motor_equations.hpp.
#pragma once

#include <complex>
#include <optional>
#include <vector>

#include "plant_models/motor/motor_parameters.hpp"

namespace plant_models {

/// A capacitor with its series resistance.
struct CapacitorBranch {
    double capacitance_uF = 0.0;  ///< above 0
    double esr_ohm = 0.0;
};

/// What connects S to the line: either capacitor, both in parallel, or none (S open).
struct AuxiliaryConnection {
    std::optional<CapacitorBranch> run;
    std::optional<CapacitorBranch> start;

    bool open() const { return !run && !start; }
};

/// The motor's own run capacitor alone; S open when the motor has none.
AuxiliaryConnection run_connection(const MotorParameters& motor);

/// Sinusoidal voltage behind a resistance and an inductance.
struct SinusoidalSupply {
    double voltage_V = 0.0;  ///< RMS, open circuit
    double frequency_Hz = 0.0;
    double resistance_ohm = 0.0;
    double inductance_mH = 0.0;
};

/// One operating point. Currents and voltages are RMS phasors, powers and torque are means.
struct SteadyState {
    double slip = 0.0;
    double speed_rad_per_s = 0.0;  ///< of the shaft; negative when turning backwards

    std::complex<double> line_current_A;  ///< main + auxiliary + iron loss
    std::complex<double> main_current_A;
    std::complex<double> aux_current_A;
    std::complex<double> rotor_main_current_A;  ///< rotor, on the main axis, referred to main
    std::complex<double> rotor_aux_current_A;   ///< rotor, on the auxiliary axis, referred to main

    std::complex<double> terminal_voltage_V;   ///< R to C
    std::complex<double> s_voltage_V;          ///< S to C
    std::complex<double> capacitor_voltage_V;  ///< R to S, series resistance included

    double torque_Nm = 0.0;      ///< electromagnetic, before friction and windage
    double shaft_power_W = 0.0;  ///< what reaches the load; negative when the load drives
    double input_power_W = 0.0;  ///< into the motor's terminals, capacitors included
    double supply_loss_W = 0.0;  ///< in the supply's resistance, not in the input power
    double main_copper_W = 0.0;
    double aux_copper_W = 0.0;
    double rotor_copper_W = 0.0;
    double capacitor_loss_W = 0.0;
    double iron_loss_W = 0.0;
    double mechanical_loss_W = 0.0;  ///< friction and windage at this speed

    double power_factor = 0.0;         ///< at the terminals; negative when power flows back
    std::optional<double> efficiency;  ///< none unless power flows from the terminals to the shaft
};

/// Solves one slip, any finite value. The supply's voltage and frequency must be above 0.
/// @throws std::invalid_argument otherwise.
SteadyState steady_state(const MotorParameters& motor, const SinusoidalSupply& supply,
                         const AuxiliaryConnection& auxiliary, double slip);

/// The rotor held: slip 1.
SteadyState locked_rotor(const MotorParameters& motor, const SinusoidalSupply& supply,
                         const AuxiliaryConnection& auxiliary);

/// From rest to synchronous speed, both included, evenly spaced in speed.
/// @param points at least 2, else std::invalid_argument.
std::vector<SteadyState> torque_speed_curve(const MotorParameters& motor,
                                            const SinusoidalSupply& supply,
                                            const AuxiliaryConnection& auxiliary, int points);

}  // namespace plant_models
