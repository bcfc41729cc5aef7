#include "firmware/measurement/readings.hpp"

#include <gtest/gtest.h>

#include "measurement/readings_of.hpp"

namespace {

using namespace firmware;
using measurement_test::readings_of;

TEST(Readings, RelateTheVoltageAtSToTheLineAndAreBoundedWhereThereIsHardlyAny) {
    EXPECT_EQ(readings_of(115000, 0, 230000).start_terminal_level, 5000);
    EXPECT_EQ(readings_of(460000, 0, 230000).start_terminal_level, 20000);
    EXPECT_EQ(readings_of(115000, 0, 0).start_terminal_level, 0);
    EXPECT_EQ(readings_of(1000000, 0, 1).start_terminal_level, 1000000);
}

TEST(Readings, RelateTheCurrentToTheLineAndAreBoundedWhereThereIsHardlyAny) {
    EXPECT_EQ(readings_of(0, 23000, 230000).output_per_line_uS, 100000);
    EXPECT_EQ(readings_of(0, 23000, 0).output_per_line_uS, 0);
    EXPECT_EQ(readings_of(0, 300000, 1).output_per_line_uS, 1000000000);
}

TEST(Readings, OfALineThatIsGoneRelateToNothingAnyMore) {
    Readings seen = readings_of(115000, 23000, 230000);
    seen.line_voltage_rms = MilliVolts{0};
    seen.relate_to_line();
    EXPECT_EQ(seen.start_terminal_level, 0);
    EXPECT_EQ(seen.output_per_line_uS, 0);
}

}  // namespace
