// What a frame makes the coils and the gate do, and which frames are refused.
#include "sim/actuators/power_stage.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace {

firmware::ActuatorFrame everything_on() {
    firmware::ActuatorFrame frame;
    frame.gate_on_us = 37;
    frame.gate_off_us = 88;
    frame.start_capacitor_contact = 1;
    frame.bypass_contact = 1;
    frame.contactor_permit = 1;
    return frame;
}

TEST(PowerStage, PassesEveryOutputToItsOwnSwitch) {
    const sim::PowerCommands all = sim::drive(everything_on(), true);
    EXPECT_TRUE(all.line_coil);
    EXPECT_TRUE(all.start_capacitor_coil);
    EXPECT_TRUE(all.bypass_coil);
    EXPECT_EQ(all.gate_on, sim::Instant{37'000});
    EXPECT_EQ(all.gate_off, sim::Instant{88'000});

    firmware::ActuatorFrame only_start;
    only_start.start_capacitor_contact = 1;
    EXPECT_TRUE(sim::drive(only_start, true).start_capacitor_coil);
    EXPECT_FALSE(sim::drive(only_start, true).bypass_coil);
    firmware::ActuatorFrame only_bypass;
    only_bypass.bypass_contact = 1;
    EXPECT_TRUE(sim::drive(only_bypass, true).bypass_coil);
    EXPECT_FALSE(sim::drive(only_bypass, true).start_capacitor_coil);
}

TEST(PowerStage, ClosesTheLineContactorOnlyForACallThatIsPermitted) {
    firmware::ActuatorFrame frame;
    for (const bool permit : {false, true}) {
        for (const bool call : {false, true}) {
            frame.contactor_permit = permit ? 1 : 0;
            EXPECT_EQ(sim::drive(frame, call).line_coil, permit && call);
        }
    }
}

TEST(PowerStage, OpensTheLineContactorWithTheCallEvenIfTheControllerDoesNotReact) {
    EXPECT_FALSE(sim::drive(everything_on(), false).line_coil);
}

TEST(PowerStage, RefusesAnotherVersionOfTheFrame) {
    firmware::ActuatorFrame frame = everything_on();
    frame.version = firmware::frame_version + 1;
    EXPECT_THROW(sim::drive(frame, true), std::runtime_error);
    frame.version = 0;
    EXPECT_THROW(sim::drive(frame, true), std::runtime_error);
}

TEST(PowerStage, RefusesAGateWindowThatEndsBeforeItBeginsOrAfterTheTick) {
    firmware::ActuatorFrame frame = everything_on();
    frame.gate_on_us = 89;
    EXPECT_THROW(sim::drive(frame, true), std::runtime_error);
    frame.gate_on_us = 0;
    frame.gate_off_us = 101;
    EXPECT_THROW(sim::drive(frame, true), std::runtime_error);
    frame.gate_off_us = 100;
    EXPECT_NO_THROW(sim::drive(frame, true));
    frame.gate_on_us = 100;
    EXPECT_NO_THROW(sim::drive(frame, true));  // equal: no pulse
}

TEST(PowerStage, SaysWhatIsWrongWithARefusedFrame) {
    firmware::ActuatorFrame frame = everything_on();
    frame.gate_off_us = 250;
    try {
        sim::drive(frame, true);
        FAIL() << "was accepted";
    } catch (const std::runtime_error& error) {
        EXPECT_NE(std::string(error.what()).find("gate 37 to 250 us"), std::string::npos);
    }
}

}  // namespace
