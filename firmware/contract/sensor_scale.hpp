// Scales of the four sensors: 12-bit converter counts to physical units.
//
// The bipolar channels read `adc_midpoint` at zero. Ranges cover 250 V mains at its +10 % crest,
// the resonance-raised voltage at S, and the locked-rotor crest of a 5-ton class compressor.
#pragma once

#include <cstdint>

namespace firmware {

inline constexpr std::int32_t adc_midpoint = 2048;
inline constexpr std::int32_t adc_maximum = 4095;

inline constexpr std::int32_t line_voltage_mV_per_count = 300;            // +-614 V
inline constexpr std::int32_t start_terminal_voltage_mV_per_count = 500;  // +-1024 V
inline constexpr std::int32_t output_current_mA_per_count = 150;          // +-307 A

/// Heatsink: unipolar, 0 counts at -40 degC, 0.05 K per count (to +165 degC).
inline constexpr std::int32_t heatsink_offset_mC = -40000;
inline constexpr std::int32_t heatsink_mC_per_count = 50;

}  // namespace firmware
