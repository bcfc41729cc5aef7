#include "plant_waveforms.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace published {

namespace {
constexpr sim::Instant tick{100'000};
}  // namespace

sim::PlantDescription direct_plant(const MotorCircuit& circuit) {
    sim::PlantDescription plant;
    plant.motor = circuit.motor;
    plant.load = circuit.load;
    plant.supply = circuit.grid;
    return plant;
}

sim::PlantDescription limiter_plant(const MotorCircuit& circuit) {
    sim::PlantDescription plant = direct_plant(circuit);
    plant.connection = sim::Connection::through_limiter;
    plant.limiter.start_capacitor_bleed_ohm = 1e6;
    if (circuit.start_capacitor) {
        plant.limiter.start_capacitor_uF = circuit.start_capacitor->capacitance_uF;
        plant.limiter.start_capacitor_esr_ohm = circuit.start_capacitor->esr_ohm;
    }
    if (circuit.thyristors) {
        plant.limiter.thyristor_threshold_V = circuit.thyristors->threshold_V;
        plant.limiter.thyristor_slope_ohm = circuit.thyristors->slope_ohm;
    }
    if (circuit.held_speed_rad_per_s) {
        if (*circuit.held_speed_rad_per_s != 0.0) {
            throw std::invalid_argument("limiter plant: only a locked rotor can be held");
        }
        plant.load = plant_models::PolynomialLoadParameters{500.0, 0.0, 0.0, 3000.0};
    }
    return plant;
}

void record(sim::PlantRun& run, sim::Instant until, sim::Instant every, MotorWaveforms& into) {
    while (run.now() < until) {
        const plant_models::PlantOutputs out = run.outputs();
        into.time_s.push_back(out.time_s);
        into.line_current_A.push_back(out.line_current_A);
        into.main_current_A.push_back(out.main_current_A);
        into.aux_current_A.push_back(out.aux_current_A);
        into.line_voltage_V.push_back(out.line_voltage_V);
        into.s_voltage_V.push_back(out.start_terminal_voltage_V);
        into.speed_rad_per_s.push_back(out.speed_rad_per_s);
        into.torque_Nm.push_back(out.torque_Nm);
        run.advance_to(std::min(until, run.now() + every));
    }
}

sim::PowerCommands line_closed() {
    sim::PowerCommands commands;
    commands.line_coil = true;
    return commands;
}

MotorWaveforms direct_start(const sim::PlantDescription& plant, double duration_s,
                            sim::Instant every) {
    const auto run = sim::make_plant_run(plant);
    run->apply(line_closed());
    MotorWaveforms waves;
    record(*run, nanoseconds(duration_s), every, waves);
    return waves;
}

sim::PowerCommands gate_window(const ThyristorPair& pair, double frequency_Hz,
                               sim::Instant tick_begin) {
    const double degree_s = 1.0 / (360.0 * frequency_Hz);
    const auto half_cycle = [&](std::int64_t number, double angle_deg) {
        return nanoseconds((180.0 * static_cast<double>(number) + angle_deg) * degree_s);
    };
    // The pulse of the half cycle in which the tick begins, or the next one if that is over.
    auto number =
        static_cast<std::int64_t>(plant_models::to_seconds(tick_begin) / (180.0 * degree_s));
    if (half_cycle(number, 175.0) <= tick_begin) {
        ++number;
    }
    const sim::Instant on = std::max(half_cycle(number, pair.firing_angle_deg), tick_begin);
    const sim::Instant off = std::min(half_cycle(number, 175.0), tick_begin + tick);
    sim::PowerCommands commands = line_closed();
    if (on < off) {
        commands.gate_on = on - tick_begin;
        commands.gate_off = off - tick_begin;
    }
    return commands;
}

sim::Instant nanoseconds(double time_s) {
    return sim::Instant(static_cast<std::int64_t>(std::llround(1e9 * time_s)));
}

}  // namespace published
