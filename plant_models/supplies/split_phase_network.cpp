#include "plant_models/supplies/split_phase_network.hpp"

namespace plant_models {

SplitPhaseNetwork::Voltages SplitPhaseNetwork::solve(Phasor unit_A) const {
    const Phasor unit_1_A = unit_A;
    const Phasor unit_2_A = unit_is_leg_to_leg ? -unit_A : Phasor(0.0);
    // A unit on the neutral needs no term there: the neutral carries whatever the legs do not bring
    // back among themselves.
    const Phasor a11 = 1.0 + load_1_S * (leg_ohm + neutral_ohm);
    const Phasor a12 = load_1_S * neutral_ohm;
    const Phasor a21 = load_2_S * neutral_ohm;
    const Phasor a22 = 1.0 + load_2_S * (leg_ohm + neutral_ohm);
    const Phasor b1 = load_1_S * leg_voltage_V + unit_1_A;
    const Phasor b2 = -load_2_S * leg_voltage_V + unit_2_A;
    const Phasor determinant = a11 * a22 - a12 * a21;
    const Phasor leg_1_A = (b1 * a22 - a12 * b2) / determinant;
    const Phasor leg_2_A = (a11 * b2 - a21 * b1) / determinant;

    Voltages out;
    out.neutral_A = leg_1_A + leg_2_A;
    const Phasor neutral_V = neutral_ohm * out.neutral_A;
    out.leg_1_V = leg_voltage_V - leg_ohm * leg_1_A - neutral_V;
    out.leg_2_V = -leg_voltage_V - leg_ohm * leg_2_A - neutral_V;
    out.unit_V = unit_is_leg_to_leg ? out.leg_1_V - out.leg_2_V : out.leg_1_V;
    return out;
}

}  // namespace plant_models
