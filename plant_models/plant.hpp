// The plant: supply, start circuit, motor and load as one system of differential equations with
// switches. It never knows that it is being controlled: from outside, somebody moves its contacts
// and its gate.
//
// Between two events the state is smooth and `derivative` is its right-hand side. `guards` are the
// functions whose zeros are the plant's own events (current zero, firing, breakaway, sticking, arc
// out, whatever the supply has); `on_guard` carries one out. `set_...` carry out the events that
// come from outside. Every one of them may change the coefficients, so the caller evaluates the
// derivative again afterwards.
//
//   u_m = e - R_s i_s - drop(i_m) - r_m i_m               i_s = i_m + i_a
//   u_a = e - R_s i_s - v_c - (r_c + r_a) i_a             dv_c/dt = i_a / C
//   u_r = -r_r i_r +- w_e lambda                          di/dt = M u   (winding_inductances.hpp)
//   J dw/dt = T_e - T_gas - direction (T_load + T_friction + T_windage)
//
// Resistances follow the temperatures of the unit, and a thermistor may leak past the capacitor or
// stand in its place; with a BareUnit both are constants that the compiler removes.
//
// Iron loss is a conductance across the terminal L1-C that grows with V^2 like the loss; its own
// drop across the supply impedance is neglected (R_s G, a few 1e-4 of the voltage).
// Rotor at rest: it stays while |T_e - T_gas| <= breakaway torque (then direction = 0 and the
// derivative is held), starts in the direction of the excess, and sticks again at a zero of speed
// where the torque does not carry it through.
//
// State: 4 winding currents, capacitor voltage, speed, 7 energies, supply, load and unit states.
// The energies are integrated as states so that the audit is as accurate as the motion.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

#include "plant_models/circuit/start_circuit.hpp"
#include "plant_models/damage.hpp"
#include "plant_models/loads/load_interface.hpp"
#include "plant_models/motor/motor_equations.hpp"
#include "plant_models/plant_outputs.hpp"
#include "plant_models/supplies/supply_interface.hpp"
#include "plant_models/unit/bare_unit.hpp"
#include "plant_models/wiring/series_impedance.hpp"

namespace plant_models {

template <class Supply, class Load, class Unit = BareUnit>
class Plant {
  public:
    enum StateIndex : std::size_t {
        main_current,
        aux_current,
        rotor_main_current,
        rotor_aux_current,
        capacitor_voltage,
        speed,
        source_energy,
        copper_energy,
        wiring_energy,
        switch_energy,
        iron_energy,
        friction_energy,
        load_energy,
        first_supply_state
    };
    static constexpr std::size_t first_load_state = first_supply_state + Supply::state_count;
    static constexpr std::size_t first_unit_state = first_load_state + Load::state_count;
    static constexpr std::size_t state_count = first_unit_state + Unit::state_count;
    using State = std::array<double, state_count>;

    enum GuardIndex : std::size_t {
        main_current_zero,
        firing,
        speed_zero,
        breakaway,
        start_contact_arc_out,
        line_contact_arc_out,
        first_supply_guard
    };
    static constexpr std::size_t first_load_guard = first_supply_guard + Supply::guard_count;
    static constexpr std::size_t first_unit_guard = first_load_guard + Load::guard_count;
    static constexpr std::size_t guard_count = first_unit_guard + Unit::guard_count;
    using Guards = std::array<double, guard_count>;

    Plant(const MotorParameters& motor, const LimiterParameters& limiter, const Supply& supply,
          const Load& load, const Unit& unit = Unit(), const SeriesImpedance& wiring = {});

    State initial_state(double initial_speed_rad_per_s);
    /// So that the supply's, the windings' and the drag's fastest modes are followed; for a run
    /// that begins at the state that initial_state gave last.
    double largest_step_s() const { return largest_step_s_; }
    /// Bound that changes with the state; only a fitted unit has one.
    double largest_step_s([[maybe_unused]] const State& x) const {
        if constexpr (Unit::is_fitted) {
            return unit_.largest_step_s(x.data() + first_unit_state);
        } else {
            return largest_step_s();
        }
    }

    /// Called before a step that begins at t; the derivative is then evaluated at t .. t + step.
    void set_origin(double time_s) { supply_.set_origin(time_s); }
    void derivative(const State& x, State& dxdt, double time_s) const;

    /// Values of all guards; 1 where a guard is not armed. Needs the derivative at the same state.
    void guards(const State& x, const State& dxdt, double time_s, Guards& values) const;
    static bool guard_is_kink(std::size_t guard);
    void on_guard(std::size_t guard, State& x, const State& dxdt, double time_s);

    /// The command at the contactor's coil circuit; what a unit with its own coil makes of it is
    /// `unit().contactor_wanted()`.
    void set_coil_commanded(bool commanded);
    const Unit& unit() const { return unit_; }
    void set_line_contact(bool touching, State& x);
    void set_start_contact(bool touching, State& x, double time_s);
    void set_bypass_contact(bool touching, State& x);
    void set_gate(bool on, State& x, const State& dxdt, double time_s);
    /// Breaks and mends; of the contacts in it only their owner makes something.
    void set_damage(const Damage& damage, State& x, double time_s);

