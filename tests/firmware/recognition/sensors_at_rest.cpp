#include "firmware/recognition/sensors_at_rest.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

// Covers: LW-10
TEST(SensorsAtRest, AnOffsetBeyondThreePercentOfTheRangeIsNoSoundSensor) {
    const SensorsAtRest sensors{Settings{}};
    for (std::int32_t Readings::*offset :
         {&Readings::output_current_offset_counts, &Readings::start_terminal_offset_counts}) {
        for (const std::int32_t sign : {1, -1}) {
            Readings seen;
            seen.*offset = sign * 61;
            EXPECT_FALSE(sensors.off_zero(seen));
            seen.*offset = sign * 62;
            EXPECT_TRUE(sensors.off_zero(seen));
        }
    }
}

}  // namespace
