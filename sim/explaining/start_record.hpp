// What a start was like, half cycle by half cycle, for somebody who tells its story: a row per half
// cycle of the line, and the instant of everything that switched.
//
// Means and extremes are over the ticks of the half cycle; RMS values have its exact length
// (sim/metrics/window_rms.hpp).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/start_bench.hpp"
#include "sim/metrics/window_rms.hpp"

namespace sim {

struct HalfCycle {
    double begin_s = 0.0;
    double end_s = 0.0;
    double line_voltage_rms_V = 0.0;
    double line_current_rms_A = 0.0;
    double torque_mean_Nm = 0.0;  ///< of the motor
    double load_torque_mean_Nm = 0.0;
    double load_torque_highest_Nm = 0.0;
    double speed_mean_rpm = 0.0;
    double speed_lowest_rpm = 0.0;
    double speed_highest_rpm = 0.0;
    double turns = 0.0;  ///< of the shaft since the start began, at the end
    double frequency_Hz = 0.0;
    double hottest_winding_C = 0.0;
    double connected_share = 0.0;  ///< of the time that the contactor was closed
    bool tripped = false;          ///< the supply, at the end
    struct Channel {
        double mean = 0.0;
        double lowest = 0.0;
        double highest = 0.0;
    };
    std::array<Channel, plant_models::most_model_channels> channels{};
};

enum class Switched {
    line_on,
    line_off,
    start_capacitor_in,
    start_capacitor_out,
    bypass_on,
    bypass_off,
    supply_tripped,
    unit_tripped,
    unit_returned,
    call_begins,
    call_ends
};

struct SwitchedAt {
    double time_s = 0.0;
    Switched what{};
    std::string_view cause;  ///< of a trip
    double line_current_rms_A = 0.0;
    double hottest_winding_C = 0.0;
};

struct ControllerMoment {
    double time_s = 0.0;
    firmware::Telemetry told;
    bool tells_only_states = false;
    std::optional<SeenDoing> seen;  ///< as in TickView
};

class StartRecord final : public TickObserver {
  public:
    explicit StartRecord(const Scenario& scenario);

    void observe(const TickView& view) override;

    const std::vector<HalfCycle>& half_cycles() const { return rows_; }
    const std::vector<SwitchedAt>& switched() const { return switched_; }
    /// Every change of its state or stage; empty in a direct start.
    const std::vector<ControllerMoment>& controller() const { return controller_; }
    /// First of its kind; null if it never happened.
    const SwitchedAt* first(Switched what) const;
    /// Where a model's channel stands in HalfCycle::channels; none if this plant lacks it.
    std::optional<std::size_t> channel(std::string_view name) const;
    /// How often the contactor let go of a coil that was to stay in.
    int drop_outs() const { return drop_outs_; }

  private:
    void note(const TickView& view, bool& before, bool now, Switched on, Switched off,
              std::string_view cause);
    void note_switching(const TickView& view);
    void add(const plant_models::PlantOutputs& plant);
    void close_row(const TickView& view);

    std::vector<std::string_view> channel_names_;
    WindowRms voltage_rms_;
    WindowRms current_rms_;
    HalfCycle row_;
    int ticks_ = 0;
    int connected_ticks_ = 0;
    double turns_ = 0.0;
    std::vector<HalfCycle> rows_;
    std::vector<SwitchedAt> switched_;
    std::vector<ControllerMoment> controller_;
    bool line_ = false;
    bool start_capacitor_ = false;
    bool bypass_ = false;
    bool supply_trip_ = false;
    bool unit_trip_ = false;
    bool call_ = false;
    int drop_outs_ = 0;
};

}  // namespace sim