    /// Whether only the slow states (pressures, heat, timers, charge) move any more: the line is
    /// open, what flows in the windings no longer counts, the rotor stands, and supply and unit
    /// have settled.
    bool at_rest(const State& x) const;
    /// How much of a rest may be taken at once; the supply decides.
    double whole_rest_s(double wanted_s) const { return supply_.whole_rest_s(wanted_s); }
    /// From one instant to another, at rest. What is left in windings and in a capacitor that they
    /// discharge becomes heat in them; nothing else is booked: an audit over a rest means nothing.
    void rest(State& x, double begin_s, double end_s);
    /// Goes on, at rest, with the supply and its states as another plant has left them.
    void keep_supply(const Supply& supply, const double* states, State& x);
    const Supply& supply() const { return supply_; }
    /// Goes on, at rest, with the same motor, load and unit as another plant has left them at
    /// `left`, with this plant's numbers: charge, pressures, heat, and what has tripped.
    void keep_unit(const Plant& before, const State& left, State& x);
    /// From here on `energy` counts anew, as at the beginning of a run.
    void restart_audit(State& x, double time_s);

    /// Fills every field of `out`.
    void read_outputs(const State& x, const State& dxdt, double time_s, PlantOutputs& out) const;
    EnergyAudit energy(const State& x, double time_s) const;
    static auto supply_channel_names() { return Supply::channel_names(); }
    static auto load_channel_names() { return Load::channel_names(); }

  private:
    WindingCurrents<double> windings(const State& x) const;
    WindingResistances<double> resistances(const State& x) const;
    LoadMotion<double> load_motion(const State& x) const;
    UnitSignals unit_signals(const State& x, const State& dxdt, double terminal_V,
                             double load_friction_Nm) const;
    SupplyLoading loading(const State& x, const State& dxdt, double time_s) const;
    double supply_emf_V(const State& x, double time_s) const;
    SupplyLoading at_supply(const SupplyLoading& at_unit) const;
    bool supply_cut_off() const { return supply_.disconnected() || damage_.supply_interrupted; }
    double terminal_voltage_V(const State& x, const State& dxdt, double time_s) const;
    double blocking_voltage_V(const State& x, const State& dxdt, double time_s) const;
    double driving_torque_Nm(const State& x) const;
    double opposing_torque_Nm(const State& x) const;
    double own_friction_torque_Nm(double speed_rad_per_s) const;
    double start_terminal_voltage_V(const State& x, const State& dxdt) const;
    double breakaway_torque_Nm(const State& x) const;
    double start_capacitor_voltage_V(const State& x, double time_s) const;
    double magnetic_energy_J(const State& x) const;
    double stored_energy_J(const State& x, double time_s) const;
    double bleed_loss_J(double time_s) const;

    double step_limit_s(const State& initial) const;
    void update_coefficients();
    void settle_currents(State& x);
    void open_main_path(State& x);
    void change_run_capacitor(CapacitorCondition condition, State& x);
    void take_motor_off(State& x, double time_s);
    void seize_rotor(State& x);
    /// Whether the pair can take up a current of this sign now.
    bool can_fire(double direction) const;
    double forward_voltage_V(double blocking_V) const;
    void disconnect_line(State& x);
    void update_line_path(State& x);
    void follow_unit(State& x);
    /// Of a current that would burn on as an arc; 0 of a smaller one.
    static double arc_sign(double current_A);
    void fire_if_blocking(State& x, const State& dxdt, double time_s);
    void take_start_capacitor_out(const State& x, double time_s);
    void release_or_hold_rotor(const State& x);

    MotorEquations<double> motor_;
    StartCircuit circuit_;
    Supply supply_;
    Load load_;
    Unit unit_;
    double series_resistance_ohm_;
    double series_inductance_H_;
    double inertia_kg_m2_;
    double inverse_inertia_per_kg_m2_;
    double synchronous_speed_rad_per_s_;
    double winding_mode_per_s_;
    double largest_step_s_ = 0.0;
    double friction_torque_Nm_;
    double windage_Nm_s2_;

    Damage damage_;
    double inverse_voltage_share_ = 1.0;
    SwitchPositions positions_;
    CircuitCoefficients<double> coefficients_;
    bool contactor_touching_ = false;
    bool coil_commanded_ = false;
    bool gate_on_ = false;
    bool bypass_touching_ = false;
    double start_arc_sign_ = 0.0;  ///< of the auxiliary current while the opened contact arcs
    double line_arc_sign_ = 0.0;   ///< of the line current while the opened contactor arcs
    double direction_ = 0.0;       ///< of rotation; 0 while the rotor sticks
    // The start capacitor while it is out: discharging from a voltage since an instant.
    double idle_start_capacitor_V_ = 0.0;
    double idle_since_s_ = 0.0;
    double open_run_capacitor_V_ = 0.0;  ///< kept by a run capacitor that has opened
    double bleed_loss_before_J_ = 0.0;
    double bleed_loss_before_audit_J_ = 0.0;
    double initial_stored_J_ = 0.0;
};

}  // namespace plant_models

#include "plant_models/plant_implementation.hpp"
