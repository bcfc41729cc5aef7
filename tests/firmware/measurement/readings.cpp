#include "firmware/measurement/readings.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

Readings readings(std::int32_t start_terminal_mV, std::int32_t output_mA, std::int32_t line_mV) {
    Readings made;
    made.start_terminal_voltage_rms = MilliVolts{start_terminal_mV};
    made.output_current_rms = MilliAmperes{output_mA};
    made.line_voltage_rms = MilliVolts{line_mV};
    made.relate_to_line();
    return made;
}

TEST(Readings, RelateTheVoltageAtSToTheLineAndAreBoundedWhereThereIsHardlyAny) {
    EXPECT_EQ(readings(115000, 0, 230000).start_terminal_level, 5000);
    EXPECT_EQ(readings(460000, 0, 230000).start_terminal_level, 20000);
    EXPECT_EQ(readings(115000, 0, 0).start_terminal_level, 0);
    EXPECT_EQ(readings(1000000, 0, 1).start_terminal_level, 1000000);
}

TEST(Readings, RelateTheCurrentToTheLineAndAreBoundedWhereThereIsHardlyAny) {
    EXPECT_EQ(readings(0, 23000, 230000).output_per_line_uS, 100000);
    EXPECT_EQ(readings(0, 23000, 0).output_per_line_uS, 0);
    EXPECT_EQ(readings(0, 300000, 1).output_per_line_uS, 1000000000);
}

TEST(Readings, OfALineThatIsGoneRelateToNothingAnyMore) {
    Readings seen = readings(115000, 23000, 230000);
    seen.line_voltage_rms = MilliVolts{0};
    seen.relate_to_line();
    EXPECT_EQ(seen.start_terminal_level, 0);
    EXPECT_EQ(seen.output_per_line_uS, 0);
}

}  // namespace
