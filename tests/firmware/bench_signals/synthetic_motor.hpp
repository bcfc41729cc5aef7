// Signals for controller tests: a line, a main winding behind thyristors, and a scripted rotor.
//
// This is not the plant: no rotor equations, no coupling. The main winding is a resistance and an
// inductance whose size follows the speed; the voltage at S follows the speed by a table; the speed
// follows a script. Numbers of the tables: phasor solution of a mid-size motor (computed). What it
// does honestly is what the controller's logic needs: a current only after a gate pulse and only
// until its zero, contacts that take time, and frames that act one tick late.
#pragma once

#include <cstdint>
#include <optional>

#include "firmware/contract/frames.hpp"

namespace bench_signals {

enum class Rotor {
    comes_up,                  ///< gains speed while the start capacitor is in
    stuck,                     ///< never moves
    stalls_at_three_quarters,  ///< comes up to 75 % and no further, on the full line neither
};

/// What is broken. Thyristors by the sign of the current that they carry; 0 for none.
struct Broken {
    bool bypass_welded = false;
    bool bypass_stuck_open = false;
    bool start_contact_stuck_in = false;
    bool start_contact_stuck_out = false;
    bool run_capacitor_open = false;
    bool run_capacitor_shorted = false;
    int dead_thyristor = 0;
    int shorted_thyristor = 0;
    std::optional<std::uint16_t> line_voltage_counts;  ///< a sensor that is stuck there
    std::optional<std::uint16_t> output_current_counts;
    std::optional<std::uint16_t> start_terminal_counts;
};

class SyntheticMotor {
  public:
    // Script; may be changed between ticks.
    double line_voltage_rms_V = 230.0;
    double frequency_Hz = 60.0;
    double rated_voltage_rms_V = 230.0;
    double locked_rotor_A = 80.0;  ///< at rated voltage
    double run_up_s = 0.6;         ///< to 90 % speed
    bool connected = true;         ///< false: the output feeds nothing
    bool call = true;
    Rotor rotor = Rotor::comes_up;
    Broken broken;
    double start_capacitor_siemens = 0.04;  ///< at a motor of 80 A
    double resonance = 1.0;  ///< raises the voltage at S while the start capacitor is in

    explicit SyntheticMotor(double line_phase_deg = 0.0);

    /// The samples of the tick that begins now.
    firmware::SensorFrame sense() const;

    /// Lets the tick pass. `answer` is what the controller said to its samples; it acts in the
    /// next.
    void pass(const firmware::ActuatorFrame& answer);

    double time_s() const { return static_cast<double>(tick_) * 1e-4; }
    double speed() const { return speed_; }  ///< of synchronous speed
    double line_phase_deg() const;           ///< at the start of the present tick
    bool contactor_in() const { return contactor_.in; }
    bool start_capacitor_in() const {
        return (start_capacitor_.in || broken.start_contact_stuck_in) &&
               !broken.start_contact_stuck_out;
    }
    bool bypass_in() const {
        return (bypass_.in || broken.bypass_welded) && !broken.bypass_stuck_open;
    }

  private:
    struct Contact {
        bool in = false;
        bool coil = false;
        int ticks_to_move = 0;
        void pass(bool new_coil);
    };

    double line_voltage_V(double time_s) const;
    double start_terminal_rms_per_line() const;
    double start_terminal_voltage_V() const;
    int thyristor_that_conducts(double voltage, bool gate) const;
    void pass_current(double from_us, double to_us, bool gate);
    void pass_speed();

    std::int64_t tick_ = 0;
    double phase0_;
    firmware::ActuatorFrame acting_;
    Contact contactor_;
    Contact start_capacitor_;
    Contact bypass_;
    double main_current_A_ = 0.0;
    int conducting_ = 0;
    double gated_share_ = 0.0;  // of the recent time with main current
    double speed_ = 0.0;
};

}  // namespace bench_signals
