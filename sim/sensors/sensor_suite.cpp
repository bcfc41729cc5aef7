#include "sim/sensors/sensor_suite.hpp"

#include "sim/sensors/analogue_channel.hpp"

namespace sim {

namespace {

constexpr double heatsink_temperature_C = 25.0;

std::uint16_t bipolar(double value, std::int32_t milli_per_count) {
    return to_counts(value, 1000.0 / milli_per_count, firmware::adc_midpoint);
}

}  // namespace

firmware::SensorFrame sample_sensors(const plant_models::PlantOutputs& plant,
                                     bool call_for_cooling) {
    firmware::SensorFrame frame;
    frame.line_voltage_counts = bipolar(plant.line_voltage_V, firmware::line_voltage_mV_per_count);
    frame.output_current_counts = bipolar(plant.main_current_A + plant.start_capacitor_current_A,
                                          firmware::output_current_mA_per_count);
    frame.start_terminal_voltage_counts =
        bipolar(plant.start_terminal_voltage_V, firmware::start_terminal_voltage_mV_per_count);
    frame.heatsink_counts = to_counts(heatsink_temperature_C - 1e-3 * firmware::heatsink_offset_mC,
                                      1000.0 / firmware::heatsink_mC_per_count, 0.0);
    frame.call_for_cooling = call_for_cooling ? 1 : 0;
    return frame;
}

}  // namespace sim
