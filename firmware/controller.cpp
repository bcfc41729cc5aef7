#include "firmware/controller.hpp"

#include "firmware/contract/sensor_scale.hpp"
#include "firmware/measurement/samples.hpp"

namespace firmware {

namespace {

constexpr MilliAmperes size_of_current(std::int32_t counts) {
    return MilliAmperes{(counts < 0 ? -counts : counts) * output_current_mA_per_count};
}

}  // namespace

Controller::Controller(const Settings& settings, const StorePages& at_power_up)
    : sequence_(settings),
      gate_timer_(half_turn_from(MilliDegrees{usable(settings).gate_pulse_end_mdeg})),
      keeper_(at_power_up) {
    sequence_.remember(keeper_.learned(), keeper_.rest_mark());
    report(Orders{});
}

ActuatorFrame Controller::step(const SensorFrame& frame) {
    // Measure, decide, then place the gate edges: the gate timer needs the phase of this very tick.
    if (store_command_.kind == StoreCommandKind::erase_page) {
        forget_line();
    }
    observe(samples_from(frame));
    observation_.memory_holds_rest_owed = keeper_.holds_rest_owed();
    // The tick in which a start ends has enough to do without the memory.
    const bool motor_was_fed = feeds_motor(sequence_.state());
    const Orders& orders = sequence_.step(observation_);
    store_command_ = keeper_.step(sequence_.learned(), sequence_.rest_mark(),
                                  motor_was_fed || feeds_motor(sequence_.state()));
    report(orders);
    return frame_from(orders);
}

void Controller::rest(Ticks ticks) {
    if (ticks.count() == 0) {
        return;
    }
    forget_line();
    store_command_ = StoreCommand{};
    report(sequence_.rest(ticks));
}

// Ticks have been left out: what was known about the line is stale.
void Controller::forget_line() {
    line_tracker_ = LineTracker{};
    meters_ = Meters{};
    observation_ = Observation{};
}

void Controller::observe(const Samples& samples) {
    line_tracker_.step(samples.line_voltage_counts);
    observation_.call = samples.call;
    observation_.output_current_now = size_of_current(samples.output_current_counts);
    observation_.line_locked = line_tracker_.locked();
    // What comes once per half cycle is spread: some ticks before the voltage zero the readings are
    // worked out one by one, and at the zero the sequence decides by all of them.
    if (line_tracker_.half_cycle_ends()) {
        meters_.begin_readings();
    }
    meters_.work_on();
    observation_.readings_are_new =
        meters_.has_new_readings() && !line_tracker_.half_cycle_ending();
    if (observation_.readings_are_new) {
        observation_.readings = meters_.take_readings();
        observation_.line_frequency = line_tracker_.frequency();
    }
    // The sample of the tick that ends a window belongs to the next one.
    meters_.add(samples, line_tracker_.phase());
}

ActuatorFrame Controller::frame_from(const Orders& orders) {
    // The timer is asked in every tick, gated or not, so that it keeps track of the half cycles.
    const GateWindow window = gate_timer_.step(line_tracker_.phase(), line_tracker_.phase_step(),
                                               orders.gated, orders.firing);
    ActuatorFrame frame;
    frame.gate_on_us = static_cast<std::uint16_t>(window.on.count());
    frame.gate_off_us = static_cast<std::uint16_t>(window.off.count());
    frame.start_capacitor_contact = orders.start_capacitor ? 1 : 0;
    frame.bypass_contact = orders.bypass ? 1 : 0;
    frame.contactor_permit = orders.contactor_permit ? 1 : 0;
    frame.status = static_cast<std::uint16_t>(static_cast<unsigned>(telemetry_.state) |
                                              (static_cast<unsigned>(telemetry_.reason) << 8));
    return frame;
}

void Controller::report(const Orders& orders) {
    telemetry_.state = sequence_.state();
    telemetry_.reason = sequence_.reason();
    telemetry_.stage = sequence_.stage();
    telemetry_.tries_made = sequence_.tries_made();
    telemetry_.line_locked = observation_.line_locked ? 1 : 0;
    telemetry_.line_frequency_mHz = observation_.line_frequency.count();
    telemetry_.line_voltage_rms_mV = observation_.readings.line_voltage_rms.count();
    telemetry_.output_current_rms_mA = observation_.readings.output_current_rms.count();
    telemetry_.start_terminal_voltage_rms_mV =
        observation_.readings.start_terminal_voltage_rms.count();
    telemetry_.line_phase = line_tracker_.phase().count();
    telemetry_.firing_angle_mdeg = orders.firing_angle.count();
    telemetry_.locked_rotor_estimate_mA = sequence_.locked_rotor().count();
    telemetry_.learned_level_permille = sequence_.learned().level.count();
    telemetry_.memory = keeper_.recovery();
    telemetry_.start_capacitor_absent = sequence_.start_capacitor_absent() ? 1 : 0;
    telemetry_.learning_settled = sequence_.learned().settled ? 1 : 0;
}

}  // namespace firmware
