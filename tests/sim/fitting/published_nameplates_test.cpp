// Printed figures of nameplates are met, whatever the size; same bytes for the same nameplate.
#include <gtest/gtest.h>

#include <string>

#include "fitting/nameplate_text.hpp"
#include "plant_models/motor/steady_state.hpp"
#include "sim/fitting/acceptance.hpp"
#include "sim/results/fit_json.hpp"

namespace {

using sim::NameplateFit;

void expect_met(const NameplateFit& fit) {
    EXPECT_TRUE(fit.bands_held) << fit.nameplate.title;
    for (const sim::HardFigure& hard : fit.motor_class.hard) {
        // The tables are rounded to five digits; the tolerance of the product is 0.5 %.
        EXPECT_NEAR(fit.fitted.figures.*hard.member / hard.asked, 1.0, 1e-4) << hard.name;
    }
    for (const sim::SoftFigure& soft : fit.motor_class.soft) {
        EXPECT_TRUE(inside_band(soft, fit.fitted.figures)) << soft.name;
    }
}

/// The locked-rotor current of the tables that are handed out, by the phasor solution itself.
double locked_rotor_A(const plant_models::MotorParameters& motor) {
    const plant_models::SinusoidalSupply supply{motor.rated_voltage_V, motor.rated_frequency_Hz, 0,
                                                0};
    return std::abs(
        plant_models::locked_rotor(motor, supply, run_connection(motor)).line_current_A);
}

TEST(PublishedNameplates, OfThreeToFiveTonsAreMet) {
    // Rated-load and locked-rotor current from nameplates of 208/230 V, 60 Hz outdoor units (seen);
    // the capacitors are usual for the size (judgement).
    struct Unit {
        double tons, rated_A, locked_A, capacitor_uF;
    };
    for (const Unit& unit : {Unit{3, 17.6, 90, 40}, Unit{3, 16.2, 96, 40}, Unit{4, 23.6, 120, 50},
                             Unit{4, 23.3, 118, 50}, Unit{5, 30.8, 141, 70}}) {
        SCOPED_TRACE(unit.locked_A);
        const NameplateFit fit = sim::fit_nameplate_text(
            sim_test::outdoor_unit(unit.tons, unit.rated_A, unit.locked_A, unit.capacitor_uF),
            "unit.toml");
        expect_met(fit);
        EXPECT_NEAR(locked_rotor_A(fit.fitted.motor), unit.locked_A, 1e-4 * unit.locked_A);
    }
}

TEST(SmallAndFiftyHertzNameplates, AreMet) {
    const std::string small =
        "[nameplate]\nvoltage_V = 115\nfrequency_Hz = 60\nrated_load_current_A = 1.9\n"
        "locked_rotor_current_A = 11\nrun_capacitor_uF = 12\npower_hp = 0.1667\n";
    expect_met(sim::fit_nameplate_text(small, "small.toml"));
    const std::string on_a_thermistor =
        "[nameplate]\nvoltage_V = 115\nfrequency_Hz = 60\nrated_load_current_A = 2.6\n"
        "locked_rotor_current_A = 14\nrun_capacitor_uF = 0\npower_hp = 0.1667\n";
    expect_met(sim::fit_nameplate_text(on_a_thermistor, "thermistor.toml"));
    const std::string fifty_hertz =
        "[nameplate]\nvoltage_V = 230\nfrequency_Hz = 50\nrated_load_current_A = 6.2\n"
        "locked_rotor_current_A = 28\nrun_capacitor_uF = 25\nshaft_power_W = 1100\npoles = 4\n";
    const NameplateFit fit = sim::fit_nameplate_text(fifty_hertz, "cold_room.toml");
    expect_met(fit);
    EXPECT_EQ(fit.fitted.motor.poles, 4);
    EXPECT_GT(fit.fitted.figures.rated_speed_rpm, 1400.0);
    EXPECT_LT(fit.fitted.figures.rated_speed_rpm, 1500.0);
}

TEST(ANameplate, ThatLeavesLittleRoomIsStillFitted) {
    // The way from the usual motor to one of these leads over a ridge: other starts are needed.
    const std::string tight =
        "[nameplate]\nvoltage_V = 230\nfrequency_Hz = 50\nrated_load_current_A = 8\n"
        "locked_rotor_current_A = 52\nrun_capacitor_uF = 47\nshaft_power_W = 1380\n";
    expect_met(sim::fit_nameplate_text(tight, "tight.toml"));
}

TEST(ANameplate, OutsideItsClassMeetsWhatIsPrintedAndSaysSo) {
    // So small a capacitor starts nothing: no motor has 15 % of its rated torque with it.
    const NameplateFit fit = sim::fit_nameplate_text(
        sim_test::right_nameplate_with("run_capacitor_uF", "run_capacitor_uF = 12"), "unit.toml");
    EXPECT_FALSE(fit.bands_held);
    EXPECT_TRUE(meets_printed_figures(fit.motor_class, fit.fitted.figures));
    EXPECT_LT(fit.fitted.figures.locked_rotor_torque_share, 0.15);
    for (const sim::OpenRange& range : fit.open) {
        EXPECT_LE(range.lowest, range.fitted * (1 + 1e-5)) << range.name;
        EXPECT_GE(range.highest, range.fitted * (1 - 1e-5)) << range.name;
    }
}

TEST(ANameplate, GivesTheSameBytesTwice) {
    const std::string text = sim_test::outdoor_unit(4, 23.6, 120, 50);
    const std::string once = fit_json(sim::fit_nameplate_text(text, "unit.toml")).dump();
    // Another fit between them, which would leave a random generator elsewhere.
    sim::fit_nameplate_text(sim_test::right_nameplate(), "other.toml");
    EXPECT_EQ(fit_json(sim::fit_nameplate_text(text, "unit.toml")).dump(), once);
}

TEST(ANameplateInHorsepower, IsTheSameAsOneInWatts) {
    const auto in_watts = sim::fit_nameplate_text(
        sim_test::right_nameplate_with("shaft_power_W", "shaft_power_W = 2982.8"), "unit.toml");
    const auto in_hp = sim::fit_nameplate_text(
        sim_test::right_nameplate_with("shaft_power_W", "power_hp = 4"), "unit.toml");
    EXPECT_EQ(in_watts.fitted.motor.main_resistance_ohm, in_hp.fitted.motor.main_resistance_ohm);
    EXPECT_NEAR(in_hp.fitted.figures.shaft_power_W, 4 * 745.7, 0.3);
}

}  // namespace
