// A centre-tapped service with two legs, a neutral and a standing load on each leg, in phasors.
//
//      +V --z--- 1 ---+---------.          E1 = +V, E2 = -V against the centre tap
//                     R1        |          z    each leg, z_n the neutral
//      tap -z_n- N ---+    unit (1 to 2, or 1 to N)
//                     R2        |
//      -V --z--- 2 ---+---------'
//
//   I1 = (U1 - UN) / R1 + I_1unit      U1 = +V - z I1     UN = z_n (I1 + I2)
//   I2 = (U2 - UN) / R2 + I_2unit      U2 = -V - z I2     neutral current out of N: I1 + I2
//
// Two linear equations in I1 and I2; nothing is divided by an impedance, so any of them may be 0.
// What the unit sees is a Thevenin equivalent. Source: circuit theory.
#pragma once

#include <complex>

namespace plant_models {

struct SplitPhaseNetwork {
    using Phasor = std::complex<double>;

    double leg_voltage_V = 0.0;
    Phasor leg_ohm;
    Phasor neutral_ohm;
    double load_1_S = 0.0;  ///< conductance of the standing load from leg 1 to neutral
    double load_2_S = 0.0;
    bool unit_is_leg_to_leg = true;  ///< else leg 1 to neutral

    struct Voltages {
        Phasor leg_1_V;    ///< leg 1 to neutral, at the panel
        Phasor leg_2_V;    ///< leg 2 to neutral, at the panel
        Phasor neutral_A;  ///< from the panel back to the transformer
        Phasor unit_V;
    };
    /// With a unit that draws this current.
    Voltages solve(Phasor unit_A) const;
};

}  // namespace plant_models
