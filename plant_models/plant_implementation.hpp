// Bodies of plant.hpp.
#pragma once

#include "plant_models/numeric/units.hpp"

namespace plant_models {

template <class Supply, class Load>
Plant<Supply, Load>::Plant(const MotorParameters& motor, const LimiterParameters& limiter,
                           const Supply& supply, const Load& load)
    : motor_(motor),
      circuit_(motor, limiter, supply.series_inductance_H()),
      supply_(supply),
      load_(load),
      inertia_kg_m2_(motor.inertia_kg_m2),
      inverse_inertia_per_kg_m2_(1.0 / motor.inertia_kg_m2) {
    const double synchronous = motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz);
    friction_torque_Nm_ = motor.friction_loss_W / synchronous;
    windage_Nm_s2_ = motor.windage_loss_W / (synchronous * synchronous * synchronous);
    update_coefficients();
}

template <class Supply, class Load>
typename Plant<Supply, Load>::State Plant<Supply, Load>::initial_state(
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
    initial_stored_J_ = stored_energy_J(x, 0.0);
    return x;
}

template <class Supply, class Load>
WindingCurrents<double> Plant<Supply, Load>::windings(const State& x) const {
    return {x[main_current], x[aux_current], x[rotor_main_current], x[rotor_aux_current]};
}

template <class Supply, class Load>
double Plant<Supply, Load>::own_friction_torque_Nm(double speed_rad_per_s) const {
    return friction_torque_Nm_ + windage_Nm_s2_ * speed_rad_per_s * speed_rad_per_s;
}

template <class Supply, class Load>
void Plant<Supply, Load>::derivative(const State& x, State& dxdt, double time_s) const {
    const WindingCurrents<double> i = windings(x);
    const CircuitCoefficients<double>& c = coefficients_;
    const double* supply_state = x.data() + first_supply_state;
    const double line_A = i.main_A + i.aux_A;
    const double emf = supply_.emf_V(supply_state, time_s);
    const double behind_resistance = emf - supply_.series_resistance_ohm() * line_A;
    const double electrical_speed = motor_.pole_pairs * x[speed];

    const double main_drop = c.main_drop_V + c.main_drop_ohm * i.main_A;
    const double u0 = behind_resistance - main_drop - motor_.main_resistance_ohm * i.main_A;
    const double u1 = behind_resistance - x[capacitor_voltage] -
                      (c.capacitor_resistance_ohm + motor_.aux_resistance_ohm) * i.aux_A;
    const double u2 =
        -motor_.rotor_resistance_ohm * i.rotor_main_A + electrical_speed * motor_.rotor_aux_flux(i);
    const double u3 =
        -motor_.rotor_resistance_ohm * i.rotor_aux_A - electrical_speed * motor_.rotor_main_flux(i);
    // The matrix is symmetric: its rows serve as columns, which lets a vector unit do all four
    // rows.
    const auto& m = c.inverse_inductance;
    for (std::size_t k = 0; k < 4; ++k) {
        dxdt[k] = m[0][k] * u0 + m[1][k] * u1 + m[2][k] * u2 + m[3][k] * u3;
    }
    dxdt[capacitor_voltage] = c.elastance_per_F * i.aux_A;

    const LoadTorque<double> load = load_.torque(x.data() + first_load_state, x[speed]);
    const double own_friction = own_friction_torque_Nm(x[speed]);
    const double free = direction_ * direction_;
    const double net =
        motor_.torque_Nm(i) - load.driving_Nm - direction_ * (load.opposing_Nm + own_friction);
    dxdt[speed] = free * net * inverse_inertia_per_kg_m2_;

    const double terminal = behind_resistance - supply_.series_inductance_H() *
                                                    (dxdt[main_current] + dxdt[aux_current]);
    const SupplyLoading supply_loading{line_A, c.iron_conductance_S * terminal, terminal};
    const SupplyPower power =
        supply_.derivatives(supply_state, dxdt.data() + first_supply_state, time_s, supply_loading);
    dxdt[source_energy] = power.source_W;
    dxdt[copper_energy] = motor_.copper_loss_W(i);
    dxdt[wiring_energy] = power.loss_W + supply_.series_resistance_ohm() * line_A * line_A +
                          c.capacitor_resistance_ohm * i.aux_A * i.aux_A;
    dxdt[switch_energy] = main_drop * i.main_A;
    dxdt[iron_energy] = terminal * supply_loading.iron_current_A;
    dxdt[friction_energy] = direction_ * own_friction * x[speed];
    dxdt[load_energy] = (load.driving_Nm + direction_ * load.opposing_Nm) * x[speed];
    load_.derivatives(x.data() + first_load_state, dxdt.data() + first_load_state, x[speed]);
}

