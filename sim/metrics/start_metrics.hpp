// The figures of one start, from the plant's truth.
//
// Numbers that do not exist are empty: a rotor that never came up has no time to speed.
#pragma once

#include <optional>

#include "sim/bench/tick_view.hpp"
#include "sim/metrics/inrush_window.hpp"
#include "sim/metrics/window_rms.hpp"

namespace sim {

struct StartFigures {
    /// First time that the speed passes 90 % of synchronous.
    std::optional<double> time_to_speed_s;
    /// First time that the bypass contact touches; none in a direct start.
    std::optional<double> handover_s;
    double final_speed_rpm = 0.0;
    double highest_speed_rpm = 0.0;
    /// How long the rotor has been turning backwards without a pause when the run ends.
    double backwards_at_end_s = 0.0;
    double line_current_peak_A = 0.0;
    double line_current_peak_at_s = 0.0;
    std::optional<double> line_current_half_cycle_rms_max_A;
    std::optional<double> line_current_one_cycle_rms_max_A;
    std::optional<double> line_current_inrush_100ms_rms_A;
    std::optional<double> line_voltage_half_cycle_rms_min_V;
    std::optional<double> line_voltage_one_cycle_rms_min_V;
    /// How long the start capacitor was in, in total.
    double start_capacitor_in_s = 0.0;
};

class StartMetrics {
  public:
    StartMetrics(double synchronous_speed_rad_per_s, double supply_frequency_Hz, bool has_limiter);

    void observe(const TickView& view);
    StartFigures figures() const;
    /// Over the last whole cycle; 0 before the first has passed.
    double line_voltage_rms_V() const { return voltage_rms_.one_cycle_rms(); }

  private:
    void follow_peak(const plant_models::PlantOutputs& plant);
    void follow_speed(const plant_models::PlantOutputs& plant);
    void follow_rms(const plant_models::PlantOutputs& plant);

    double threshold_rad_per_s_;
    bool has_limiter_;
    WindowRms current_rms_;
    WindowRms voltage_rms_;
    InrushWindow inrush_;
    StartFigures figures_;
    bool first_ = true;
    /// Of the tick before.
    struct Last {
        double time_s = 0.0;
        double line_current_A = 0.0;
        double line_current_rate_A_per_s = 0.0;
        double speed_rad_per_s = 0.0;
        double acceleration_rad_per_s2 = 0.0;
    };
    Last last_;
};

}  // namespace sim
