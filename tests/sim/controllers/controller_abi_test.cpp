// The C header for anyone's controller says the same as the contract of our own, byte for byte.
#include "firmware/contract/controller_abi.h"

#include <gtest/gtest.h>

#include <cstddef>

#include "firmware/contract/frames.hpp"
#include "firmware/contract/sensor_scale.hpp"
#include "firmware/contract/store.hpp"
#include "sim/controllers/library/exchange.hpp"

namespace {

#define EXPECT_SAME_PLACE(c_struct, cpp_struct, field)                                      \
    static_assert(offsetof(c_struct, field) == offsetof(cpp_struct, field), "same offset"); \
    static_assert(sizeof(c_struct::field) == sizeof(cpp_struct::field), "same size")

TEST(ControllerAbi, HasTheFramesOfTheContractByteForByte) {
    static_assert(sizeof(runup_sensor_frame) == sizeof(firmware::SensorFrame), "same size");
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, version);
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, line_voltage_counts);
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, output_current_counts);
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, start_terminal_voltage_counts);
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, heatsink_counts);
    EXPECT_SAME_PLACE(runup_sensor_frame, firmware::SensorFrame, call_for_cooling);

    static_assert(sizeof(runup_actuator_frame) == sizeof(firmware::ActuatorFrame), "same size");
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, version);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, gate_on_us);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, gate_off_us);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, start_capacitor_contact);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, bypass_contact);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, contactor_permit);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, reserved);
    EXPECT_SAME_PLACE(runup_actuator_frame, firmware::ActuatorFrame, status);

    static_assert(sizeof(runup_store_pages) == sizeof(firmware::StorePages), "same size");
    static_assert(sizeof(runup_store_command) == sizeof(firmware::StoreCommand), "same size");
    EXPECT_SAME_PLACE(runup_store_command, firmware::StoreCommand, kind);
    EXPECT_SAME_PLACE(runup_store_command, firmware::StoreCommand, page);
    EXPECT_SAME_PLACE(runup_store_command, firmware::StoreCommand, index);
    EXPECT_SAME_PLACE(runup_store_command, firmware::StoreCommand, word);
}

TEST(ControllerAbi, HasTheNumbersOfTheContract) {
    EXPECT_EQ(RUNUP_FRAME_VERSION, firmware::frame_version);
    EXPECT_EQ(RUNUP_TICK_US, firmware::tick_length_us);
    EXPECT_EQ(RUNUP_TICKS_PER_SECOND, firmware::ticks_per_second);
    EXPECT_EQ(RUNUP_ADC_MIDPOINT, firmware::adc_midpoint);
    EXPECT_EQ(RUNUP_LINE_VOLTAGE_MV_PER_COUNT, firmware::line_voltage_mV_per_count);
    EXPECT_EQ(RUNUP_START_TERMINAL_VOLTAGE_MV_PER_COUNT,
              firmware::start_terminal_voltage_mV_per_count);
    EXPECT_EQ(RUNUP_OUTPUT_CURRENT_MA_PER_COUNT, firmware::output_current_mA_per_count);
    EXPECT_EQ(RUNUP_HEATSINK_OFFSET_MC, firmware::heatsink_offset_mC);
    EXPECT_EQ(RUNUP_HEATSINK_MC_PER_COUNT, firmware::heatsink_mC_per_count);
    EXPECT_EQ(std::size_t{RUNUP_STORE_PAGES}, firmware::store_page_count);
    EXPECT_EQ(std::size_t{RUNUP_STORE_PAGE_WORDS}, firmware::store_page_words);
    EXPECT_EQ(RUNUP_ERASED_WORD, firmware::erased_word);
    EXPECT_EQ(RUNUP_STORE_NONE, static_cast<int>(firmware::StoreCommandKind::none));
    EXPECT_EQ(RUNUP_STORE_WRITE_WORD, static_cast<int>(firmware::StoreCommandKind::write_word));
    EXPECT_EQ(RUNUP_STORE_ERASE_PAGE, static_cast<int>(firmware::StoreCommandKind::erase_page));
    EXPECT_GE(sim::library_words_bytes, std::size_t{RUNUP_REFUSAL_BYTES});
}

TEST(ControllerAbi, FindsInAFreshFrameThatEverythingIsOff) {
    const firmware::ActuatorFrame fresh;
    EXPECT_EQ(fresh.version, RUNUP_FRAME_VERSION);
    EXPECT_EQ(fresh.gate_on_us + fresh.gate_off_us + fresh.contactor_permit + fresh.bypass_contact +
                  fresh.start_capacitor_contact + fresh.reserved,
              0);
}

}  // namespace
