#include "sim/faults/fault_effects.hpp"

#include <cmath>
#include <cstddef>

namespace sim {

namespace {

using plant_models::CapacitorCondition;
using plant_models::ContactCondition;

void add(const SupplyVoltage& fault, const FaultMoment&, FaultEffects& effects) {
    effects.damage.supply_voltage_share *= 0.01 * fault.to_percent;
}
void add(const SupplyFrequency& fault, const FaultMoment& moment, FaultEffects& effects) {
    effects.damage.supply_frequency_share = fault.frequency_Hz / moment.supply_Hz;
}
void add(const SupplyChatter& fault, const FaultMoment& moment, FaultEffects& effects) {
    const double period_s = 1e-3 * fault.period_ms;
    // Half a tick, so that no rounding moves an edge.
    const double into_s = std::fmod(moment.elapsed_s + 5e-5, period_s);
    const bool open = into_s < 0.01 * fault.open_percent * period_s;
    effects.damage.supply_interrupted = effects.damage.supply_interrupted || open;
}
void add(const CallRemoved&, const FaultMoment&, FaultEffects& effects) {
    effects.call_removed = true;
}
void add(const ControllerUnpowered&, const FaultMoment&, FaultEffects& effects) {
    effects.controller_unpowered = true;
}
void add(const MotorDisconnected&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.motor_disconnected = true;
}
/// Another motor from the beginning, see describe_plant.
void add(const WindingsSwapped&, const FaultMoment&, FaultEffects&) {}
void add(const RunCapacitorOpen&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.run_capacitor = CapacitorCondition::open;
}
void add(const RunCapacitorShorted&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.run_capacitor = CapacitorCondition::shorted;
}
void add(const RotorSeized&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.rotor_seized = true;
}
void add(const ExtraLoad& fault, const FaultMoment&, FaultEffects& effects) {
    effects.damage.extra_load_Nm += fault.torque_Nm;
}
void add(const BypassWelded& fault, const FaultMoment&, FaultEffects& effects) {
    effects.damage.bypass_contact =
        fault.welds == "at_once" ? ContactCondition::stuck_closed : ContactCondition::welds;
}
void add(const BypassStuckOpen&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.bypass_contact = ContactCondition::stuck_open;
}
void add(const StartContactStuckIn&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.start_contact = ContactCondition::stuck_closed;
}
void add(const StartContactStuckOut&, const FaultMoment&, FaultEffects& effects) {
    effects.damage.start_contact = ContactCondition::stuck_open;
}

void add_to_pair(const ThyristorFault& fault, std::array<bool, 2>& pair) {
    using namespace plant_models;
    pair[positive_thyristor] = pair[positive_thyristor] || fault.is_positive();
    pair[negative_thyristor] = pair[negative_thyristor] || fault.is_negative();
}
void add(const ThyristorShorted& fault, const FaultMoment&, FaultEffects& effects) {
    add_to_pair(fault, effects.damage.thyristor_shorted);
}
void add(const ThyristorDead& fault, const FaultMoment&, FaultEffects& effects) {
    add_to_pair(fault, effects.damage.thyristor_dead);
}

void hold(const SensorFault& fault, StuckSensor& sensor) {
    sensor.stuck = true;
    sensor.counts.reset();
    if (fault.counts >= 0) {
        sensor.counts = static_cast<std::uint16_t>(fault.counts);
    }
}
void add(const LineVoltageSensorStuck& fault, const FaultMoment&, FaultEffects& effects) {
    hold(fault, effects.sensors[line_voltage_sensor]);
}
void add(const OutputCurrentSensorStuck& fault, const FaultMoment&, FaultEffects& effects) {
    hold(fault, effects.sensors[output_current_sensor]);
}
void add(const StartTerminalSensorStuck& fault, const FaultMoment&, FaultEffects& effects) {
    hold(fault, effects.sensors[start_terminal_sensor]);
}

}  // namespace

firmware::SensorFrame FaultEffects::through_sensors(const firmware::SensorFrame& sample,
                                                    const firmware::SensorFrame& last) const {
    firmware::SensorFrame seen = sample;
    const auto pass = [](const StuckSensor& sensor, std::uint16_t& counts, std::uint16_t before) {
        if (sensor.stuck) {
            counts = sensor.counts.value_or(before);
        }
    };
    pass(sensors[line_voltage_sensor], seen.line_voltage_counts, last.line_voltage_counts);
    pass(sensors[output_current_sensor], seen.output_current_counts, last.output_current_counts);
    pass(sensors[start_terminal_sensor], seen.start_terminal_voltage_counts,
         last.start_terminal_voltage_counts);
    return seen;
}

void add_effect(const Fault& fault, const FaultMoment& moment, FaultEffects& effects) {
    std::visit([&](const auto& one) { add(one, moment, effects); }, fault.what);
}

}  // namespace sim
