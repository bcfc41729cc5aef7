// Drives a controller against a synthetic motor and keeps what a test asks about.
#pragma once

#include <functional>
#include <vector>

#include "bench_signals/synthetic_motor.hpp"
#include "firmware/controller.hpp"

namespace bench_signals {

struct Entry {
    double time_s;
    firmware::State state;
    firmware::Reason reason;
};

class Drive {
  public:
    explicit Drive(const firmware::Settings& settings = {}, double line_phase_deg = 0.0,
                   const firmware::StorePages& at_power_up = firmware::erased_store())
        : motor(line_phase_deg), controller(settings, at_power_up) {}

    /// One tick; returns the controller's answer.
    firmware::ActuatorFrame tick() {
        const firmware::ActuatorFrame answer = controller.step(motor.sense());
        const firmware::Telemetry& told = controller.telemetry();
        if (history.empty() || history.back().state != told.state) {
            history.push_back({motor.time_s(), told.state, told.reason});
        }
        motor.pass(answer);
        return answer;
    }

    /// Until the controller is in `state`; false when that takes longer than `limit_s`.
    bool run_until(firmware::State state, double limit_s) {
        const double end_s = motor.time_s() + limit_s;
        while (motor.time_s() < end_s) {
            tick();
            if (controller.telemetry().state == state) {
                return true;
            }
        }
        return false;
    }

    void run_for(double seconds) {
        const double end_s = motor.time_s() + seconds - 5e-5;
        while (motor.time_s() < end_s) {
            tick();
        }
    }

    /// When it first came into `state`, or -1.
    double first_time_in(firmware::State state) const {
        for (const Entry& entry : history) {
            if (entry.state == state) {
                return entry.time_s;
            }
        }
        return -1.0;
    }

    firmware::State state() const { return controller.telemetry().state; }
    firmware::Reason reason() const { return controller.telemetry().reason; }

    SyntheticMotor motor;
    firmware::Controller controller;
    std::vector<Entry> history;
};

/// True when the frame asks for nothing at all.
inline bool all_off(const firmware::ActuatorFrame& frame) {
    return frame.gate_on_us == frame.gate_off_us && frame.start_capacitor_contact == 0 &&
           frame.bypass_contact == 0 && frame.contactor_permit == 0;
}

}  // namespace bench_signals
