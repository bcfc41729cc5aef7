// Load "rolling_piston": a rotary compressor with one vane and one rolling
// piston, or with two of them at 180 degrees.
//
// The piston (radius a of the cylinder's) rolls along the cylinder; its line of
// contact stands at angle t from the vane. Behind the contact gas is drawn in,
// ahead of it gas is compressed.
//
//   vane reach   r(t)  = (1 - a) cos t + sqrt(a^2 - (1 - a)^2 sin^2 t)   centre
//   to piston, at the vane behind       b'(t) = (1 - r^2) / (2 pi (1 - a^2)) of
//   the displacement, per rad
//                b(t)  = f(t) / (2 pi (1 - a^2))
//                f     = (1 - a^2) t - (1 - a)^2 sin(2 t) / 2 - a^2 asin(q)
//                        - a (1 - a) sin t sqrt(1 - q^2),  q = (1/a - 1) sin t
//   ahead        u(t)  = (1 + c - b) / (1 + c)                           of the
//   largest pressure     p     = min(K u^-n, p_d)         from the suction port
//   (t_p) to the vane (2 pi)
//                p     = p_s                      from the vane to the port
//   torque       T     = (p - p_s) D b'(t)
//   flow         m     = rho_d D b'(t) w_shaft    while the discharge valve is
//   open
//
//   symbol | field               | unit
//   D      | displacement_cm3    | cm3 per revolution, of all cylinders
//   together a      | radius_ratio        | piston / cylinder t_p    |
//   suction_port_deg    | the contact passes the port's far edge c      |
//   clearance_percent   | of the displacement: the discharge port t      |
//   crank_angle_deg     | initial value; 0 is the contact of cylinder 1 at its
//   vane
//   -      | leak_s              | s   a closed chamber's pressure decays to
//   suction with this rest   | bearing_friction.hpp, refrigerant_circuit.hpp
//
// The suction has no valve. Forwards, passing the port closes a charge of
// suction gas in; passing the vane gives what is left in the clearance back to
// the suction. Backwards, a chamber opens at the vane holding its clearance of
// suction gas, expands below suction pressure, and is filled when it meets the
// port: a rotary that is driven backwards pumps nothing and drags. Port and
// vane are located events, a standstill commits the chamber, the valve's
// opening is a kink.
//
// Peak over mean of the gas torque (R410A, pressure ratio 2.5 and 3.4): 2.9
// and 3.2 with the default radius ratio, 3.1 and 3.4 in the limit of a thin
// crescent (0.98); twins 1.5 and 1.6, 1.6 and 1.7.
//
// Left out: thickness of the vane, over-compression beyond the discharge port,
// gas that blows from chamber to chamber except through leak_s.
//
// Source: the area between two touching circles, as in published rolling-piston
// models (e.g. Yanagisawa and Shimizu, Int. J. Refrigeration 8, 1985; form
// recalled, not seen; the derivative and a numerical area check it in the
// tests). Defaults are engineering judgement. The contact starts at 30 degrees,
// at the port: the gas drives a stopping rotor back to where the chamber is
// largest.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/bearing_friction.hpp"
#include "plant_models/loads/compression_chamber.hpp"
#include "plant_models/loads/load_interface.hpp"
#include "plant_models/loads/rolling_piston_shape.hpp"
#include "plant_models/parameter_table.hpp"
#include "plant_models/refrigerant/refrigerant_circuit.hpp"

namespace plant_models {

struct RollingPistonParameters {
    static constexpr std::string_view kind = "rolling_piston";

    int cylinders = 1;
    double displacement_cm3 = 0.0;
    double radius_ratio = 0.85;
    double suction_port_deg = 25.0;
    double clearance_percent = 1.0;
    double crank_angle_deg = 30.0;
    double leak_s = 0.5;
    double breakaway_torque_Nm = 0.0;
    double bearing_torque_Nm = 0.0;
    double oil_torque_Nm = 0.0;
    double reference_speed_rpm = 0.0;

    static const ParameterTable<RollingPistonParameters>& table();
    /// One sentence that says what is wrong between fields that are each in
    /// bounds; empty if none.
    std::string_view inconsistency() const { return {}; }
    /// The same between these fields and the refrigerant's.
    std::string_view inconsistency_with(const RefrigerantParameters&) const;
};

/// The model; its members are described in load_interface.hpp.
class RollingPiston {
  public:
    using Parameters = RollingPistonParameters;
    static constexpr std::size_t most_cylinders = 2;
    /// `content`: K of each cylinder, kPa at its largest volume.
    enum StateIndex : std::size_t {
        crank_angle,
        content,
        first_circuit_state = content + most_cylinders,
        state_count = first_circuit_state + RefrigerantCircuit::state_count
    };
    /// `port_or_vane`: the chamber ahead of a contact closes or opens.
    enum GuardIndex : std::size_t {
        port_or_vane,
        expansion_device = port_or_vane + most_cylinders,
        discharge_valve,
        guard_count = discharge_valve + most_cylinders
    };
    static constexpr std::size_t channel_count = 3 + most_cylinders;

    RollingPiston(const RollingPistonParameters&, const RefrigerantParameters&, const Conditions&);

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
    static bool guard_is_kink(std::size_t guard) { return guard >= expansion_device; }
    void on_guard(std::size_t guard, double* x);
    void on_standstill(double* x);
    void rest(double* x, double duration_s) const;
    void continue_from(const RollingPiston& before, double* x);
    static std::array<std::string_view, channel_count> channel_names();
    /// The chamber pressure of a cylinder that does not exist is 0.
    std::array<double, channel_count> channels(const double* x) const;

    const RefrigerantCircuit& circuit() const { return circuit_; }

  private:
    struct Cylinder {
        double slope;       ///< of the volume behind the contact, displacements per radian
        double power;       ///< u^n of the chamber ahead
        double closed_kPa;  ///< pressure there if the valve were shut
        double beyond;      ///< positive between port and vane, negative in the open part
    };
    using Cylinders = std::array<Cylinder, most_cylinders>;
    /// Of a cylinder whose chamber is open only `beyond`.
    Cylinders cylinders(const double* x) const;
    double gas_torque_Nm(const Cylinders&, const RefrigerantCircuit::Pressures&) const;
    /// From the vane of cylinder k; counted on beyond a turn up to the middle of
    /// the open part.
    double contact_angle(double crank_rad, std::size_t k) const;
    double volume_power(double behind) const;
    /// Suction gas into the chamber ahead of the contact.
    void fill(double* x, std::size_t k) const;

    std::size_t cylinders_;
    double cylinder_m3_;  ///< displacement of one cylinder
    double clearance_;
    double middle_rad_;  ///< of the open part, between vane and port
    double middle_sine_;
    double middle_cosine_;
    double initial_angle_rad_;
    RollingPistonShape shape_;
    BearingFriction friction_;
    RefrigerantCircuit circuit_;
    CompressionChamber chamber_;
    std::array<bool, most_cylinders> closed_{};  ///< the chamber ahead, between port and vane
};

}  // namespace plant_models
