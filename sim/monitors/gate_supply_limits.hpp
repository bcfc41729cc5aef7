// Never a gate pulse outside the supply's limits: after the line voltage (RMS over a cycle) or the
// frequency has left its limits, gate pulses must end within the reaction time.
#pragma once

#include "sim/monitors/monitor.hpp"

namespace sim {

class GateSupplyLimits {
  public:
    static constexpr std::string_view name = "gate_pulse_outside_supply_limits";

    explicit GateSupplyLimits(const MonitorContext& context)
        : limits_(context.limits),
          low_V_(0.01 * context.limits.supply_low_percent * context.rated_voltage_V),
          high_V_(0.01 * context.limits.supply_high_percent * context.rated_voltage_V) {}

    void observe(const TickView& view, double line_voltage_rms_V) {
        const double now_s = view.plant.time_s;
        // There is no cycle to judge before the first one has passed.
        const bool voltage_bad =
            now_s > first_cycle_s && (line_voltage_rms_V < low_V_ || line_voltage_rms_V > high_V_);
        const double frequency = view.plant.supply_frequency_Hz;
        const bool frequency_bad = frequency < limits_.supply_frequency_low_Hz ||
                                   frequency > limits_.supply_frequency_high_Hz;
        if (!voltage_bad && !frequency_bad) {
            good_s_ = now_s;
            return;
        }
        const bool pulse = view.commands.gate_off > view.commands.gate_on;
        if (!violation_ && pulse && now_s - good_s_ > limits_.supply_reaction_s) {
            violation_ = frequency_bad
                             ? Violation{now_s, frequency,
                                         frequency < limits_.supply_frequency_low_Hz
                                             ? limits_.supply_frequency_low_Hz
                                             : limits_.supply_frequency_high_Hz,
                                         "Hz"}
                             : Violation{now_s, line_voltage_rms_V,
                                         line_voltage_rms_V < low_V_ ? low_V_ : high_V_, "V"};
        }
    }
    const std::optional<Violation>& violation() const { return violation_; }

  private:
    static constexpr double first_cycle_s = 0.025;

    SafetyLimits limits_;
    double low_V_;
    double high_V_;
    double good_s_ = 0.0;
    std::optional<Violation> violation_;
};

}  // namespace sim
