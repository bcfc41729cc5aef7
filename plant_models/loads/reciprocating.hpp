// Load "reciprocating": a piston compressor of one cylinder, or of two at 180 degrees.
//
//   position  s(a)   = (1 - cos a) / 2 + (1 - w) R / 2          0 at top dead centre, 1 at bottom
//             ds/da  = (sin a / 2) (1 + cos a / (R w))          w = sqrt(1 - (sin a / R)^2)
//   volume    u(a)   = (c + s) / (1 + c)                        of the largest
//   pressure  p      = K u^-n within p_s .. p_d                 compression_chamber.hpp
//   torque    T      = -(p - p_s) D ds/da                       the crankcase is at suction
//   pressure flow      m      = rho_d D (-ds/da) w_shaft                 while the discharge valve
//   is open
//
//   symbol | field               | unit
//   D      | displacement_cm3    | cm3 per revolution, of all cylinders together
//   c      | clearance_percent   | of the displacement
//   R      | rod_ratio           | length of the connecting rod / crank radius
//   a      | crank_angle_deg     | initial value; 0 is the top dead centre of cylinder 1
//   n      | from the gas        | -
//   -      | ring_leak_s         | s   a closed cylinder's pressure decays to suction with this
//   rest   | bearing_friction.hpp, refrigerant_circuit.hpp
//
// Valid in both directions and for rocking: the dead centres are located events, and so is every
// standstill. A valve's opening is a kink. Valves are ideal, heat exchange in the cylinder is left
// out, and the exponent is that of the real gas's isentrope; so the mean gas torque is the
// isentropic one, n/(n-1) p_s V (r^((n-1)/n) - 1) per revolution without clearance. With the
// defaults and R410A its peak is 5.4 times the mean at a pressure ratio of 2.5, 6.3 times at 3.4.
//
// Source: slider-crank kinematics and the ideal indicator diagram of any textbook; the defaults of
// clearance, rod ratio and ring leak are engineering judgement. The crank starts at bottom dead
// centre: the gas drives a stopping rotor back to where the cylinder is largest, and from there the
// whole compression lies ahead of a rotor that has no speed yet. Another angle makes a start
// easier.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/bearing_friction.hpp"
#include "plant_models/loads/compression_chamber.hpp"
#include "plant_models/loads/load_interface.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/refrigerant/refrigerant_circuit.hpp"

namespace plant_models {

struct ReciprocatingParameters {
    static constexpr std::string_view kind = "reciprocating";

    int cylinders = 1;
    double displacement_cm3 = 0.0;
    double clearance_percent = 4.0;
    double rod_ratio = 4.0;
    double crank_angle_deg = 180.0;
    double ring_leak_s = 1.0;
    double breakaway_torque_Nm = 0.0;
    double bearing_torque_Nm = 0.0;
    double oil_torque_Nm = 0.0;
    double reference_speed_rpm = 0.0;

    static const ParameterTable<ReciprocatingParameters>& table();
    /// One sentence that says what is wrong between fields that are each in bounds; empty if none.
    std::string_view inconsistency() const { return {}; }
    /// The same between these fields and the refrigerant's.
    std::string_view inconsistency_with(const RefrigerantParameters&) const;
};

/// The model; its members are described in load_interface.hpp.
class Reciprocating {
  public:
    using Parameters = ReciprocatingParameters;
    static constexpr std::size_t most_cylinders = 2;
    /// `content`: K of each cylinder, kPa at its largest volume.
    enum StateIndex : std::size_t {
        crank_angle,
        content,
        first_circuit_state = content + most_cylinders,
        state_count = first_circuit_state + RefrigerantCircuit::state_count
    };
    enum GuardIndex : std::size_t {
        dead_centre,
        expansion_device,
        suction_valve,
        discharge_valve = suction_valve + most_cylinders,
        guard_count = discharge_valve + most_cylinders
    };
    static constexpr std::size_t channel_count = 3 + most_cylinders;

    Reciprocating(const ReciprocatingParameters&, const RefrigerantParameters&, const Conditions&);

    std::array<double, state_count> initial_state() const;
    LoadTorque<double> torque(const double* x, const LoadMotion<double>&) const;
    double breakaway_torque_Nm(const double* x, double oil_drag_factor) const;
    void derivatives(const double* x, double* dxdt, const LoadMotion<double>& motion) const {
        torque_and_derivatives(x, dxdt, motion);
    }
    /// Both at once, for the price of one.
    LoadTorque<double> torque_and_derivatives(const double* x, double* dxdt,
                                              const LoadMotion<double>&) const;
    void guards(const double* x, const LoadMotion<double>&, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard != dead_centre; }
    void on_guard(std::size_t guard, double* x);
    void on_standstill(double* x) { commit(x); }
    void rest(double* x, double duration_s) const;
    void continue_from(const Reciprocating& before, double* x);
    static std::array<std::string_view, channel_count> channel_names();
    /// The chamber pressure of a cylinder that does not exist is 0.
    std::array<double, channel_count> channels(const double* x) const;

    const RefrigerantCircuit& circuit() const { return circuit_; }

  private:
    struct Cylinder {
        double slope;       ///< of the piston's position 0 .. 1, per radian of the crank
        double power;       ///< u^n
        double closed_kPa;  ///< pressure if both valves were shut
        double pressure_kPa(const RefrigerantCircuit::Pressures&) const;
    };
    using Cylinders = std::array<Cylinder, most_cylinders>;
    /// Fills the cylinders that exist.
    Cylinders cylinders(const double* x) const;
    double gas_torque_Nm(const Cylinders&, const RefrigerantCircuit::Pressures&) const;
    void commit(double* x) const;

    std::size_t cylinders_;
    double cylinder_m3_;  ///< displacement of one cylinder
    double clearance_;
    double inverse_rod_ratio_;
    double initial_angle_rad_;
    BearingFriction friction_;
    RefrigerantCircuit circuit_;
    CompressionChamber chamber_;
    double half_turn_;  ///< sign of the sine of the crank's angle, until its next dead centre
};

}  // namespace plant_models
