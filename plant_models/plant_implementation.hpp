// Bodies of plant.hpp.
#pragma once

#include <algorithm>
#include <cmath>

#include "plant_models/motor/fastest_mode.hpp"
#include "plant_models/numeric/step_share.hpp"
#include "plant_models/numeric/units.hpp"

namespace plant_models {

template <class Supply, class Load, class Unit>
Plant<Supply, Load, Unit>::Plant(const MotorParameters& motor, const LimiterParameters& limiter,
                                 const Supply& supply, const Load& load, const Unit& unit,
                                 const SeriesImpedance& wiring)
    : motor_(motor),
      circuit_(motor, limiter, supply.series_inductance_H() + wiring.inductance_H),
      supply_(supply),
      load_(load),
      unit_(unit),
      series_resistance_ohm_(supply.series_resistance_ohm() + wiring.resistance_ohm),
      series_inductance_H_(supply.series_inductance_H() + wiring.inductance_H),
      inertia_kg_m2_(motor.inertia_kg_m2),
      inverse_inertia_per_kg_m2_(1.0 / motor.inertia_kg_m2),
      synchronous_speed_rad_per_s_(motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz)),
      winding_mode_per_s_(
          fastest_mode_per_s(motor, {series_resistance_ohm_, series_inductance_H_})) {
    const double synchronous = synchronous_speed_rad_per_s_;
    friction_torque_Nm_ = motor.friction_loss_W / synchronous;
    windage_Nm_s2_ = motor.windage_loss_W / (synchronous * synchronous * synchronous);
    if constexpr (Unit::is_fitted) {
        positions_.auxiliary_through_thermistor = unit_.auxiliary_through_thermistor();
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
typename Plant<Supply, Load, Unit>::State Plant<Supply, Load, Unit>::initial_state(
    double initial_speed_rad_per_s) {
    State x{};
    x[speed] = initial_speed_rad_per_s;
    direction_ = (initial_speed_rad_per_s > 0.0) - (initial_speed_rad_per_s < 0.0);
    const auto supply_state = supply_.initial_state();
    for (std::size_t k = 0; k < Supply::state_count; ++k) {
        x[first_supply_state + k] = supply_state[k];
    }
    const auto load_state = load_.initial_state();
    for (std::size_t k = 0; k < Load::state_count; ++k) {
        x[first_load_state + k] = load_state[k];
    }
    const auto unit_state = unit_.initial_state();
    for (std::size_t k = 0; k < Unit::state_count; ++k) {
        x[first_unit_state + k] = unit_state[k];
    }
    initial_stored_J_ = stored_energy_J(x, 0.0);
    largest_step_s_ = step_limit_s(x);
    return x;
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::step_limit_s(const State& initial) const {
    constexpr double highest_overspeed = 1.1;  // no load drives a motor faster for long
    State fast = initial;
    fast[speed] =
        std::max(std::abs(initial[speed]), highest_overspeed * synchronous_speed_rad_per_s_);
    State faster = fast;
    faster[speed] = 1.01 * fast[speed];
    const double drag_Nm_s =
        (opposing_torque_Nm(faster) - opposing_torque_Nm(fast)) / (faster[speed] - fast[speed]);
    const double rotation = motor_.pole_pairs * fast[speed];
    const double fastest =
        std::max({winding_mode_per_s_, rotation, drag_Nm_s * inverse_inertia_per_kg_m2_});
    return std::min(supply_.largest_step_s(), step_share / fastest);
}

template <class Supply, class Load, class Unit>
WindingCurrents<double> Plant<Supply, Load, Unit>::windings(const State& x) const {
    return {x[main_current], x[aux_current], x[rotor_main_current], x[rotor_aux_current]};
}

template <class Supply, class Load, class Unit>
WindingResistances<double> Plant<Supply, Load, Unit>::resistances(
    [[maybe_unused]] const State& x) const {
    WindingResistances<double> r = motor_.rated_resistances();
    if constexpr (Unit::is_fitted) {
        const WindingFactors factors = unit_.resistance_factors(x.data() + first_unit_state);
        r.main_ohm *= factors.main;
        r.aux_ohm *= factors.aux;
        r.rotor_ohm *= factors.rotor;
    }
    return r;
}

template <class Supply, class Load, class Unit>
LoadMotion<double> Plant<Supply, Load, Unit>::load_motion(const State& x) const {
    if constexpr (Unit::is_fitted) {
        return {x[speed], unit_.oil_drag_factor(x.data() + first_unit_state)};
    } else {
        return {x[speed], 1.0};
    }
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::own_friction_torque_Nm(double speed_rad_per_s) const {
    return friction_torque_Nm_ + windage_Nm_s2_ * speed_rad_per_s * speed_rad_per_s;
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::derivative(const State& x, State& dxdt, double time_s) const {
    const WindingCurrents<double> i = windings(x);
    const WindingResistances<double> r = resistances(x);
    const CircuitCoefficients<double>& c = coefficients_;
    const double* supply_state = x.data() + first_supply_state;
    const double line_A = i.main_A + i.aux_A;
    const double emf = supply_emf_V(x, time_s);
    const double behind_resistance = emf - series_resistance_ohm_ * line_A;
    const double electrical_speed = motor_.pole_pairs * x[speed];

    const double main_drop = c.main_drop_V + c.main_drop_ohm * i.main_A;
    const double u0 = behind_resistance - main_drop - r.main_ohm * i.main_A;
    double capacitor_branch_ohm = c.capacitor_resistance_ohm;
    double leak_A = 0.0;
    if constexpr (Unit::is_fitted) {
        const double* unit_state = x.data() + first_unit_state;
        capacitor_branch_ohm += unit_.auxiliary_series_ohm(unit_state);
        leak_A = unit_.capacitor_leak_S(unit_state) * x[capacitor_voltage];
    }
    const double u1 =
        behind_resistance - x[capacitor_voltage] - (capacitor_branch_ohm + r.aux_ohm) * i.aux_A;
    const double u2 = -r.rotor_ohm * i.rotor_main_A + electrical_speed * motor_.rotor_aux_flux(i);
    const double u3 = -r.rotor_ohm * i.rotor_aux_A - electrical_speed * motor_.rotor_main_flux(i);
    // The matrix is symmetric: its rows serve as columns, which lets a vector unit do all four
    // rows.
    const auto& m = c.inverse_inductance;
    for (std::size_t k = 0; k < 4; ++k) {
        dxdt[k] = m[0][k] * u0 + m[1][k] * u1 + m[2][k] * u2 + m[3][k] * u3;
    }
    dxdt[capacitor_voltage] = c.elastance_per_F * (i.aux_A - leak_A);

    const LoadMotion<double> motion = load_motion(x);
    const LoadTorque<double> load = load_.torque_and_derivatives(
        x.data() + first_load_state, dxdt.data() + first_load_state, motion);
    const double own_friction = own_friction_torque_Nm(x[speed]);
    const double free = direction_ * direction_;
    const double net = motor_.torque_Nm(i) - load.driving_Nm -
                       direction_ * (load.opposing_Nm + own_friction + damage_.extra_load_Nm);
    dxdt[speed] = free * net * inverse_inertia_per_kg_m2_;

    const double terminal =
        behind_resistance - series_inductance_H_ * (dxdt[main_current] + dxdt[aux_current]);
    const SupplyLoading supply_loading{line_A, c.iron_conductance_S * terminal, terminal};
    const SupplyPower power = supply_.derivatives(supply_state, dxdt.data() + first_supply_state,
                                                  time_s, at_supply(supply_loading));
    dxdt[source_energy] = power.source_W;
    dxdt[copper_energy] = motor_.copper_loss_W(i, r);
    dxdt[wiring_energy] = power.loss_W + series_resistance_ohm_ * line_A * line_A +
                          capacitor_branch_ohm * i.aux_A * i.aux_A + leak_A * x[capacitor_voltage];
    dxdt[switch_energy] = main_drop * i.main_A;
    dxdt[iron_energy] = terminal * supply_loading.iron_current_A;
    dxdt[friction_energy] = direction_ * own_friction * x[speed];
    dxdt[load_energy] =
        (load.driving_Nm + direction_ * (load.opposing_Nm + damage_.extra_load_Nm)) * x[speed];
    if constexpr (Unit::is_fitted) {
        unit_.derivatives(x.data() + first_unit_state, dxdt.data() + first_unit_state,
                          unit_signals(x, dxdt, terminal, load.opposing_Nm));
    }
}

template <class Supply, class Load, class Unit>
UnitSignals Plant<Supply, Load, Unit>::unit_signals(const State& x, const State& dxdt,
                                                    double terminal,
                                                    double load_friction_Nm) const {
    const WindingCurrents<double> i = windings(x);
    const WindingResistances<double> r = resistances(x);
    UnitSignals signals;
    signals.supply_voltage_V = supply_cut_off() ? 0.0 : terminal;
    signals.line_connected = positions_.line_connected;
    signals.coil_commanded = coil_commanded_;
    signals.line_current_A = i.main_A + i.aux_A + coefficients_.iron_conductance_S * terminal;
    signals.aux_current_A = i.aux_A;
    signals.start_terminal_voltage_V = start_terminal_voltage_V(x, dxdt);
    signals.run_capacitor_voltage_V = x[capacitor_voltage];
    signals.auxiliary_branch_voltage_V =
        positions_.line_connected ? terminal - signals.start_terminal_voltage_V : 0.0;
    signals.speed_rad_per_s = x[speed];
    signals.main_copper_W = motor_.main_copper_W(i, r);
    signals.aux_copper_W = motor_.aux_copper_W(i, r);
    signals.cage_W = motor_.cage_W(i, r);
    signals.iron_W = terminal * coefficients_.iron_conductance_S * terminal;
    signals.friction_W = (own_friction_torque_Nm(x[speed]) + load_friction_Nm) * std::abs(x[speed]);
    return signals;
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::start_terminal_voltage_V(const State& x,
                                                           const State& dxdt) const {
    return motor_.aux_voltage_V(windings(x), windings(dxdt), resistances(x));
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::supply_emf_V(const State& x, double time_s) const {
    return damage_.supply_voltage_share * supply_.emf_V(x.data() + first_supply_state, time_s);
}

/// Through the ideal transformer that a changed voltage amounts to.
template <class Supply, class Load, class Unit>
SupplyLoading Plant<Supply, Load, Unit>::at_supply(const SupplyLoading& at_unit) const {
    const double share = damage_.supply_voltage_share;
    return {share * at_unit.winding_current_A, share * at_unit.iron_current_A,
            at_unit.terminal_voltage_V / share};
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::terminal_voltage_V(const State& x, const State& dxdt,
                                                     double time_s) const {
    return supply_emf_V(x, time_s) - series_resistance_ohm_ * (x[main_current] + x[aux_current]) -
           series_inductance_H_ * (dxdt[main_current] + dxdt[aux_current]);
}

template <class Supply, class Load, class Unit>
SupplyLoading Plant<Supply, Load, Unit>::loading(const State& x, const State& dxdt,
                                                 double time_s) const {
    const double terminal = terminal_voltage_V(x, dxdt, time_s);
    return {x[main_current] + x[aux_current], coefficients_.iron_conductance_S * terminal,
            terminal};
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::blocking_voltage_V(const State& x, const State& dxdt,
                                                     double time_s) const {
    const WindingCurrents<double> i = windings(x);
    const WindingCurrents<double> rate = windings(dxdt);
    // With the contactor open, L1 floats on the run capacitor and the auxiliary winding.
    const double l1 = positions_.line_connected
                          ? terminal_voltage_V(x, dxdt, time_s)
                          : x[capacitor_voltage] + start_terminal_voltage_V(x, dxdt);
    return l1 - motor_.main_voltage_V(i, rate, resistances(x));
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::driving_torque_Nm(const State& x) const {
    return motor_.torque_Nm(windings(x)) -
           load_.torque(x.data() + first_load_state, load_motion(x)).driving_Nm;
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::opposing_torque_Nm(const State& x) const {
    return load_.torque(x.data() + first_load_state, load_motion(x)).opposing_Nm +
           own_friction_torque_Nm(x[speed]) + damage_.extra_load_Nm;
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::breakaway_torque_Nm(const State& x) const {
    return load_.breakaway_torque_Nm(x.data() + first_load_state, load_motion(x).oil_drag_factor) +
           friction_torque_Nm_ + damage_.extra_load_Nm;
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::guards(const State& x, const State& dxdt, double time_s,
                                       Guards& values) const {
    values.fill(1.0);
    const double arc_minimum = StartCircuit::arc_minimum_A;
    if (positions_.main_path == MainPath::thyristor) {
        values[main_current_zero] = positions_.main_direction * x[main_current];
    } else if (positions_.main_path == MainPath::arc) {
        values[main_current_zero] = positions_.main_direction * x[main_current] - arc_minimum;
    } else if (positions_.main_path == MainPath::open && (can_fire(1.0) || can_fire(-1.0))) {
        values[firing] =
            circuit_.firing_threshold_V() - forward_voltage_V(blocking_voltage_V(x, dxdt, time_s));
    }
    if (direction_ != 0.0) {
        values[speed_zero] = direction_ * x[speed];
    } else if (!damage_.rotor_seized) {
        values[breakaway] = breakaway_torque_Nm(x) - std::abs(driving_torque_Nm(x));
    }
    if (start_arc_sign_ != 0.0) {
        values[start_contact_arc_out] =
            start_arc_sign_ * coefficients_.start_capacitor_share * x[aux_current] - arc_minimum;
    }
    if (line_arc_sign_ != 0.0) {
        values[line_contact_arc_out] =
            line_arc_sign_ * (x[main_current] + x[aux_current]) - arc_minimum;
    }
    if constexpr (Supply::guard_count > 0) {
        supply_.guards(x.data() + first_supply_state, time_s, at_supply(loading(x, dxdt, time_s)),
                       values.data() + first_supply_guard);
    }
    if constexpr (Load::guard_count > 0) {
        load_.guards(x.data() + first_load_state, load_motion(x), values.data() + first_load_guard);
    }
    if constexpr (Unit::guard_count > 0) {
        // Heat, the only signal that the friction gives, has no guard.
        unit_.guards(x.data() + first_unit_state,
                     unit_signals(x, dxdt, terminal_voltage_V(x, dxdt, time_s), 0.0),
                     values.data() + first_unit_guard);
    }
}

template <class Supply, class Load, class Unit>
bool Plant<Supply, Load, Unit>::guard_is_kink([[maybe_unused]] std::size_t guard) {
    if constexpr (Unit::guard_count > 0) {
        if (guard >= first_unit_guard) {
            return Unit::guard_is_kink(guard - first_unit_guard);
        }
    }
    if constexpr (Load::guard_count > 0) {
        if (guard >= first_load_guard) {
            return Load::guard_is_kink(guard - first_load_guard);
        }
    }
    return guard >= first_supply_guard && Supply::guard_is_kink(guard - first_supply_guard);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::on_guard(std::size_t guard, State& x, const State& dxdt,
                                         double time_s) {
    switch (guard) {
        case main_current_zero:
            open_main_path(x);
            // A gate that is still driven hands over to the other thyristor at once.
            if (can_fire(1.0) || can_fire(-1.0)) {
                State fresh{};
                derivative(x, fresh, time_s);
                fire_if_blocking(x, fresh, time_s);
            }
            break;
        case firing:
            fire_if_blocking(x, dxdt, time_s);
            break;
        case speed_zero:
        case breakaway:
            x[speed] = 0.0;
            if constexpr (Load::guard_count > 0) {
                load_.on_standstill(x.data() + first_load_state);
            }
            release_or_hold_rotor(x);
            break;
        case start_contact_arc_out:
            take_start_capacitor_out(x, time_s);
            settle_currents(x);
            break;
        case line_contact_arc_out:
            disconnect_line(x);
            break;
        default:
            if constexpr (Unit::guard_count > 0) {
                if (guard >= first_unit_guard) {
                    unit_.on_guard(guard - first_unit_guard, x.data() + first_unit_state);
                    follow_unit(x);
                    break;
                }
            }
            if constexpr (Load::guard_count > 0) {
                if (guard >= first_load_guard) {
                    load_.on_guard(guard - first_load_guard, x.data() + first_load_state);
                    break;
                }
            }
            if constexpr (Supply::guard_count > 0) {
                supply_.on_guard(guard - first_supply_guard, x.data() + first_supply_state);
                update_line_path(x);
            }
            break;
    }
    update_coefficients();
}

/// Carries out what the unit's last decision means to the circuit.
template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::follow_unit(State& x) {
    if constexpr (Unit::is_fitted) {
        const bool through_thermistor = unit_.auxiliary_through_thermistor();
        if (through_thermistor != positions_.auxiliary_through_thermistor) {
            positions_.auxiliary_through_thermistor = through_thermistor;
            settle_currents(x);
        }
        update_line_path(x);
    }
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::release_or_hold_rotor(const State& x) {
    const double torque = driving_torque_Nm(x);
    const bool held =
        std::abs(torque) < breakaway_torque_Nm(x) || torque == 0.0 || damage_.rotor_seized;
    direction_ = held ? 0.0 : (torque > 0.0 ? 1.0 : -1.0);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::settle_currents(State& x) {
    // What the connection no longer lets flow (a rest at a located zero, or below latching)
    // vanishes while every loop that stays closed keeps its flux linkage: i+ = M L i-. This is the
    // state of least energy with those fluxes, so the switch only ever takes energy.
    update_coefficients();
    const double before = magnetic_energy_J(x);
    const WindingMatrix& inductances = circuit_.inductances();
    std::array<double, 4> flux{};
    for (std::size_t k = 0; k < 4; ++k) {
        for (std::size_t j = 0; j < 4; ++j) {
            flux[k] += inductances[k][j] * x[j];
        }
    }
    for (std::size_t k = 0; k < 4; ++k) {
        const auto& row = coefficients_.inverse_inductance[k];
        x[k] = row[0] * flux[0] + row[1] * flux[1] + row[2] * flux[2] + row[3] * flux[3];
    }
    x[switch_energy] += before - magnetic_energy_J(x);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::disconnect_line(State& x) {
    line_arc_sign_ = 0.0;
    positions_.line_connected = false;
    settle_currents(x);
    const bool conducts_on = positions_.main_path == MainPath::thyristor && !gate_on_;
    if (conducts_on && !circuit_.main_has_return(positions_)) {
        open_main_path(x);
    }
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::open_main_path(State& x) {
    positions_.main_path = MainPath::open;
    positions_.main_direction = 0.0;
    settle_currents(x);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::fire_if_blocking(State& x, const State& dxdt, double time_s) {
    const double voltage = blocking_voltage_V(x, dxdt, time_s);
    // The guard locates the threshold from below, so equality has to count as reached.
    if (forward_voltage_V(voltage) < circuit_.firing_threshold_V() * (1.0 - 1e-9)) {
        return;
    }
    positions_.main_path = MainPath::thyristor;
    positions_.main_direction = voltage > 0.0 ? 1.0 : -1.0;
    update_coefficients();
}

template <class Supply, class Load, class Unit>
bool Plant<Supply, Load, Unit>::can_fire(double direction) const {
    const std::size_t device = direction > 0.0 ? positive_thyristor : negative_thyristor;
    // What has no gate to take away again must not begin to conduct where no current can flow.
    const bool by_itself =
        damage_.thyristor_shorted[device] && circuit_.main_has_return(positions_);
    const bool by_gate = gate_on_ && !damage_.thyristor_dead[device] && positions_.motor_connected;
    return by_itself || by_gate;
}

/// Across the thyristor that would fire; 0 or less if none would.
template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::forward_voltage_V(double blocking_V) const {
    return can_fire(blocking_V) ? std::abs(blocking_V) : -std::abs(blocking_V);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::update_coefficients() {
    coefficients_ = circuit_.coefficients(positions_);
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::arc_sign(double current_A) {
    const double magnitude_A = std::abs(current_A);
    return magnitude_A <= StartCircuit::arc_minimum_A ? 0.0 : current_A / magnitude_A;
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_coil_commanded(bool commanded) {
    coil_commanded_ = commanded;
    if constexpr (Unit::is_fitted) {
        unit_.set_coil_commanded(commanded);
    }
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_line_contact(bool touching, State& x) {
    contactor_touching_ = touching;
    update_line_path(x);
}

/// Contactor, protector and the supply's own breaker are in series.
template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::update_line_path(State& x) {
    bool closed = contactor_touching_ && !supply_cut_off();
    if constexpr (Unit::is_fitted) {
        closed = closed && unit_.line_closed();
    }
    if (closed) {
        line_arc_sign_ = 0.0;
        positions_.line_connected = true;
    } else if (positions_.line_connected) {
        line_arc_sign_ = arc_sign(x[main_current] + x[aux_current]);
        if (line_arc_sign_ == 0.0) {
            disconnect_line(x);
        }
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_start_contact(bool touching, State& x, double time_s) {
    if (circuit_.start_capacitance_F() == 0.0) {
        return;
    }
    if (!touching && positions_.start_capacitor_in) {
        start_arc_sign_ = arc_sign(coefficients_.start_capacitor_share * x[aux_current]);
        if (start_arc_sign_ == 0.0) {
            take_start_capacitor_out(x, time_s);
            settle_currents(x);
        }
    } else if (touching) {
        start_arc_sign_ = 0.0;
        if (!positions_.start_capacitor_in) {
            const double difference = x[capacitor_voltage] - start_capacitor_voltage_V(x, time_s);
            const double start = circuit_.start_capacitance_F();
            const double run = circuit_.run_capacitance_F(positions_);
            bleed_loss_before_J_ = bleed_loss_J(time_s);
            // Both lose difference^2/2 of energy; without a run capacitor the node just takes over.
            x[wiring_energy] +=
                0.5 * circuit_.meeting_capacitance_F(positions_) * difference * difference;
            if (positions_.run_capacitor != CapacitorCondition::shorted) {
                x[capacitor_voltage] -= start / (start + run) * difference;
            }
            idle_start_capacitor_V_ = 0.0;
            positions_.start_capacitor_in = true;
        }
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::take_start_capacitor_out(const State& x, double time_s) {
    start_arc_sign_ = 0.0;
    positions_.start_capacitor_in = false;
    idle_start_capacitor_V_ = x[capacitor_voltage];
    idle_since_s_ = time_s;
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_bypass_contact(bool touching, State& x) {
    bypass_touching_ = touching;
    if (touching) {
        positions_.main_path = MainPath::bypass;
        positions_.main_direction = 0.0;
    } else if (positions_.main_path == MainPath::bypass) {
        const double i = x[main_current];
        // A driven gate takes over whatever current there is; without it, enough of it burns on.
        const bool taken_over = can_fire(i);
        const bool flows_on = taken_over ? i != 0.0 : arc_sign(i) != 0.0;
        if (flows_on) {
            positions_.main_path = taken_over ? MainPath::thyristor : MainPath::arc;
            positions_.main_direction = i > 0.0 ? 1.0 : -1.0;
        } else {
            open_main_path(x);
        }
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_gate(bool on, State& x, const State& dxdt, double time_s) {
    gate_on_ = on;
    if (on && positions_.main_path == MainPath::open) {
        fire_if_blocking(x, dxdt, time_s);
    } else if (on && positions_.main_path == MainPath::arc && can_fire(positions_.main_direction)) {
        positions_.main_path = MainPath::thyristor;
    } else if (!on && positions_.main_path == MainPath::thyristor &&
               !can_fire(positions_.main_direction) &&
               std::abs(x[main_current]) < circuit_.latching_current_A()) {
        open_main_path(x);
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::set_damage(const Damage& damage, State& x, double time_s) {
    const Damage before = damage_;
    damage_ = damage;
    if (damage.supply_frequency_share != before.supply_frequency_share) {
        supply_.set_frequency_share(damage.supply_frequency_share, time_s);
    }
    if (damage.run_capacitor != before.run_capacitor) {
        change_run_capacitor(damage.run_capacitor, x);
    }
    if (damage.motor_disconnected != before.motor_disconnected) {
        positions_.motor_connected = !damage.motor_disconnected;
        if (damage.motor_disconnected) {
            take_motor_off(x, time_s);
        }
    }
    if (damage.rotor_seized && !before.rotor_seized) {
        seize_rotor(x);
    } else if (before.rotor_seized && !damage.rotor_seized) {
        release_or_hold_rotor(x);
    }
    update_line_path(x);
    // A shorted thyristor conducts as soon as it may.
    if (positions_.main_path == MainPath::open) {
        State fresh{};
        derivative(x, fresh, time_s);
        fire_if_blocking(x, fresh, time_s);
    }
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::change_run_capacitor(CapacitorCondition condition, State& x) {
    const double run = circuit_.run_capacitance_F();
    const double start = positions_.start_capacitor_in ? circuit_.start_capacitance_F() : 0.0;
    if (positions_.run_capacitor == CapacitorCondition::open) {
        // Back in its place, it meets the start capacitor or stands alone.
        const double difference = x[capacitor_voltage] - open_run_capacitor_V_;
        x[wiring_energy] += 0.5 * (run * start / (run + start)) * difference * difference;
        x[capacitor_voltage] -= run / (run + start) * difference;
        open_run_capacitor_V_ = 0.0;
    }
    positions_.run_capacitor = condition;
    if (condition == CapacitorCondition::open) {
        open_run_capacitor_V_ = x[capacitor_voltage];
        x[capacitor_voltage] = start > 0.0 ? x[capacitor_voltage] : 0.0;
    } else if (condition == CapacitorCondition::shorted) {
        x[wiring_energy] += 0.5 * (run + start) * x[capacitor_voltage] * x[capacitor_voltage];
        x[capacitor_voltage] = 0.0;
    }
    settle_currents(x);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::take_motor_off(State& x, double time_s) {
    if (start_arc_sign_ != 0.0) {
        take_start_capacitor_out(x, time_s);
    }
    line_arc_sign_ = 0.0;
    if (positions_.main_path != MainPath::bypass) {
        positions_.main_path = MainPath::open;
        positions_.main_direction = 0.0;
    }
    settle_currents(x);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::seize_rotor(State& x) {
    x[friction_energy] += 0.5 * inertia_kg_m2_ * x[speed] * x[speed];
    x[speed] = 0.0;
    direction_ = 0.0;
    if constexpr (Load::guard_count > 0) {
        load_.on_standstill(x.data() + first_load_state);
    }
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::start_capacitor_voltage_V(const State& x, double time_s) const {
    if (positions_.start_capacitor_in) {
        return x[capacitor_voltage];
    }
    if (idle_start_capacitor_V_ == 0.0) {
        return 0.0;
    }
    return idle_start_capacitor_V_ *
           std::exp(-(time_s - idle_since_s_) / circuit_.start_capacitor_discharge_s());
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::bleed_loss_J(double time_s) const {
    if (positions_.start_capacitor_in) {
        return bleed_loss_before_J_;
    }
    const double now = start_capacitor_voltage_V({}, time_s);
    return bleed_loss_before_J_ +
           0.5 * circuit_.start_capacitance_F() *
               (idle_start_capacitor_V_ * idle_start_capacitor_V_ - now * now);
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::magnetic_energy_J(const State& x) const {
    const double line_A = x[main_current] + x[aux_current];
    return motor_.stored_energy_J(windings(x)) + 0.5 * series_inductance_H_ * line_A * line_A;
}

template <class Supply, class Load, class Unit>
double Plant<Supply, Load, Unit>::stored_energy_J(const State& x, double time_s) const {
    const double start_V = start_capacitor_voltage_V(x, time_s);
    return magnetic_energy_J(x) +
           0.5 * (circuit_.run_capacitance_F(positions_) * x[capacitor_voltage] *
                      x[capacitor_voltage] +
                  circuit_.run_capacitance_F() * open_run_capacitor_V_ * open_run_capacitor_V_ +
                  circuit_.start_capacitance_F() * start_V * start_V +
                  inertia_kg_m2_ * x[speed] * x[speed]) +
           supply_.stored_energy_J(x.data() + first_supply_state);
}

template <class Supply, class Load, class Unit>
bool Plant<Supply, Load, Unit>::at_rest(const State& x) const {
    constexpr double hardly_any_A = 0.1;
    constexpr double hardly_any_V = 1.0;
    const bool main_quiet =
        positions_.main_path == MainPath::open ||
        (positions_.main_path == MainPath::bypass && std::abs(x[capacitor_voltage]) < hardly_any_V);
    bool quiet = !positions_.line_connected && start_arc_sign_ == 0.0 && !gate_on_ &&
                 !coil_commanded_ && direction_ == 0.0 && main_quiet;
    for (const std::size_t k : {main_current, aux_current, rotor_main_current, rotor_aux_current}) {
        quiet = quiet && std::abs(x[k]) < hardly_any_A;
    }
    if constexpr (Unit::is_fitted) {
        quiet = quiet && unit_.settled(x.data() + first_unit_state);
    }
    return quiet && supply_.settled(x.data() + first_supply_state);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::rest(State& x, double begin_s, double end_s) {
    double left_J = magnetic_energy_J(x);
    for (const std::size_t k : {main_current, aux_current, rotor_main_current, rotor_aux_current}) {
        x[k] = 0.0;
    }
    const double capacitance_F =
        circuit_.run_capacitance_F(positions_) +
        (positions_.start_capacitor_in ? circuit_.start_capacitance_F() : 0.0);
    // A closed main path discharges the capacitor through both windings.
    if (positions_.main_path == MainPath::bypass) {
        left_J += 0.5 * capacitance_F * x[capacitor_voltage] * x[capacitor_voltage];
        x[capacitor_voltage] = 0.0;
    }
    x[copper_energy] += left_J;
    if constexpr (Load::state_count > 0) {
        load_.rest(x.data() + first_load_state, end_s - begin_s);
    }
    if constexpr (Unit::is_fitted) {
        unit_.rest(x.data() + first_unit_state, end_s - begin_s, x[capacitor_voltage],
                   capacitance_F);
        follow_unit(x);
    }
    supply_.rest(x.data() + first_supply_state, begin_s, end_s);
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::keep_supply(const Supply& supply, const double* states, State& x) {
    supply_ = supply;
    std::copy(states, states + Supply::state_count, x.begin() + first_supply_state);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::keep_unit(const Plant& before, const State& left, State& x) {
    x[capacitor_voltage] = left[capacitor_voltage];
    idle_start_capacitor_V_ = before.idle_start_capacitor_V_;
    idle_since_s_ = before.idle_since_s_;
    x[speed] = 0.0;
    direction_ = 0.0;
    std::copy(left.begin() + first_load_state, left.end(), x.begin() + first_load_state);
    if constexpr (Load::state_count > 0) {
        load_.continue_from(before.load_, x.data() + first_load_state);
    }
    if constexpr (Unit::is_fitted) {
        unit_.continue_from(before.unit_);
        follow_unit(x);
    }
    update_coefficients();
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::restart_audit(State& x, double time_s) {
    for (std::size_t k = source_energy; k < first_supply_state; ++k) {
        x[k] = 0.0;
    }
    bleed_loss_before_audit_J_ = bleed_loss_J(time_s);
    initial_stored_J_ = stored_energy_J(x, time_s);
}

template <class Supply, class Load, class Unit>
void Plant<Supply, Load, Unit>::read_outputs(const State& x, const State& dxdt, double time_s,
                                             PlantOutputs& out) const {
    const SupplyLoading supply_loading = loading(x, dxdt, time_s);
    const WindingCurrents<double> i = windings(x);
    out.time_s = time_s;
    out.line_voltage_V = supply_cut_off() ? 0.0 : supply_loading.terminal_voltage_V;
    out.line_current_A = supply_loading.line_current_A();
    out.line_current_rate_A_per_s = dxdt[main_current] + dxdt[aux_current];
    out.main_current_A = i.main_A;
    out.aux_current_A = i.aux_A;
    out.start_capacitor_current_A = coefficients_.start_capacitor_share * i.aux_A;
    out.start_terminal_voltage_V = start_terminal_voltage_V(x, dxdt);
    if (!positions_.motor_connected) {
        const bool hangs_on_line =
            positions_.line_connected && circuit_.auxiliary_has_path(positions_);
        out.start_terminal_voltage_V =
            hangs_on_line ? supply_loading.terminal_voltage_V - x[capacitor_voltage] : 0.0;
    }
    out.run_capacitor_voltage_V = positions_.run_capacitor == CapacitorCondition::open
                                      ? open_run_capacitor_V_
                                      : x[capacitor_voltage];
    out.start_capacitor_voltage_V = start_capacitor_voltage_V(x, time_s);
    out.torque_Nm = motor_.torque_Nm(i);
    const double driving = load_.torque(x.data() + first_load_state, load_motion(x)).driving_Nm;
    out.load_torque_Nm = driving + direction_ * opposing_torque_Nm(x);
    out.speed_rad_per_s = x[speed];
    out.acceleration_rad_per_s2 = dxdt[speed];
    out.supply_frequency_Hz = supply_.frequency_Hz(x.data() + first_supply_state);
    out.line_connected = positions_.line_connected;
    out.main_conducting = positions_.main_path != MainPath::open && positions_.motor_connected;
    out.thyristor_conducting = positions_.main_path == MainPath::thyristor;
    out.bypass_closed = bypass_touching_;
    out.start_capacitor_in = positions_.start_capacitor_in;
    out.gate_on = gate_on_;
    out.rotor_stuck = direction_ == 0.0;
    out.supply_trip = supply_.trip_cause();
    out.blocking_voltage_V = out.main_conducting ? 0.0 : blocking_voltage_V(x, dxdt, time_s);
    static_assert(Supply::channel_count + Load::channel_count + Unit::channel_count <=
                  most_model_channels);
    std::size_t next = 0;
    if constexpr (Supply::channel_count > 0) {
        for (const double value :
             supply_.channels(x.data() + first_supply_state, time_s, at_supply(supply_loading))) {
            out.model_channels[next++] = value;
        }
    }
    if constexpr (Load::channel_count > 0) {
        for (const double value : load_.channels(x.data() + first_load_state)) {
            out.model_channels[next++] = value;
        }
    }
    if constexpr (Unit::is_fitted) {
        unit_.write_channels(x.data() + first_unit_state, out.model_channels.data() + next);
        out.unit_trip = unit_.trip_cause();
        out.has_winding_temperature = unit_.has_heat();
        out.hotter_winding_C = unit_.hotter_winding_C(x.data() + first_unit_state);
        out.contactor_drop_outs = unit_.contactor_drop_outs();
    }
}

template <class Supply, class Load, class Unit>
EnergyAudit Plant<Supply, Load, Unit>::energy(const State& x, double time_s) const {
    EnergyAudit audit;
    audit.source_J = x[source_energy];
    audit.copper_J = x[copper_energy];
    audit.wiring_J = x[wiring_energy] + bleed_loss_J(time_s) - bleed_loss_before_audit_J_;
    audit.switch_J = x[switch_energy];
    audit.iron_J = x[iron_energy];
    audit.friction_J = x[friction_energy];
    audit.load_J = x[load_energy];
    audit.stored_J = stored_energy_J(x, time_s) - initial_stored_J_;
    return audit;
}

}  // namespace plant_models
