#include "firmware/recognition/inspection.hpp"

#include <gtest/gtest.h>

namespace {

using namespace firmware;

constexpr MilliAmperes locked_rotor{80000};

// A sound 230 V motor, as computed for a mid-size one: dark, pulsed, and with its start capacitor.
Readings dark() {
    Readings seen;
    seen.line_voltage_rms = MilliVolts{230000};
    seen.start_terminal_voltage_rms = MilliVolts{25000};
    seen.run_capacitor_voltage_rms = MilliVolts{245000};
    seen.relate_to_line();
    return seen;
}
Readings pulsed() {
    Readings seen = dark();
    seen.output_current_rms = MilliAmperes{24000};
    seen.output_current = {MilliAmperes{7000}, MilliAmperes{7100}, MilliAmperes{-6000}};
    return seen;
}
Readings start_capacitor_in() {
    Readings seen = dark();
    seen.start_terminal_voltage_rms = MilliVolts{120000};
    seen.run_capacitor_voltage_rms = MilliVolts{280000};
    seen.output_current_rms = MilliAmperes{12000};
    seen.output_current = {MilliAmperes{5400}, MilliAmperes{5400}, MilliAmperes{9000}};
    seen.relate_to_line();
    return seen;
}

class InspectionTest : public ::testing::Test {
  protected:
    InspectionTest() { inspection.begin(); }

    Inspection inspection{Settings{}};
};

// Covers: IN-12
TEST_F(InspectionTest, FindsNothingAtASoundMotor) {
    EXPECT_EQ(inspection.judge_dark(dark()), Reason::none);
    EXPECT_EQ(inspection.judge_pulses(pulsed()), Reason::none);
    EXPECT_EQ(inspection.judge_start_capacitor(start_capacitor_in(), locked_rotor), Reason::none);
    EXPECT_FALSE(inspection.start_capacitor_absent());
    EXPECT_TRUE(inspection.start_terminal_alive());
}

// Covers: IN-01, IN-02, IN-03
TEST_F(InspectionTest, ACurrentInTheDarkIsNobodysOrder) {
    Readings seen = dark();
    seen.output_current_rms = MilliAmperes{501};
    seen.output_current = {MilliAmperes{200}, MilliAmperes{210}, MilliAmperes{-300}};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::output_conducts);
    seen.output_current.leading = MilliAmperes{300};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::start_capacitor_stuck_in);
    seen.output_current.negative = MilliAmperes{0};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::thyristor_shorted);
    seen.output_current = {MilliAmperes{0}, MilliAmperes{200}, MilliAmperes{-300}};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::thyristor_shorted);
    seen.output_current_rms = MilliAmperes{500};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::none);
}

// Covers: IN-04
TEST_F(InspectionTest, AShortedRunCapacitorIsFoundWithThePulses) {
    Readings seen = pulsed();
    seen.run_capacitor_voltage_rms = MilliVolts{68000};
    EXPECT_EQ(inspection.judge_pulses(seen), Reason::run_capacitor_shorted);
    seen.run_capacitor_voltage_rms = MilliVolts{69000};
    EXPECT_EQ(inspection.judge_pulses(seen), Reason::none);
}

// Covers: IN-06
TEST_F(InspectionTest, WithoutAMotorSHangsOnTheLineAndThatIsNoShort) {
    Readings seen = dark();
    seen.run_capacitor_voltage_rms = MilliVolts{0};
    EXPECT_EQ(inspection.judge_dark(seen), Reason::none);
}

// Covers: IN-05
TEST_F(InspectionTest, HalfWavesMayDifferByAFifthAndNotMore) {
    Readings seen = pulsed();
    seen.output_current.positive = MilliAmperes{6000};
    seen.output_current.negative = MilliAmperes{4000};
    EXPECT_EQ(inspection.judge_pulses(seen), Reason::none);
    seen.output_current.negative = MilliAmperes{3990};
    EXPECT_EQ(inspection.judge_pulses(seen), Reason::half_waves_unequal);
    seen.output_current.positive = MilliAmperes{3990};
    seen.output_current.negative = MilliAmperes{6000};
    EXPECT_EQ(inspection.judge_pulses(seen), Reason::half_waves_unequal);
}

