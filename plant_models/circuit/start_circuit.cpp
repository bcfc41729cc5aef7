#include "plant_models/circuit/start_circuit.hpp"

#include <cstddef>

namespace plant_models {

namespace {
/// Voltage of a short alternating-current contact arc; engineering judgement. (The minimum arc
/// current in the header is that of silver contacts; recalled.)
constexpr double arc_V = 20.0;
/// A gated thyristor needs a little more than its on-state threshold to turn on.
constexpr double firing_margin_V = 1.5;
}  // namespace

StartCircuit::StartCircuit(const MotorParameters& motor, const LimiterParameters& limiter,
                           double series_inductance_H)
    : limiter_(limiter),
      run_capacitance_F_(1e-6 * motor.run_capacitor_uF),
      run_resistance_ohm_(motor.run_capacitor_esr_ohm),
      start_capacitance_F_(1e-6 * limiter.start_capacitor_uF),
      iron_conductance_S_(motor.iron_loss_W / (motor.rated_voltage_V * motor.rated_voltage_V)),
      inductances_(winding_inductances(motor, series_inductance_H)),
      inverses_{} {
    for (int k = 0; k < stator_connection_count; ++k) {
        inverses_[static_cast<std::size_t>(k)] =
            inverse_inductances(inductances_, static_cast<StatorConnection>(k));
    }
}

StatorConnection StartCircuit::connection(const SwitchPositions& positions) const {
    if (!positions.motor_connected) {
        return StatorConnection::open;
    }
    const bool main = positions.main_path != MainPath::open;
    const bool auxiliary = auxiliary_has_path(positions);
    if (positions.line_connected) {
        if (main && auxiliary) {
            return StatorConnection::both_on_line;
        }
        if (main) {
            return StatorConnection::main_on_line;
        }
        return auxiliary ? StatorConnection::auxiliary_on_line : StatorConnection::open;
    }
    return main && auxiliary ? StatorConnection::loop : StatorConnection::open;
}

CircuitCoefficients<double> StartCircuit::coefficients(const SwitchPositions& positions) const {
    CircuitCoefficients<double> c;
    c.inverse_inductance = inverses_[static_cast<std::size_t>(connection(positions))];
    switch (positions.main_path) {
        case MainPath::thyristor:
            c.main_drop_V = positions.main_direction * limiter_.thyristor_threshold_V;
            c.main_drop_ohm = limiter_.thyristor_slope_ohm;
            break;
        case MainPath::bypass:
            c.main_drop_ohm = limiter_.bypass_resistance_ohm;
            break;
        case MainPath::arc:
            c.main_drop_V = positions.main_direction * arc_V;
            break;
        case MainPath::open:
            break;
    }
    const double start = positions.start_capacitor_in ? start_capacitance_F_ : 0.0;
    const double run = run_capacitance_F(positions);
    const double total = run + start;
    if (positions.run_capacitor == CapacitorCondition::shorted) {
        c.capacitor_resistance_ohm = shorted_ohm;
    } else if (total > 0.0) {
        const double start_share = start / total;
        const double run_share = run / total;
        c.elastance_per_F = 1.0 / total;
        c.start_capacitor_share = start_share;
        c.capacitor_resistance_ohm = run_share * run_share * run_resistance_ohm_ +
                                     start_share * start_share * limiter_.start_capacitor_esr_ohm;
    }
    c.iron_conductance_S =
        positions.line_connected && positions.motor_connected ? iron_conductance_S_ : 0.0;
    return c;
}

double StartCircuit::firing_threshold_V() const {
    return limiter_.thyristor_threshold_V + firing_margin_V;
}

double StartCircuit::meeting_capacitance_F(const SwitchPositions& positions) const {
    if (positions.run_capacitor == CapacitorCondition::shorted) {
        return start_capacitance_F_;
    }
    const double run = run_capacitance_F(positions);
    const double sum = run + start_capacitance_F_;
    return sum > 0.0 ? run * start_capacitance_F_ / sum : 0.0;
}

}  // namespace plant_models
