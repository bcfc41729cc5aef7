#include "firmware/measurement/meters.hpp"

namespace firmware {

void Meters::close_half_cycle() {
    // The scales of the converter are applied before the square root: no precision is lost.
    readings_.line_voltage_rms =
        MilliVolts{line_voltage_.close_half_cycle(line_voltage_mV_per_count)};
    readings_.output_current_rms =
        MilliAmperes{output_current_.close_half_cycle(output_current_mA_per_count)};
    readings_.start_terminal_voltage_rms =
        MilliVolts{start_terminal_voltage_.close_half_cycle(start_terminal_voltage_mV_per_count)};
    readings_.output_current_peak =
        MilliAmperes{highest_current_counts_ * output_current_mA_per_count};
    highest_current_counts_ = 0;
    readings_.run_capacitor_voltage_rms =
        MilliVolts{run_capacitor_voltage_.close_half_cycle(run_capacitor_mV_per_count)};
    readings_.output_current = half_waves_.close_half_cycle(output_current_mA_per_count);
    readings_.output_current_offset_counts = output_current_.mean_counts();
    readings_.start_terminal_offset_counts = start_terminal_voltage_.mean_counts();
}

}  // namespace firmware
