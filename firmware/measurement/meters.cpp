#include "firmware/measurement/meters.hpp"

namespace firmware {

void Meters::begin_readings() {
    next_ = Next::run_capacitor_voltage;
}

void Meters::work_on() {
    // The scales of the converter are applied before the square root: no precision is lost.
    switch (next_) {
        case Next::run_capacitor_voltage:
            readings_.run_capacitor_voltage_rms =
                MilliVolts{run_capacitor_voltage_.close_half_cycle(run_capacitor_mV_per_count)};
            next_ = Next::half_waves;
            break;
        case Next::half_waves:
            readings_.output_current = half_waves_.close_half_cycle(output_current_mA_per_count);
            next_ = Next::line_voltage;
            break;
        case Next::line_voltage:
            readings_.line_voltage_rms =
                MilliVolts{line_voltage_.close_half_cycle(line_voltage_mV_per_count)};
            next_ = Next::output_current;
            break;
        case Next::output_current:
            readings_.output_current_rms =
                MilliAmperes{output_current_.close_half_cycle(output_current_mA_per_count)};
            readings_.output_current_offset_counts = output_current_.mean_counts();
            readings_.output_current_peak =
                MilliAmperes{highest_current_counts_ * output_current_mA_per_count};
            highest_current_counts_ = 0;
            next_ = Next::start_terminal_voltage;
            break;
        case Next::start_terminal_voltage:
            readings_.start_terminal_voltage_rms = MilliVolts{
                start_terminal_voltage_.close_half_cycle(start_terminal_voltage_mV_per_count)};
            readings_.start_terminal_offset_counts = start_terminal_voltage_.mean_counts();
            readings_.relate_to_line();
            next_ = Next::taking;
            break;
        case Next::taking:
        case Next::none:
            break;
    }
}

}  // namespace firmware