template <class Supply, class Load>
double Plant<Supply, Load>::terminal_voltage_V(const State& x, const State& dxdt,
                                               double time_s) const {
    return supply_.emf_V(x.data() + first_supply_state, time_s) -
           supply_.series_resistance_ohm() * (x[main_current] + x[aux_current]) -
           supply_.series_inductance_H() * (dxdt[main_current] + dxdt[aux_current]);
}

template <class Supply, class Load>
SupplyLoading Plant<Supply, Load>::loading(const State& x, const State& dxdt, double time_s) const {
    const double terminal = terminal_voltage_V(x, dxdt, time_s);
    return {x[main_current] + x[aux_current], coefficients_.iron_conductance_S * terminal,
            terminal};
}

template <class Supply, class Load>
double Plant<Supply, Load>::blocking_voltage_V(const State& x, const State& dxdt,
                                               double time_s) const {
    const WindingCurrents<double> i = windings(x);
    const WindingCurrents<double> rate = windings(dxdt);
    // With the contactor open, L1 floats on the run capacitor and the auxiliary winding.
    const double l1 = positions_.line_connected
                          ? terminal_voltage_V(x, dxdt, time_s)
                          : x[capacitor_voltage] + motor_.aux_voltage_V(i, rate);
    return l1 - motor_.main_voltage_V(i, rate);
}

template <class Supply, class Load>
double Plant<Supply, Load>::driving_torque_Nm(const State& x) const {
    return motor_.torque_Nm(windings(x)) -
           load_.torque(x.data() + first_load_state, x[speed]).driving_Nm;
}

template <class Supply, class Load>
double Plant<Supply, Load>::opposing_torque_Nm(const State& x) const {
    return load_.torque(x.data() + first_load_state, x[speed]).opposing_Nm +
           own_friction_torque_Nm(x[speed]);
}

template <class Supply, class Load>
double Plant<Supply, Load>::breakaway_torque_Nm(const State& x) const {
    return load_.breakaway_torque_Nm(x.data() + first_load_state) + friction_torque_Nm_;
}

template <class Supply, class Load>
void Plant<Supply, Load>::guards(const State& x, const State& dxdt, double time_s,
                                 Guards& values) const {
    values.fill(1.0);
    const double arc_minimum = StartCircuit::arc_minimum_A;
    if (positions_.main_path == MainPath::thyristor) {
        values[main_current_zero] = positions_.main_direction * x[main_current];
    } else if (positions_.main_path == MainPath::arc) {
        values[main_current_zero] = positions_.main_direction * x[main_current] - arc_minimum;
    } else if (positions_.main_path == MainPath::open && gate_on_) {
        values[firing] =
            circuit_.firing_threshold_V() - std::abs(blocking_voltage_V(x, dxdt, time_s));
    }
    if (direction_ != 0.0) {
        values[speed_zero] = direction_ * x[speed];
    } else {
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
        supply_.guards(x.data() + first_supply_state, time_s, loading(x, dxdt, time_s),
                       values.data() + first_supply_guard);
    }
}

