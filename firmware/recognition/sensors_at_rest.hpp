// Looks at the sensors before a start: with the contactor open the current and the voltage at S
// must stand at their zero. (The line's sensor is looked after by the line tracker: a stuck one is
// no line.) A sensor that is stuck exactly at zero passes here and is found by the inspection.
#pragma once

#include "firmware/contract/sensor_scale.hpp"
#include "firmware/measurement/readings.hpp"
#include "firmware/settings/settings.hpp"

namespace firmware {

class SensorsAtRest {
  public:
    explicit SensorsAtRest(const Settings& settings)
        : limit_counts_(settings.sensor_offset_permille * adc_midpoint / 1000) {}

    bool off_zero(const Readings& readings) const {
        return beyond(readings.output_current_offset_counts) ||
               beyond(readings.start_terminal_offset_counts);
    }

  private:
    bool beyond(std::int32_t offset_counts) const {
        return offset_counts > limit_counts_ || offset_counts < -limit_counts_;
    }

    std::int32_t limit_counts_;
};

}  // namespace firmware