// Covers: IN-11
TEST_F(InspectionTest, TooLittleCurrentOfTheStartCapacitorMeansThatNoneIsIn) {
    Readings seen = start_capacitor_in();
    inspection.judge_pulses(pulsed());
    seen.output_current_rms = MilliAmperes{1999};
    EXPECT_EQ(inspection.judge_start_capacitor(seen, locked_rotor), Reason::none);
    EXPECT_TRUE(inspection.start_capacitor_absent());
    seen.output_current_rms = MilliAmperes{2000};
    inspection.judge_start_capacitor(seen, locked_rotor);
    EXPECT_FALSE(inspection.start_capacitor_absent());
    // At a small motor the converter's resolution is the limit.
    seen.output_current_rms = MilliAmperes{299};
    inspection.judge_start_capacitor(seen, MilliAmperes{6000});
    EXPECT_TRUE(inspection.start_capacitor_absent());
}

// Covers: IN-02
TEST_F(InspectionTest, ACurrentThatLagsIsNotTheStartCapacitors) {
    Readings seen = start_capacitor_in();
    seen.output_current.leading = MilliAmperes{0};
    EXPECT_EQ(inspection.judge_start_capacitor(seen, locked_rotor), Reason::output_conducts);
}

// Covers: IN-07, IN-08
TEST_F(InspectionTest, TheVoltageAtSTellsTheRunCapacitorFromTheTerminal) {
    struct Case {
        bool dead_before;
        bool absent;
        bool dead_with;
        bool fitted;
        Reason reason;
    };
    for (const Case& one :
         {Case{true, false, false, true, Reason::run_capacitor_open},
          Case{true, false, false, false, Reason::none},
          Case{false, false, true, true, Reason::start_terminal_dead},
          Case{true, false, true, true, Reason::start_terminal_dead},
          Case{true, false, true, false, Reason::start_terminal_dead},
          Case{true, true, true, true, Reason::start_terminal_dead},
          Case{true, true, true, false, Reason::none}, Case{false, true, true, true, Reason::none},
          Case{true, true, false, true, Reason::none},
          Case{false, true, false, true, Reason::none}}) {
        Settings settings;
        settings.run_capacitor_fitted = one.fitted ? 1 : 0;
        Inspection fresh{settings};
        fresh.begin();
        Readings before = pulsed();
        // 2 % of 230 V is the limit.
        before.start_terminal_voltage_rms = MilliVolts{one.dead_before ? 4500 : 4700};
        before.relate_to_line();
        EXPECT_EQ(fresh.judge_pulses(before), Reason::none);
        Readings seen = start_capacitor_in();
        if (one.dead_with) {
            seen.start_terminal_voltage_rms = MilliVolts{4500};
            seen.relate_to_line();
        }
        if (one.absent) {
            seen.output_current_rms = MilliAmperes{0};
        }
        EXPECT_EQ(fresh.judge_start_capacitor(seen, locked_rotor), one.reason)
            << one.dead_before << one.absent << one.dead_with << one.fitted;
        EXPECT_EQ(fresh.start_terminal_alive(), !one.dead_with);
    }
}

// Covers: IN-09
TEST_F(InspectionTest, TheWindingAtSMustHaveMoreImpedanceThanTheOneAtR) {
    // 230 V / 80 A = 2.875 ohms at R; at S 120 V / 12 A = 10 ohms when sound.
    Readings seen = start_capacitor_in();
    seen.output_current_rms = MilliAmperes{41700};
    EXPECT_EQ(inspection.judge_start_capacitor(seen, locked_rotor), Reason::none);
    seen.output_current_rms = MilliAmperes{41800};
    EXPECT_EQ(inspection.judge_start_capacitor(seen, locked_rotor), Reason::windings_swapped);
    Settings never;
    never.swapped_impedance_permille = 0;
    Inspection trusting{never};
    trusting.begin();
    EXPECT_EQ(trusting.judge_start_capacitor(seen, locked_rotor), Reason::none);
}

TEST_F(InspectionTest, BeginsAnewEveryTime) {
    inspection.judge_start_capacitor(dark(), locked_rotor);
    EXPECT_TRUE(inspection.start_capacitor_absent());
    EXPECT_TRUE(inspection.start_terminal_alive());
    inspection.begin();
    EXPECT_FALSE(inspection.start_capacitor_absent());
    EXPECT_FALSE(inspection.start_terminal_alive());
}

}  // namespace
