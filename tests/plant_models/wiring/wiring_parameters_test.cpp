#include "plant_models/wiring/wiring_parameters.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/wiring/conductor.hpp"

namespace {

using plant_models::series_impedance;
using plant_models::WiringParameters;

WiringParameters branch(std::string_view size, double length_m) {
    WiringParameters wiring;
    wiring.branch_size = size;
    wiring.branch_length_m = length_m;
    return wiring;
}

TEST(Wiring, NothingGivenIsNoImpedance) {
    const auto none = series_impedance(WiringParameters());
    EXPECT_EQ(none.resistance_ohm, 0.0);
    EXPECT_EQ(none.inductance_H, 0.0);
    EXPECT_TRUE(WiringParameters().inconsistency().empty());
}

// By hand: 2 x 60 m = 0.12 km of 10 AWG copper, 3.97 ohm/km at 75 C: 0.476 ohm. 25 A at power
// factor 1 lose 11.9 V, which is 5.2 % of 230 V. Reactance 0.164 ohm/km: 0.0197 ohm at 60 Hz.
TEST(Wiring, SixtyMetresOfTenGaugeDropWhatAHandCalculationSays) {
    const auto cable = series_impedance(branch("10 AWG", 60.0));
    EXPECT_NEAR(25.0 * cable.resistance_ohm, 11.9, 0.05);
    EXPECT_NEAR(2.0 * M_PI * 60.0 * cable.inductance_H, 0.0197, 0.0001);
}

// By hand: 0.12 km of 4 mm2 copper, 4.61 ohm/km at 20 C: 0.553 ohm; at 70 C 1.1965 times that.
TEST(Wiring, SixtyMetresOfFourSquareMillimetresDropWhatAHandCalculationSays) {
    WiringParameters wiring = branch("4 mm2", 60.0);
    wiring.conductor_temperature_C = 70.0;
    const auto cable = series_impedance(wiring);
    EXPECT_NEAR(cable.resistance_ohm, 0.6619, 0.0005);
    EXPECT_NEAR(2.0 * M_PI * 50.0 * cable.inductance_H, 0.0096, 1e-6);
}

TEST(Wiring, ServiceAndBranchAddUp) {
    WiringParameters both = branch("8 AWG", 20.0);
    both.service_size = "2/0 AWG";
    both.service_length_m = 35.0;
    both.material = "aluminium";
    both.conductor_temperature_C = 40.0;
    WiringParameters service = both;
    service.branch_size = "none";
    service.branch_length_m = 0.0;
    WiringParameters alone = both;
    alone.service_size = "none";
    alone.service_length_m = 0.0;
    const auto sum = series_impedance(both);
    EXPECT_DOUBLE_EQ(sum.resistance_ohm, series_impedance(service).resistance_ohm +
                                             series_impedance(alone).resistance_ohm);
    EXPECT_DOUBLE_EQ(sum.inductance_H,
                     series_impedance(service).inductance_H + series_impedance(alone).inductance_H);
    // 70 m of 0.5217 ohm/km and 40 m of 4.134 ohm/km, 35 K colder than the table.
    EXPECT_NEAR(sum.resistance_ohm, (0.070 * 0.5217 + 0.040 * 4.134) * (1.0 - 0.00330 * 35.0),
                1e-4);
}

TEST(Wiring, SizeAndLengthAreGivenTogetherOrNotAtAll) {
    EXPECT_TRUE(branch("10 AWG", 60.0).inconsistency().empty());
    EXPECT_EQ(branch("10 AWG", 0.0).inconsistency().substr(0, 11), "branch_size");
    EXPECT_EQ(branch("none", 60.0).inconsistency().substr(0, 11), "branch_size");
    WiringParameters wiring;
    wiring.service_size = "4/0 AWG";
    EXPECT_EQ(wiring.inconsistency().substr(0, 12), "service_size");
    wiring.service_length_m = 30.0;
    EXPECT_TRUE(wiring.inconsistency().empty());
}

TEST(Wiring, ThinMetricConductorsAreOfCopperOnly) {
    WiringParameters wiring = branch("6 mm2", 10.0);
    EXPECT_TRUE(wiring.inconsistency().empty());
    wiring.material = "aluminium";
    EXPECT_EQ(wiring.inconsistency().substr(0, 8), "material");
    wiring.branch_size = "10 mm2";
    EXPECT_TRUE(wiring.inconsistency().empty());
}

TEST(Wiring, EverySizeIsAWordAndEveryWordButNoneIsASize) {
    for (const auto& row : WiringParameters::word_table()) {
        if (row.key == "material") {
            continue;
        }
        EXPECT_EQ(row.words.size(), plant_models::conductors().size() + 1) << row.key;
        for (const std::string_view word : row.words) {
            EXPECT_EQ(plant_models::find_conductor(word) == nullptr, word == "none") << word;
        }
    }
}

TEST(Wiring, ThickerConductorsHaveLessResistance) {
    const plant_models::Conductor* thinner = nullptr;
    for (const auto& conductor : plant_models::conductors()) {
        if (thinner != nullptr && conductor.size != "1.5 mm2") {
            EXPECT_LT(conductor.copper_ohm_per_km, thinner->copper_ohm_per_km) << conductor.size;
            if (thinner->aluminium_ohm_per_km > 0.0) {
                EXPECT_LT(conductor.aluminium_ohm_per_km, thinner->aluminium_ohm_per_km)
                    << conductor.size;
            }
        }
        thinner = &conductor;
    }
}

}  // namespace
