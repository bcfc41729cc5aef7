#include "firmware/recognition/start_terminal_level.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

std::int32_t level(std::int32_t start_terminal_mV, std::int32_t line_mV) {
    Readings readings;
    readings.start_terminal_voltage_rms = MilliVolts{start_terminal_mV};
    readings.line_voltage_rms = MilliVolts{line_mV};
    return start_terminal_level(readings);
}

TEST(StartTerminalLevel, IsTheShareOfTheLineAndBoundedWhereThereIsHardlyAny) {
    EXPECT_EQ(level(115000, 230000), 5000);
    EXPECT_EQ(level(460000, 230000), 20000);
    EXPECT_EQ(level(115000, 0), 0);
    EXPECT_EQ(level(1000000, 1), 1000000);
}

}  // namespace
