// What a nameplate does not decide: inertia, load, displacement.
#include <gtest/gtest.h>

#include "fitting/nameplate_text.hpp"
#include "sim/fitting/five_digits.hpp"
#include "sim/fitting/inertia_estimate.hpp"
#include "sim/fitting/load_estimate.hpp"

namespace {

TEST(Inertia, OfAThreeAndAHalfKvaTwoPoleUnitIsThePublishedOne) {
    // PNNL-17796: about 0.002 kg m2 for a 3.5 kVA two-pole unit (seen in its abstract).
    sim::Nameplate plate;
    plate.voltage_V = 230;
    plate.frequency_Hz = 60;
    plate.rated_load_current_A = 3500.0 / 230.0;
    EXPECT_NEAR(sim::inertia_estimate(plate).usual_kg_m2, 0.002, 0.00005);
    plate.poles = 4;
    EXPECT_NEAR(sim::inertia_estimate(plate).usual_kg_m2, 0.008, 0.0002);
}

TEST(Load, TakesTheRatedTorqueAtTheRatedSpeed) {
    for (const char* kind : {"reciprocating", "rolling_piston", "scroll"}) {
        const auto fit = sim::fit_nameplate_text(
            sim_test::right_nameplate() + "compressor = \"" + kind + "\"\n", "unit.toml");
        const auto& load = fit.load;
        const double torque_Nm = load.constant_torque_Nm + load.square_torque_Nm;
        EXPECT_NEAR(torque_Nm, fit.fitted.figures.rated_torque_Nm, 1e-3 * torque_Nm);
        EXPECT_NEAR(load.reference_speed_rpm, fit.fitted.figures.rated_speed_rpm, 0.1);
        // The shaft's power, from the tables alone.
        EXPECT_NEAR(torque_Nm * load.reference_speed_rpm * 3.14159265 / 30.0, 3300.0, 3.0);
        EXPECT_GE(load.breakaway_torque_Nm, 0.0999 * torque_Nm) << kind;
        EXPECT_LE(load.breakaway_torque_Nm, 0.2501 * torque_Nm) << kind;
    }
}

TEST(Displacement, NeedsACapacityACompressorAndAKnownGas) {
    const std::string base = sim_test::outdoor_unit(1, 6.0, 30, 25);
    const auto of = [&base](const std::string& more) {
        return sim::fit_nameplate_text(base + more, "unit.toml").displacement_cm3;
    };
    EXPECT_FALSE(of(""));
    EXPECT_FALSE(of("compressor = \"scroll\"\n"));
    EXPECT_FALSE(of("compressor = \"scroll\"\ngas = \"R290\"\n"));
    // Per ton at 3500 r/min: 10.7 and 15.2 cm3 with an ideal cycle (computed), over 0.9.
    const auto r410a = of("compressor = \"scroll\"\ngas = \"R410A\"\n");
    const auto r22 = of("compressor = \"scroll\"\ngas = \"R22\"\n");
    ASSERT_TRUE(r410a && r22);
    EXPECT_NEAR(*r22 / *r410a, 15.2 / 10.7, 0.001);
    EXPECT_NEAR(*r410a, 10.7 / 0.9, 0.04 * 10.7 / 0.9);
}

TEST(FiveDigits, AreKept) {
    EXPECT_EQ(sim::five_digits(0.0), 0.0);
    EXPECT_EQ(sim::five_digits(123456.7), 123460.0);
    EXPECT_EQ(sim::five_digits(0.000227864), 0.00022786);
    EXPECT_EQ(sim::five_digits(-1.0000049), -1.0);
}

}  // namespace
