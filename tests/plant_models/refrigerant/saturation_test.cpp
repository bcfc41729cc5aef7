#include "plant_models/refrigerant/saturation.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "plant_models/refrigerant/cooling_rating.hpp"

namespace {

using plant_models::Gas;
using plant_models::gas_named;
using plant_models::gas_words;

TEST(Saturation, ListsTheFiveGasesAndFindsEachByItsWord) {
    const std::vector<std::string_view> expected = {"R410A", "R22", "R134a", "R290", "R32"};
    EXPECT_EQ(gas_words(), expected);
    for (const auto word : gas_words()) {
        EXPECT_EQ(gas_named(word).word, word);
    }
}

TEST(Saturation, PressureRisesWithTemperatureOverTheWholeRange) {
    for (const auto word : gas_words()) {
        const Gas& gas = gas_named(word);
        double before = 0.0;
        for (double t = -45.0; t <= highest_saturation_C(gas); t += 0.25) {
            const double p = saturation_pressure_kPa(gas, t);
            EXPECT_GT(p, before) << word << ' ' << t;
            EXPECT_LT(p, gas.critical_pressure_kPa) << word << ' ' << t;
            before = p;
        }
    }
}

TEST(Saturation, TemperatureIsTheInverseOfPressure) {
    for (const auto word : gas_words()) {
        const Gas& gas = gas_named(word);
        for (double t = -45.0; t <= highest_saturation_C(gas); t += 1.7) {
            EXPECT_NEAR(saturation_temperature_C(gas, saturation_pressure_kPa(gas, t)), t, 1e-9)
                << word;
        }
    }
}

TEST(Saturation, SlopeIsTheDerivativeOfPressure) {
    for (const auto word : gas_words()) {
        const Gas& gas = gas_named(word);
        for (double t = -40.0; t < 68.0; t += 6.0) {
            const double difference =
                (saturation_pressure_kPa(gas, t + 1e-3) - saturation_pressure_kPa(gas, t - 1e-3)) /
                2e-3;
            EXPECT_NEAR(saturation_pressure_slope_kPa_per_K(gas, t), difference, 1e-6 * difference)
                << word << ' ' << t;
        }
    }
}

TEST(Saturation, ArgumentsBeyondTheValidRangeAreHeldAtItsBounds) {
    const Gas& gas = gas_named("R410A");
    EXPECT_EQ(saturation_pressure_kPa(gas, 500.0), saturation_pressure_kPa(gas, 75.0));
    EXPECT_EQ(saturation_pressure_kPa(gas, -200.0), saturation_pressure_kPa(gas, -45.0));
    EXPECT_NEAR(saturation_temperature_C(gas, 1e9), highest_saturation_C(gas), 1e-9);
    EXPECT_NEAR(saturation_temperature_C(gas, 1e-9), -45.0, 1e-9);
}

TEST(Saturation, ThinVapourIsAnIdealGas) {
    for (const auto word : gas_words()) {
        const Gas& gas = gas_named(word);
        const double ideal = 1.0 * gas.molar_mass_g_per_mol / (8.31446 * 300.0);
        EXPECT_NEAR(vapour_density_kg_per_m3(gas, 1.0, 26.85), ideal, 0.001 * ideal) << word;
    }
}

TEST(Saturation, DisplacementIsInProportionToCapacityAndInverseToSpeed) {
    const Gas& gas = gas_named("R22");
    const double base = displacement_cm3(gas, {3517.0, 7.2, 54.4, 3500.0});
    EXPECT_NEAR(displacement_cm3(gas, {7034.0, 7.2, 54.4, 3500.0}), 2.0 * base, 1e-9 * base);
    EXPECT_NEAR(displacement_cm3(gas, {3517.0, 7.2, 54.4, 1750.0}), 2.0 * base, 1e-9 * base);
    EXPECT_GT(displacement_cm3(gas, {3517.0, -23.3, 54.4, 3500.0}), 2.5 * base);
}

}  // namespace
