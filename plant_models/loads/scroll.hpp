// Load "scroll": a scroll compressor with its pockets, its plenum, and the circuit it pumps in.
//
//   torque     T = sum over closed pairs (p_k - p_s) (-dV_k/dtheta) + (p_p - p_s) V_d / 2 pi
//   gas        dp/dt = n p (m'/m - V'/V),  V = pocket, or plenum with the central chamber
//   opening    inner pair and plenum mix: m = m_1 + m_2, p V = p_1 V_1 + p_2 V_2
//   valve      m'_v = m f(p_p - p_d) / (n p_p t_v), f(u) = u^2 / (u + 10 kPa) for u > 0, else 0;
//              f(u) = u, both ways, without a check valve
//   seals      m' = G (p_inner - p_outer), G = G_run + (G_rest - G_run) / (1 + (speed / w_f)^2)^4
//   lift-off   m'_l = m f(p_s - p_k) / (n p_k t_l) from the suction into pockets and plenum
//   suction    C_s dp_s/dt + d(rho_s V_f)/dt = m_x - flow into the pockets otherwise
//
//   symbol   | meaning                                                             | unit
//   theta, V | orbit angle and volumes: scroll_pockets.hpp                         | rad, m3
//   p, m     | pressure and mass of the gas in a pair of pockets or in the plenum  | kPa, kg
//   p_s, p_d | suction and discharge side: refrigerant_circuit.hpp                 | kPa
//   rho_s    | density at the suction; V_f is the pair that forms                  | kg/m3
//   n        | exponent of the gas's isentropic path (gas.hpp)                     | -
//   t_v, t_l | response of the valve 0.3 ms, of the wraps that lift off 2 ms       | s
//   w_f      | speed that presses the flanks together, 100 rad/s                   | rad/s
//
// What follows from it: a scroll starts unloaded, since at rest its pockets and plenum drain to the
// suction through the flanks, and loads up over the turns in which the plenum is pumped up. After a
// power cut the gas left inside drives it backwards; turning backwards it carries gas from the
// plenum to the suction and needs little torque, so a single-phase motor restarted then stays in
// that direction.
//
// Assumed: a seal's flow mixes in at the temperature of where it goes to (so between events each
// pocket stays on an isentrope); orbiting wraps are pressed together by their own centrifugal force
// (hence G falls with speed) and lift off where a pocket is below the suction pressure; no heating
// of the suction gas; the rest before the run was longer than settling_s; without a check valve the
// scroll itself has let both sides equalise within that rest. Valid for one to two turns of
// compression and for plenums of a quarter of the displacement or more. Left out: the resistance of
// the lines, so that without a check valve nothing but friction limits the speed backwards; and
// torque on the anti-rotation coupling.
//
// Sources: pockets and gas torque Morishita et al. 1984 (recalled, not seen); the rest is the usual
// control-volume model; t_v, t_l, w_f and the form of the leakage are engineering judgement.
//
// Rates are smooth between events: the events are the opening of the inner pair and the turn's end,
// either way. Their guards reverse with a gap of 1e-9 rad, so a rocking rotor cannot repeat one
// without moving.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "plant_models/conditions.hpp"
#include "plant_models/loads/bearing_friction.hpp"
#include "plant_models/loads/load_interface.hpp"
#include "plant_models/loads/scroll_parameters.hpp"
#include "plant_models/loads/scroll_pockets.hpp"
#include "plant_models/refrigerant/refrigerant_circuit.hpp"

namespace plant_models {

/// The model; its members are described in load_interface.hpp.
class Scroll {
  public:
    using Parameters = ScrollParameters;
    enum StateIndex : std::size_t {
        suction_pressure = RefrigerantCircuit::suction_pressure,
        discharge_pressure = RefrigerantCircuit::discharge_pressure,
        orbit_angle,  ///< 0 to 2 pi
        outer_pressure,
        outer_mass,
        inner_pressure,  ///< means nothing while the inner pair is open; nor does its mass
        inner_mass,
        plenum_pressure,
        plenum_mass
    };
    enum GuardIndex : std::size_t { inner_opening, turn_forwards, turn_backwards, device_running };
    static constexpr std::size_t state_count = 9;
    static constexpr std::size_t guard_count = 4;
    static constexpr std::size_t channel_count = 6;

    Scroll(const ScrollParameters&, const RefrigerantParameters&, const Conditions&);

    std::array<double, state_count> initial_state() const { return initial_; }
    LoadTorque<double> torque(const double* x, const LoadMotion<double>& motion) const {
        const double suction = x[suction_pressure];
        const double inner = inner_open_ ? 0.0 : x[inner_pressure] - suction;
        const double closed = x[outer_pressure] - suction + inner;
        const double kJ_per_rad =
            closed * pockets_.closed_shrinking_m3_per_rad() +
            (x[plenum_pressure] - suction) * pockets_.central_shrinking_m3_per_rad();
        return {1000.0 * kJ_per_rad, friction_.opposing_Nm(motion)};
    }
    double breakaway_torque_Nm(const double* /*x*/, double oil_drag_factor) const {
        return friction_.breakaway_torque_Nm(oil_drag_factor);
    }
    void derivatives(const double* x, double* dxdt, const LoadMotion<double>& motion) const;
    LoadTorque<double> torque_and_derivatives(const double* x, double* dxdt,
                                              const LoadMotion<double>& motion) const {
        derivatives(x, dxdt, motion);
        return torque(x, motion);
    }

    void guards(const double* x, const LoadMotion<double>& motion, double* values) const;
    static bool guard_is_kink(std::size_t guard) { return guard == device_running; }
    void on_guard(std::size_t guard, double* x);
    void on_standstill(double* /*x*/) {}
    /// Integrated by itself until pockets and plenum have drained to the suction; from there on
    /// they rise with it, in closed form but for the last second, which gives them their lag again.
    /// Without a check valve the plenum follows the discharge side more slowly than while the rotor
    /// turns, and still far faster than anything else moves.
    void rest(double* x, double duration_s) const;
    void continue_from(const Scroll& before, double* x);

    static std::array<std::string_view, channel_count> channel_names();
    std::array<double, channel_count> channels(const double* x) const;

    /// All the refrigerant there is: both sides, pockets, plenum. Nothing changes it.
    double total_mass_kg(const double* x) const;
    /// The inner pair has opened to the discharge port in this turn.
    bool inner_open() const { return inner_open_; }
    const ScrollPockets& pockets() const { return pockets_; }
    const RefrigerantCircuit& circuit() const { return circuit_; }

  private:
    void rates(const double* x, double* dxdt, double speed_rad_per_s, double valve_s) const;
    template <class Done>
    double stand(double* x, double duration_s, Done done) const;
    void rise_with_suction(double* x, double duration_s) const;
    void set_seals(const ScrollParameters&, const RefrigerantParameters&);
    void set_initial(double crank_angle_deg);
    double seal_conductance(double speed_rad_per_s) const;
    double plenum_volume_m3(double theta) const {
        return plenum_m3_ + pockets_.central_m3(theta, inner_open_);
    }
    void open_inner(double* x);
    void close_inner(double* x);
    void begin_next_turn(double* x);
    void return_to_last_turn(double* x);

    ScrollPockets pockets_;
    RefrigerantCircuit circuit_;
    BearingFriction friction_;
    double plenum_m3_;
    bool check_valve_;
    bool inner_open_ = false;
    double exponent_;
    double suction_density_per_kPa_;
    double seal_running_ = 0.0;  ///< kg/s per kPa
    double seal_resting_ = 0.0;
    std::array<double, state_count> initial_{};
};

}  // namespace plant_models
