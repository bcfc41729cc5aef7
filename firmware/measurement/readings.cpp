#include "firmware/measurement/readings.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/quotient.hpp"

namespace firmware {

namespace {

constexpr std::int64_t highest_level = 1000000;

// A line that collapses under a short leaves no voltage to divide by: what is beyond any motor is
// as good as this, and two of them still have a sum.
constexpr std::int64_t largest_uS = 1000000000;

}  // namespace

void Readings::relate_to_line() {
    start_terminal_level = 0;
    output_per_line_uS = 0;
    const std::int32_t line = line_voltage_rms.count();
    if (line <= 0) {
        return;
    }
    start_terminal_level = static_cast<std::int32_t>(
        smaller(ten_thousandths(start_terminal_voltage_rms.count(), line), highest_level));
    output_per_line_uS = static_cast<std::int32_t>(
        smaller(millionths(output_current_rms.count(), line), largest_uS));
}

}  // namespace firmware
