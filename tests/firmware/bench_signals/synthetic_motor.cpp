#include "bench_signals/synthetic_motor.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "firmware/contract/sensor_scale.hpp"

namespace bench_signals {

namespace {

const double two_pi = 2.0 * std::acos(-1.0);

struct Row {
    double speed;
    double current;            // main winding at full voltage, of locked rotor
    double start_terminal;     // S over line, start capacitor out, full voltage
    double start_terminal_in;  // S over line, start capacitor in
};
constexpr std::array<Row, 9> rows = {{{0.0, 1.00, 0.07, 0.32},
                                      {0.5, 0.92, 0.28, 0.37},
                                      {0.7, 0.79, 0.50, 0.50},
                                      {0.8, 0.65, 0.68, 0.64},
                                      {0.85, 0.54, 0.79, 0.74},
                                      {0.9, 0.40, 0.93, 0.87},
                                      {0.95, 0.20, 1.08, 1.03},
                                      {0.98, 0.10, 1.16, 1.15},
                                      {1.0, 0.07, 1.22, 1.22}}};

double interpolate(double speed, double Row::*column) {
    for (std::size_t i = 1; i < rows.size(); ++i) {
        if (speed <= rows[i].speed) {
            const double part = (speed - rows[i - 1].speed) / (rows[i].speed - rows[i - 1].speed);
            return rows[i - 1].*column + part * (rows[i].*column - rows[i - 1].*column);
        }
    }
    return rows.back().*column;
}

std::uint16_t counts(double value, std::int32_t milli_per_count) {
    const double raw = firmware::adc_midpoint + std::round(value * 1000.0 / milli_per_count);
    return static_cast<std::uint16_t>(std::clamp(raw, 0.0, 4095.0));
}

}  // namespace

SyntheticMotor::SyntheticMotor(double line_phase_deg) : phase0_(line_phase_deg / 360.0 * two_pi) {}

void SyntheticMotor::Contact::pass(bool new_coil) {
    if (new_coil != coil) {
        coil = new_coil;
        ticks_to_move = coil ? 120 : 80;  // 12 ms to close, 8 ms to open
    }
    if (ticks_to_move > 0 && --ticks_to_move == 0) {
        in = coil;
    }
}

double SyntheticMotor::line_voltage_V(double at_s) const {
    return std::sqrt(2.0) * line_voltage_rms_V * std::sin(two_pi * frequency_Hz * at_s + phase0_);
}

double SyntheticMotor::line_phase_deg() const {
    return std::fmod((two_pi * frequency_Hz * time_s() + phase0_) / two_pi * 360.0, 360.0);
}

double SyntheticMotor::start_terminal_rms_per_line() const {
    const bool fed = start_capacitor_in() || !broken.run_capacitor_open;
    if (!contactor_.in || !connected || !fed) {
        return 0.0;
    }
    return start_capacitor_in() ? resonance * interpolate(speed_, &Row::start_terminal_in)
                                : interpolate(speed_, &Row::start_terminal);
}

double SyntheticMotor::start_terminal_voltage_V() const {
    if (broken.run_capacitor_shorted && contactor_.in) {
        return line_voltage_V(time_s());
    }
    return start_terminal_rms_per_line() * line_voltage_V(time_s() + 0.25 / frequency_Hz);
}

firmware::SensorFrame SyntheticMotor::sense() const {
    firmware::SensorFrame frame;
    const double line = line_voltage_V(time_s());
    const double quarter_ahead = line_voltage_V(time_s() + 0.25 / frequency_Hz);
    double output = main_current_A_;
    if (start_capacitor_in() && contactor_.in && connected) {
        // Its current leads.
        output += start_capacitor_siemens * locked_rotor_A / 80.0 * quarter_ahead;
    }
    frame.line_voltage_counts = counts(line, firmware::line_voltage_mV_per_count);
    frame.output_current_counts = counts(output, firmware::output_current_mA_per_count);
    frame.start_terminal_voltage_counts =
        counts(start_terminal_voltage_V(), firmware::start_terminal_voltage_mV_per_count);
    frame.line_voltage_counts = broken.line_voltage_counts.value_or(frame.line_voltage_counts);
    frame.output_current_counts =
        broken.output_current_counts.value_or(frame.output_current_counts);
    frame.start_terminal_voltage_counts =
        broken.start_terminal_counts.value_or(frame.start_terminal_voltage_counts);
    frame.call_for_cooling = call ? 1 : 0;
    return frame;
}

void SyntheticMotor::pass(const firmware::ActuatorFrame& answer) {
    contactor_.pass(call && acting_.contactor_permit != 0);
    start_capacitor_.pass(acting_.start_capacitor_contact != 0);
    bypass_.pass(acting_.bypass_contact != 0);
    pass_current(0.0, acting_.gate_on_us, false);
    pass_current(acting_.gate_on_us, acting_.gate_off_us, true);
    pass_current(acting_.gate_off_us, 100.0, false);
    pass_speed();
    acting_ = answer;
    ++tick_;
}

int SyntheticMotor::thyristor_that_conducts(double voltage, bool gate) const {
    const int forwards = voltage > 0.0 ? 1 : -1;
    const bool fires = gate && broken.dead_thyristor != forwards;
    return bypass_in() || fires || broken.shorted_thyristor == forwards ? forwards : 0;
}

void SyntheticMotor::pass_current(double from_us, double to_us, bool gate) {
    constexpr double longest_us = 25.0;
    const double fraction = interpolate(speed_, &Row::current);
    const double impedance = rated_voltage_rms_V / (locked_rotor_A * fraction);
    const double resistance = 0.6 * impedance;
    const double inductance = 0.8 * impedance / (two_pi * frequency_Hz);
    while (from_us < to_us) {
        const double width_us = std::min(longest_us, to_us - from_us);
        const double voltage = line_voltage_V(time_s() + (from_us + 0.5 * width_us) * 1e-6);
        from_us += width_us;
        if (!contactor_.in || !connected) {
            main_current_A_ = 0.0;
            conducting_ = 0;
            continue;
        }
        if (conducting_ == 0) {
            conducting_ = thyristor_that_conducts(voltage, gate);
        }
        if (conducting_ == 0) {
            continue;
        }
        const double middle = (voltage - resistance * main_current_A_) / inductance;
        main_current_A_ += middle * width_us * 1e-6;
        if (main_current_A_ * conducting_ < 0.0) {
            main_current_A_ = 0.0;
            conducting_ = 0;
        }
    }
}

void SyntheticMotor::pass_speed() {
    constexpr double tick_s = 1e-4;
    gated_share_ += ((conducting_ != 0 ? 1.0 : 0.0) - gated_share_) * tick_s / 0.01;
    const double top = rotor == Rotor::stalls_at_three_quarters ? 0.75 : 0.975;
    if (rotor == Rotor::stuck || !contactor_.in) {
        speed_ = std::max(0.0, speed_ - tick_s / 0.5);
    } else if (gated_share_ > 0.2 && start_capacitor_in()) {
        speed_ = std::min(std::min(top, 0.95), speed_ + 0.9 * tick_s / run_up_s);
    } else if (gated_share_ > 0.9 && speed_ > 0.5) {
        speed_ += (top - speed_) * tick_s / 0.02;
    }
}

}  // namespace bench_signals
