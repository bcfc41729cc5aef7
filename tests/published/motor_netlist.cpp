#include "motor_netlist.hpp"

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace published {

namespace {

constexpr double pi = 3.14159265358979323846;

void write_source(std::ostream& text, const plant_models::GridParameters& grid) {
    text << "vsource emf 0 sin(0 " << std::sqrt(2.0) * grid.voltage_V << ' ' << grid.frequency_Hz
         << " 0 0 " << grid.phase_deg << ")\n"
         << "vline emf s1 0\n";
    // An element of zero size is a division by zero to the simulator: a short takes its place.
    if (grid.resistance_ohm > 0.0) {
        text << "rsource s1 s2 " << grid.resistance_ohm << '\n';
    } else {
        text << "vshort1 s1 s2 0\n";
    }
    if (grid.inductance_mH > 0.0) {
        text << "lsource s2 line " << grid.inductance_mH * 1e-3 << " ic=0\n";
    } else {
        text << "vshort2 s2 line 0\n";
    }
}

void write_capacitor(std::ostream& text, const std::string& name,
                     const plant_models::CapacitorBranch& branch) {
    const std::string middle = name + "_esr";
    if (branch.esr_ohm > 0.0) {
        text << 'r' << name << " a1 " << middle << ' ' << branch.esr_ohm << '\n';
    } else {
        text << 'v' << name << " a1 " << middle << " 0\n";
    }
    text << 'c' << name << ' ' << middle << " a2 " << branch.capacitance_uF * 1e-6 << " ic=0\n";
}

void write_windings(std::ostream& text, const MotorCircuit& circuit) {
    const plant_models::MotorParameters& motor = circuit.motor;
    const double omega = 2.0 * pi * motor.rated_frequency_Hz;
    const double n = motor.turns_ratio;
    const double L_m = motor.magnetizing_reactance_ohm / omega;
    const double L_main = motor.main_leakage_reactance_ohm / omega + L_m;
    const double L_aux = motor.aux_leakage_reactance_ohm / omega + n * n * L_m;
    const double L_rotor = motor.rotor_leakage_reactance_ohm / omega + L_m;
    const double pole_pairs = motor.poles / 2.0;

    text << "vmain " << (circuit.thyristors ? "gated" : "line") << " m1 0\n"
         << "rmain m1 m2 " << motor.main_resistance_ohm << '\n'
         << "lmain m2 0 " << L_main << " ic=0\n";
    const plant_models::AuxiliaryConnection run = run_connection(motor);
    if (run.run || circuit.start_capacitor) {
        text << "vaux line a1 0\n";
        if (run.run) {
            write_capacitor(text, "run", *run.run);
        }
        if (circuit.start_capacitor) {
            write_capacitor(text, "start", *circuit.start_capacitor);
        }
    } else {
        text << "vaux a2 a1 0\nropen a1 0 1e9\n";
    }
    text << "raux a2 a3 " << motor.aux_resistance_ohm << '\n'
         << "laux a3 0 " << L_aux
         << " ic=0\n"
         // Rotor loops, current positive from 0 through the sensing source and back to 0.
         << "vrm 0 rm1 0\nrrm rm1 rm2 " << motor.rotor_resistance_ohm << "\nlrm rm2 rm3 " << L_rotor
         << " ic=0\n"
         << "brm rm3 0 v=-" << pole_pairs << "*v(speed)*(" << L_rotor << "*i(vra)+" << n * L_m
         << "*i(vaux))\n"
         << "vra 0 ra1 0\nrra ra1 ra2 " << motor.rotor_resistance_ohm << "\nlra ra2 ra3 " << L_rotor
         << " ic=0\n"
         << "bra ra3 0 v=" << pole_pairs << "*v(speed)*(" << L_rotor << "*i(vrm)+" << L_m
         << "*i(vmain))\n"
         << "kmain lmain lrm " << L_m / std::sqrt(L_main * L_rotor) << '\n'
         << "kaux laux lra " << n * L_m / std::sqrt(L_aux * L_rotor) << '\n'
         << "btorque torque 0 v=" << pole_pairs * L_m << "*(i(vmain)*i(vra)-" << n
         << "*i(vaux)*i(vrm))\n";
    if (motor.iron_loss_W > 0.0) {
        text << "riron line 0 " << motor.rated_voltage_V * motor.rated_voltage_V / motor.iron_loss_W
             << '\n';
    }
}

void write_shaft(std::ostream& text, const MotorCircuit& circuit) {
    if (circuit.held_speed_rad_per_s) {
        text << "vspeed speed 0 " << *circuit.held_speed_rad_per_s << '\n';
        return;
    }
    const plant_models::MotorParameters& motor = circuit.motor;
    const double rated_speed = motor.synchronous_speed_rad_per_s(motor.rated_frequency_Hz);
    const double reference = circuit.load.reference_speed_rpm * pi / 30.0;
    const double friction = motor.friction_loss_W / rated_speed;
    const double dry = circuit.load.constant_torque_Nm + friction;
    const double extra = circuit.load.breakaway_torque_Nm - circuit.load.constant_torque_Nm;
    const double square = circuit.load.square_torque_Nm / (reference * reference) +
                          motor.windage_loss_W / (rated_speed * rated_speed * rated_speed);
    text << "cinertia speed 0 " << motor.inertia_kg_m2 << " ic=0\n"
         << "bload speed 0 i=tanh(v(speed)/1e-3)*(" << dry << '+' << extra
         << "*exp(-v(speed)*v(speed)/1e-4))+" << square << "*v(speed)*abs(v(speed))\n"
         << "bdrive 0 speed i=v(torque)\n";
}

/// One thyristor is a conductance that moves over eleven decades in its logarithm. The gate closes
/// it; its own forward current keeps it closed until it has fallen under 10 mA. The sign matters:
/// a current that has gone through zero stays there, so that the simulator cannot step over it.
void write_thyristor(std::ostream& text, const std::string& name, const std::string& anode,
                     const std::string& cathode, const ThyristorPair& pair, double frequency_Hz,
                     double half_cycle_begin_deg) {
    const double degree_s = 1.0 / (360.0 * frequency_Hz);
    text << 'v' << name << ' ' << anode << ' ' << name << "1 0\n"
         << 'b' << name << ' ' << name << "1 " << name << "2 i=v(" << name << "1," << name
         << "2)*exp(-16.1+25.3*min(1,v(" << name << "g)+v(" << name << "h)))\n"
         << 'b' << name << "d " << name << "2 " << cathode << " v=" << pair.threshold_V
         << "*tanh(i(v" << name << ")/0.02)+" << pair.slope_ohm << "*i(v" << name << ")\n"
         << 'v' << name << "g " << name << "g 0 pulse(0 1 "
         << (half_cycle_begin_deg + pair.firing_angle_deg) * degree_s << " 1e-6 1e-6 "
         << (175.0 - pair.firing_angle_deg) * degree_s << ' ' << 360.0 * degree_s << ")\n"
         << 'b' << name << "h 0 " << name << "h i=0.5+0.5*tanh((i(v" << name << ")-0.01)/0.002)\n"
         << 'r' << name << "h " << name << "h 0 1\n"
         << 'c' << name << "h " << name << "h 0 5e-7 ic=0\n";
}

void write_thyristors(std::ostream& text, const MotorCircuit& circuit) {
    if (circuit.grid.phase_deg != 0.0) {
        throw std::invalid_argument("motor netlist: thyristors need a source phase of 0");
    }
    const ThyristorPair& pair = *circuit.thyristors;
    const double frequency = circuit.grid.frequency_Hz;
    write_thyristor(text, "forward", "line", "gated", pair, frequency, 0.0);
    write_thyristor(text, "backward", "gated", "line", pair, frequency, 180.0);
    text << "rleak line gated 1e5\n";
    // With a current cut off at every half cycle the simulator needs something that dissipates
    // across the source inductance. It carries some milliamperes.
    if (circuit.grid.inductance_mH > 0.0) {
        text << "rdamping s2 line 1e3\n";
    }
}

}  // namespace

std::string motor_netlist(const MotorCircuit& circuit) {
    std::ostringstream text;
    text.precision(17);
    write_source(text, circuit.grid);
    write_windings(text, circuit);
    if (circuit.thyristors) {
        write_thyristors(text, circuit);
    }
    write_shaft(text, circuit);
    return text.str();
}

MotorWaveforms simulate(const MotorCircuit& circuit, const TransientSettings& settings) {
    return simulate_netlist(motor_netlist(circuit), settings);
}

MotorWaveforms simulate_netlist(const std::string& netlist, const TransientSettings& settings) {
    CircuitWaveforms waves = run_circuit(
        netlist, {"i(vline)", "i(vmain)", "i(vaux)", "v(line)", "v(a2)", "v(speed)", "v(torque)"},
        settings);
    auto& signals = waves.signals;
    return {std::move(waves.time_s), std::move(signals[0]), std::move(signals[1]),
            std::move(signals[2]),   std::move(signals[3]), std::move(signals[4]),
            std::move(signals[5]),   std::move(signals[6])};
}

}  // namespace published
