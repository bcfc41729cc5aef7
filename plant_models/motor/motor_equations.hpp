// Asymmetric two-phase induction machine in the stationary frame.
//
//   v_m = r_m i_m + d/dt[(L_lm + L_m) i_m + L_m i_rm]
//   v_a = r_a i_a + d/dt[(L_la + n^2 L_m) i_a + n L_m i_ra]
//   0   = r_r i_rm + d lambda_rm/dt - w_e lambda_ra    lambda_rm = (L_lr + L_m) i_rm + L_m i_m
//   0   = r_r i_ra + d lambda_ra/dt + w_e lambda_rm    lambda_ra = (L_lr + L_m) i_ra + n L_m i_a
//   T_e = p L_m (i_m i_ra - n i_a i_rm),  w_e = p w
//
// Assumptions: sinusoidal air-gap field, no saturation, no slotting, windings in quadrature,
// symmetric cage. Iron loss is not in these equations (see plant.hpp).
// Signs: motor convention, torque positive in the direction that the auxiliary's leading current
// starts the rotor.
// Source: the standard two-axis model, e.g. P. C. Krause, O. Wasynczuk, S. D. Sudhoff, "Analysis of
// Electric Machinery", unsymmetrical two-phase machine (recalled). The energy balance of the four
// equations gives the torque with no further factor.
//
//   symbol | name                     | unit
//   r_m    | main_resistance_ohm      | ohm
//   r_a    | aux_resistance_ohm       | ohm
//   r_r    | rotor_resistance_ohm     | ohm
//   L_m    | magnetizing_inductance_H | H
//   n      | turns_ratio              | -
//   p      | pole_pairs               | -
//   w      | speed_rad_per_s          | rad/s
#pragma once

#include "plant_models/motor/motor_parameters.hpp"

namespace plant_models {

template <class Real>
struct WindingCurrents {
    Real main_A, aux_A, rotor_main_A, rotor_aux_A;
};

/// As they are at the windings' temperature of the moment.
template <class Real>
struct WindingResistances {
    Real main_ohm, aux_ohm, rotor_ohm;
};

template <class Real>
class MotorEquations {
  public:
    explicit MotorEquations(const MotorParameters& motor)
        : pole_pairs(motor.poles / 2.0),
          turns_ratio(motor.turns_ratio),
          main_resistance_ohm(motor.main_resistance_ohm),
          aux_resistance_ohm(motor.aux_resistance_ohm),
          rotor_resistance_ohm(motor.rotor_resistance_ohm),
          magnetizing_inductance_H(motor.magnetizing_reactance_ohm /
                                   motor.rated_angular_frequency_rad_per_s()),
          rotor_inductance_H(magnetizing_inductance_H +
                             motor.rotor_leakage_reactance_ohm /
                                 motor.rated_angular_frequency_rad_per_s()),
          main_inductance_H(magnetizing_inductance_H +
                            motor.main_leakage_reactance_ohm /
                                motor.rated_angular_frequency_rad_per_s()),
          aux_inductance_H(turns_ratio * turns_ratio * magnetizing_inductance_H +
                           motor.aux_leakage_reactance_ohm /
                               motor.rated_angular_frequency_rad_per_s()) {}

    Real rotor_main_flux(const WindingCurrents<Real>& i) const {
        return rotor_inductance_H * i.rotor_main_A + magnetizing_inductance_H * i.main_A;
    }
    Real rotor_aux_flux(const WindingCurrents<Real>& i) const {
        return rotor_inductance_H * i.rotor_aux_A +
               turns_ratio * magnetizing_inductance_H * i.aux_A;
    }
    Real torque_Nm(const WindingCurrents<Real>& i) const {
        return pole_pairs * magnetizing_inductance_H *
               (i.main_A * i.rotor_aux_A - turns_ratio * i.aux_A * i.rotor_main_A);
    }
    /// Resistances as the motor's parameters give them.
    WindingResistances<Real> rated_resistances() const {
        return {Real(main_resistance_ohm), Real(aux_resistance_ohm), Real(rotor_resistance_ohm)};
    }
    Real main_copper_W(const WindingCurrents<Real>& i, const WindingResistances<Real>& r) const {
        return r.main_ohm * i.main_A * i.main_A;
    }
    Real aux_copper_W(const WindingCurrents<Real>& i, const WindingResistances<Real>& r) const {
        return r.aux_ohm * i.aux_A * i.aux_A;
    }
    Real cage_W(const WindingCurrents<Real>& i, const WindingResistances<Real>& r) const {
        return r.rotor_ohm * (i.rotor_main_A * i.rotor_main_A + i.rotor_aux_A * i.rotor_aux_A);
    }
    Real copper_loss_W(const WindingCurrents<Real>& i, const WindingResistances<Real>& r) const {
        return main_copper_W(i, r) + aux_copper_W(i, r) + cage_W(i, r);
    }
    /// Energy in the magnetic field, without any inductance outside the motor.
    Real stored_energy_J(const WindingCurrents<Real>& i) const {
        return 0.5 *
                   (main_inductance_H * i.main_A * i.main_A + aux_inductance_H * i.aux_A * i.aux_A +
                    rotor_inductance_H *
                        (i.rotor_main_A * i.rotor_main_A + i.rotor_aux_A * i.rotor_aux_A)) +
               magnetizing_inductance_H *
                   (i.main_A * i.rotor_main_A + turns_ratio * i.aux_A * i.rotor_aux_A);
    }
    /// Main terminal voltage (R to C) from the currents and their derivatives.
    Real main_voltage_V(const WindingCurrents<Real>& i, const WindingCurrents<Real>& rate,
                        const WindingResistances<Real>& r) const {
        return r.main_ohm * i.main_A + main_inductance_H * rate.main_A +
               magnetizing_inductance_H * rate.rotor_main_A;
    }
    /// Auxiliary terminal voltage (S to C).
    Real aux_voltage_V(const WindingCurrents<Real>& i, const WindingCurrents<Real>& rate,
                       const WindingResistances<Real>& r) const {
        return r.aux_ohm * i.aux_A + aux_inductance_H * rate.aux_A +
               turns_ratio * magnetizing_inductance_H * rate.rotor_aux_A;
    }

    double pole_pairs;
    double turns_ratio;
    double main_resistance_ohm;
    double aux_resistance_ohm;
    double rotor_resistance_ohm;
    double magnetizing_inductance_H;
    double rotor_inductance_H;
    double main_inductance_H;
    double aux_inductance_H;
};

}  // namespace plant_models
