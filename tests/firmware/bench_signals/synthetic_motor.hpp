// Signals for controller tests: a line, a main winding behind thyristors, and a scripted rotor.
//
// This is not the plant: no rotor equations, no coupling. The main winding is a resistance and an
// inductance whose size follows the speed; the voltage at S follows the speed by a table; the speed
// follows a script. Numbers of the tables: phasor solution of a mid-size motor (computed). What it
// does honestly is what the controller's logic needs: a current only after a gate pulse and only
// until its zero, contacts that take time, and frames that act one tick late.
#pragma once

#include <cstdint>

#include "firmware/contract/frames.hpp"

namespace bench_signals {

enum class Rotor {
    comes_up,                  ///< gains speed while the start capacitor is in
    stuck,                     ///< never moves
    stalls_at_three_quarters,  ///< comes up to 75 % and no further, on the full line neither
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
    bool start_capacitor_in() const { return start_capacitor_.in; }
    bool bypass_in() const { return bypass_.in; }

  private:
    struct Contact {
        bool in = false;
        bool coil = false;
        int ticks_to_move = 0;
        void pass(bool new_coil);
    };

    double line_voltage_V(double time_s) const;
    double start_terminal_rms_per_line() const;
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
