// One monitor and a course of ticks for it.
#pragma once

#include <optional>

#include "monitors/tick_sequence.hpp"
#include "sim/monitors/monitor.hpp"

namespace sim_test {

/// Limits unlike the defaults, so that a monitor that ignored them would be found out. The motor
/// turns at 100 rad/s in synchronism, so that shares of it are percent.
inline sim::MonitorContext strict_context() {
    sim::MonitorContext context;
    context.limits.start_capacitor_max_s = 0.5;
    context.limits.standing_rotor_max_s = 0.4;
    context.limits.minimum_rest_s = 2.0;
    context.limits.bypass_minimum_speed_percent = 80.0;
    context.limits.bypass_reaction_s = 0.03;
    context.limits.supply_low_percent = 70.0;
    context.limits.supply_high_percent = 110.0;
    context.limits.supply_frequency_low_Hz = 47.0;
    context.limits.supply_frequency_high_Hz = 63.0;
    context.limits.supply_reaction_s = 0.04;
    context.synchronous_speed_rad_per_s = 100.0;
    context.nominal_frequency_Hz = 60.0;
    context.rated_voltage_V = 200.0;
    context.has_limiter = true;
    return context;
}

/// A motor that runs as it should.
inline TickSequence healthy_sequence() {
    TickSequence sequence;
    sequence.plant.speed_rad_per_s = 96.0;
    sequence.plant.supply_frequency_Hz = 60.0;
    sequence.plant.line_connected = true;
    sequence.plant.main_conducting = true;
    return sequence;
}

template <class Monitor>
class MonitorBench {
  public:
    explicit MonitorBench(const sim::MonitorContext& context = strict_context())
        : monitor_(context) {}

    TickSequence at = healthy_sequence();
    double line_voltage_rms_V = 200.0;

    /// Shows the present state for `ticks` ticks.
    void hold(int ticks) {
        for (int k = 0; k < ticks; ++k) {
            monitor_.observe(at.view(), line_voltage_rms_V);
            at.next();
        }
    }
    void hold_s(double duration_s) { hold(static_cast<int>(duration_s * 1e4 + 0.5)); }

    bool broken() const { return monitor_.violation().has_value(); }
    const sim::Violation& violation() const { return monitor_.violation().value(); }

  private:
    Monitor monitor_;
};

inline sim::MonitorContext direct_start_context() {
    sim::MonitorContext context = strict_context();
    context.has_limiter = false;
    return context;
}

}  // namespace sim_test
