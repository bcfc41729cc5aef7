// The network between the supply's terminal L1 and the motor: what each position of the switches
// means to the equations.
//
//            ┌── thyristor pair ──┐
//   L1 ──┬───┤                    ├──── R  main winding ──┐
//        │   └── bypass contact ──┘                       C
//        ├────── run capacitor ─────────┬── S  auxiliary ──┘
//        └── start capacitor, contact ──┘
//
// Every position is reduced to a handful of coefficients; the right-hand side uses them without
// branching. Positions change only at events.
//
// Two capacitors side by side. Between them lies only their series resistance r1 + r2, so their
// voltages meet within C_series (r1 + r2), a few microseconds. That is resolved as an event: on
// closing, charge is shared at once and C_series (v1 - v2)^2 / 2 is booked as loss. From then on
// the pair is one capacitor C1 + C2 behind (r1 C1^2 + r2 C2^2) / (C1 + C2)^2, which carries the
// same charge, stored energy and loss; its impedance is exact but for (w r C)^2 ~ 1e-5 of itself.
#pragma once

#include <array>
#include <cstdint>

#include "plant_models/damage.hpp"
#include "plant_models/motor/motor_parameters.hpp"
#include "plant_models/motor/winding_inductances.hpp"
#include "plant_models/switches/limiter_parameters.hpp"

namespace plant_models {

/// How the main winding is connected to L1. A contact that opens under current draws an arc, which
/// lasts until the current has fallen below what an arc needs.
enum class MainPath : std::uint8_t { open, thyristor, bypass, arc };

struct SwitchPositions {
    MainPath main_path = MainPath::open;
    double main_direction = 0.0;  ///< +1 or -1 while a thyristor or an arc conducts
    bool line_connected = false;  ///< contactor touching, or arcing
    bool start_capacitor_in = false;
    /// A thermistor stands where the run capacitor would; it conducts.
    bool auxiliary_through_thermistor = false;
    bool motor_connected = true;
    CapacitorCondition run_capacitor = CapacitorCondition::whole;
};

/// What the right-hand side needs to know of the switches.
template <class Real>
struct CircuitCoefficients {
    std::array<std::array<Real, 4>, 4> inverse_inductance{};  ///< 1/H
    Real main_drop_V = Real(0.0);      ///< against the main current: signed, constant part
    Real main_drop_ohm = Real(0.0);    ///< against the main current: resistive part
    Real elastance_per_F = Real(0.0);  ///< of the connected capacitors; 0 when there is none
    Real capacitor_resistance_ohm = Real(0.0);
    Real start_capacitor_share = Real(0.0);  ///< of the auxiliary current
    Real iron_conductance_S = Real(0.0);
};

class StartCircuit {
  public:
    StartCircuit(const MotorParameters& motor, const LimiterParameters& limiter,
                 double series_inductance_H);

    CircuitCoefficients<double> coefficients(const SwitchPositions& positions) const;

    /// Of the four windings, with the inductance in series with the line.
    const WindingMatrix& inductances() const { return inductances_; }
    /// Smallest current that keeps an arc burning between parting contacts.
    static constexpr double arc_minimum_A = 0.4;

    /// Voltage across the blocking pair from which a gated thyristor conducts.
    double firing_threshold_V() const;
    double latching_current_A() const { return 1e-3 * limiter_.thyristor_latching_mA; }
    /// As the name plate says, whatever its condition.
    double run_capacitance_F() const { return run_capacitance_F_; }
    /// Of the run capacitor that is in the circuit as a capacitor.
    double run_capacitance_F(const SwitchPositions& positions) const {
        return positions.run_capacitor == CapacitorCondition::whole ? run_capacitance_F_ : 0.0;
    }
    double start_capacitance_F() const { return start_capacitance_F_; }
    /// Time constant with which the start capacitor discharges while it is out.
    double start_capacitor_discharge_s() const {
        return limiter_.start_capacitor_bleed_ohm * start_capacitance_F_;
    }
    /// Capacitance that shares charge when the two meet: C1 C2 / (C1 + C2); all of the start
    /// capacitor's where it meets a short.
    double meeting_capacitance_F(const SwitchPositions& positions = {}) const;
    /// Whether a current in the main winding finds a way back, were its path closed.
    bool main_has_return(const SwitchPositions& positions) const {
        return positions.motor_connected &&
               (positions.line_connected || auxiliary_has_path(positions));
    }
    bool auxiliary_has_path(const SwitchPositions& positions) const {
        return run_capacitance_F(positions) > 0.0 || positions.start_capacitor_in ||
               positions.run_capacitor == CapacitorCondition::shorted ||
               positions.auxiliary_through_thermistor;
    }

  private:
    StatorConnection connection(const SwitchPositions& positions) const;

    LimiterParameters limiter_;
    double run_capacitance_F_;
    double run_resistance_ohm_;
    double start_capacitance_F_;
    double iron_conductance_S_;
    WindingMatrix inductances_;
    std::array<WindingMatrix, stator_connection_count> inverses_;
};

}  // namespace plant_models