template <class Supply, class Load>
void Plant<Supply, Load>::on_guard(std::size_t guard, State& x, const State& dxdt, double time_s) {
    switch (guard) {
        case main_current_zero:
            open_main_path(x);
            // A gate that is still driven hands over to the other thyristor at once.
            if (gate_on_) {
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
            if constexpr (Supply::guard_count > 0) {
                supply_.on_guard(guard - first_supply_guard, x.data() + first_supply_state);
            }
            break;
    }
    update_coefficients();
}

template <class Supply, class Load>
void Plant<Supply, Load>::release_or_hold_rotor(const State& x) {
    const double torque = driving_torque_Nm(x);
    const bool held = std::abs(torque) < breakaway_torque_Nm(x) || torque == 0.0;
    direction_ = held ? 0.0 : (torque > 0.0 ? 1.0 : -1.0);
}

template <class Supply, class Load>
void Plant<Supply, Load>::settle_currents(State& x) {
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

template <class Supply, class Load>
void Plant<Supply, Load>::disconnect_line(State& x) {
    line_arc_sign_ = 0.0;
    positions_.line_connected = false;
    settle_currents(x);
}

template <class Supply, class Load>
void Plant<Supply, Load>::open_main_path(State& x) {
    positions_.main_path = MainPath::open;
    positions_.main_direction = 0.0;
    settle_currents(x);
}

template <class Supply, class Load>
void Plant<Supply, Load>::fire_if_blocking(State& x, const State& dxdt, double time_s) {
    const double voltage = blocking_voltage_V(x, dxdt, time_s);
    // The guard locates the threshold from below, so equality has to count as reached.
    if (std::abs(voltage) < circuit_.firing_threshold_V() * (1.0 - 1e-9)) {
        return;
    }
    positions_.main_path = MainPath::thyristor;
    positions_.main_direction = voltage > 0.0 ? 1.0 : -1.0;
    update_coefficients();
}

template <class Supply, class Load>
void Plant<Supply, Load>::update_coefficients() {
    coefficients_ = circuit_.coefficients(positions_);
}

template <class Supply, class Load>
double Plant<Supply, Load>::arc_sign(double current_A) {
    const double magnitude_A = std::abs(current_A);
    return magnitude_A <= StartCircuit::arc_minimum_A ? 0.0 : current_A / magnitude_A;
}

template <class Supply, class Load>
void Plant<Supply, Load>::set_line_contact(bool touching, State& x) {
    if (touching) {
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

template <class Supply, class Load>
void Plant<Supply, Load>::set_start_contact(bool touching, State& x, double time_s) {
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
            const double run = circuit_.run_capacitance_F();
            bleed_loss_before_J_ = bleed_loss_J(time_s);
            // Both lose difference^2/2 of energy; without a run capacitor the node just takes over.
            x[wiring_energy] += 0.5 * circuit_.meeting_capacitance_F() * difference * difference;
            x[capacitor_voltage] -= start / (start + run) * difference;
            idle_start_capacitor_V_ = 0.0;
            positions_.start_capacitor_in = true;
        }
    }
    update_coefficients();
}

template <class Supply, class Load>
void Plant<Supply, Load>::take_start_capacitor_out(const State& x, double time_s) {
    start_arc_sign_ = 0.0;
    positions_.start_capacitor_in = false;
    idle_start_capacitor_V_ = x[capacitor_voltage];
    idle_since_s_ = time_s;
    update_coefficients();
}

template <class Supply, class Load>
void Plant<Supply, Load>::set_bypass_contact(bool touching, State& x) {
    bypass_touching_ = touching;
    if (touching) {
        positions_.main_path = MainPath::bypass;
        positions_.main_direction = 0.0;
    } else if (positions_.main_path == MainPath::bypass) {
        const double i = x[main_current];
        // A driven gate takes over whatever current there is; without it, enough of it burns on.
        const bool flows_on = gate_on_ ? i != 0.0 : arc_sign(i) != 0.0;
        if (flows_on) {
            positions_.main_path = gate_on_ ? MainPath::thyristor : MainPath::arc;
            positions_.main_direction = i > 0.0 ? 1.0 : -1.0;
        } else {
            open_main_path(x);
        }
    }
    update_coefficients();
}

template <class Supply, class Load>
void Plant<Supply, Load>::set_gate(bool on, State& x, const State& dxdt, double time_s) {
    gate_on_ = on;
    if (on && positions_.main_path == MainPath::open) {
        fire_if_blocking(x, dxdt, time_s);
    } else if (on && positions_.main_path == MainPath::arc) {
        positions_.main_path = MainPath::thyristor;
    } else if (!on && positions_.main_path == MainPath::thyristor &&
               std::abs(x[main_current]) < circuit_.latching_current_A()) {
        open_main_path(x);
    }
    update_coefficients();
}

template <class Supply, class Load>
double Plant<Supply, Load>::start_capacitor_voltage_V(const State& x, double time_s) const {
    if (positions_.start_capacitor_in) {
        return x[capacitor_voltage];
    }
    if (idle_start_capacitor_V_ == 0.0) {
        return 0.0;
    }
    return idle_start_capacitor_V_ *
           std::exp(-(time_s - idle_since_s_) / circuit_.start_capacitor_discharge_s());
}

template <class Supply, class Load>
double Plant<Supply, Load>::bleed_loss_J(double time_s) const {
    if (positions_.start_capacitor_in) {
        return bleed_loss_before_J_;
    }
    const double now = start_capacitor_voltage_V({}, time_s);
    return bleed_loss_before_J_ +
           0.5 * circuit_.start_capacitance_F() *
               (idle_start_capacitor_V_ * idle_start_capacitor_V_ - now * now);
}

template <class Supply, class Load>
double Plant<Supply, Load>::magnetic_energy_J(const State& x) const {
    const double line_A = x[main_current] + x[aux_current];
    return motor_.stored_energy_J(windings(x)) +
           0.5 * supply_.series_inductance_H() * line_A * line_A;
}

template <class Supply, class Load>
double Plant<Supply, Load>::stored_energy_J(const State& x, double time_s) const {
    const double start_V = start_capacitor_voltage_V(x, time_s);
    return magnetic_energy_J(x) +
           0.5 * (circuit_.run_capacitance_F() * x[capacitor_voltage] * x[capacitor_voltage] +
                  circuit_.start_capacitance_F() * start_V * start_V +
                  inertia_kg_m2_ * x[speed] * x[speed]) +
           supply_.stored_energy_J(x.data() + first_supply_state);
}

template <class Supply, class Load>
void Plant<Supply, Load>::read_outputs(const State& x, const State& dxdt, double time_s,
                                       PlantOutputs& out) const {
    const SupplyLoading supply_loading = loading(x, dxdt, time_s);
    const WindingCurrents<double> i = windings(x);
    out.time_s = time_s;
    out.line_voltage_V = supply_loading.terminal_voltage_V;
    out.line_current_A = supply_loading.line_current_A();
    out.line_current_rate_A_per_s = dxdt[main_current] + dxdt[aux_current];
    out.main_current_A = i.main_A;
    out.aux_current_A = i.aux_A;
    out.start_capacitor_current_A = coefficients_.start_capacitor_share * i.aux_A;
    out.start_terminal_voltage_V = motor_.aux_voltage_V(i, windings(dxdt));
    out.run_capacitor_voltage_V = x[capacitor_voltage];
    out.start_capacitor_voltage_V = start_capacitor_voltage_V(x, time_s);
    out.torque_Nm = motor_.torque_Nm(i);
    const double driving = load_.torque(x.data() + first_load_state, x[speed]).driving_Nm;
    out.load_torque_Nm = driving + direction_ * opposing_torque_Nm(x);
    out.speed_rad_per_s = x[speed];
    out.acceleration_rad_per_s2 = dxdt[speed];
    out.supply_frequency_Hz = supply_.frequency_Hz();
    out.line_connected = positions_.line_connected;
    out.main_conducting = positions_.main_path != MainPath::open;
    out.thyristor_conducting = positions_.main_path == MainPath::thyristor;
    out.bypass_closed = bypass_touching_;
    out.start_capacitor_in = positions_.start_capacitor_in;
    out.gate_on = gate_on_;
    out.rotor_stuck = direction_ == 0.0;
    out.supply_trip = supply_.trip_cause();
    out.blocking_voltage_V = out.main_conducting ? 0.0 : blocking_voltage_V(x, dxdt, time_s);
    if constexpr (Supply::channel_count > 0) {
        const auto values = supply_.channels(x.data() + first_supply_state, time_s, supply_loading);
        for (std::size_t k = 0; k < Supply::channel_count; ++k) {
            out.supply_channels[k] = values[k];
        }
    }
}

template <class Supply, class Load>
EnergyAudit Plant<Supply, Load>::energy(const State& x, double time_s) const {
    EnergyAudit audit;
    audit.source_J = x[source_energy];
    audit.copper_J = x[copper_energy];
    audit.wiring_J = x[wiring_energy] + bleed_loss_J(time_s);
    audit.switch_J = x[switch_energy];
    audit.iron_J = x[iron_energy];
    audit.friction_J = x[friction_energy];
    audit.load_J = x[load_energy];
    audit.stored_J = stored_energy_J(x, time_s) - initial_stored_J_;
    return audit;
}

}  // namespace plant_models
