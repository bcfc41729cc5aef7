// Keeps what a page draws of a start: the waves at tick rate, thinned with their extremes kept
// (bucket_clock.hpp), the RMS of each half cycle, and means over each whole cycle.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/start_run.hpp"
#include "sim/metrics/window_rms.hpp"
#include "sim/pages/bucket_clock.hpp"
#include "sim/pages/extremes_decimator.hpp"

namespace sim {

/// A point per cycle, without those that repeat the one before.
struct CycleMeans {
    std::vector<double> time_s;  ///< middle of the cycle
    std::vector<double> speed_rpm;
    std::vector<double> torque_Nm;
    std::vector<double> load_torque_Nm;
};

struct Waveforms {
    Trace line_voltage_V;
    Trace line_current_A;
    Trace main_current_A;
    Trace aux_current_A;
    Trace torque_Nm;
    Trace load_torque_Nm;
    Trace speed_rpm;
    Trace line_voltage_rms_V;  ///< over each half cycle, at its middle
    Trace line_current_rms_A;
    std::string dc_name;  ///< empty: the supply has no direct current side
    Trace dc_V;
    CycleMeans cycles;
    double coarse_bucket_s = 0.0;
};

class WaveformRecorder final : public TickObserver {
  public:
    explicit WaveformRecorder(const Scenario& scenario);

    void observe(const TickView& view) override;
    /// Once, when the run is over.
    Waveforms finish();

  private:
    /// In the order of `Waveforms`.
    enum Channel { voltage, current, main, aux, torque, load, speed, dc, channel_count };

    bool is_event(const TickView& view);
    void take_cycle(const TickView& view, bool half_cycle_ends);

    BucketClock clock_;
    double quarter_cycle_s_;
    std::array<ExtremesDecimator, channel_count> channels_;
    ExtremesDecimator voltage_rms_;
    ExtremesDecimator current_rms_;
    WindowRms voltage_window_;
    WindowRms current_window_;
    std::string dc_name_;
    std::optional<std::size_t> dc_channel_;

    struct Doing {
        int state = 0;
        int stage = 0;
        std::optional<SeenDoing> seen;
        bool supply_tripped = false;
        bool unit_tripped = false;
        bool line_connected = false;
    };
    Doing doing_;

    struct Sums {
        double speed_rpm = 0.0;
        double torque_Nm = 0.0;
        double load_torque_Nm = 0.0;
        int samples = 0;
        int half_cycles = 0;
    };
    struct CyclePoint {
        double time_s = 0.0;
        double speed_rpm = 0.0;
        double torque_Nm = 0.0;
        double load_torque_Nm = 0.0;
    };
    void keep(const CyclePoint& point);

    Sums sums_;
    CycleMeans cycles_;
    std::optional<CyclePoint> left_out_;  ///< the last one, if it was
};

}  // namespace sim
