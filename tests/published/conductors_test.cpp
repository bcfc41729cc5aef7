// Conductors against printed tables and against the metal they are made of.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "plant_models/wiring/conductor.hpp"

namespace {

using plant_models::Conductor;
using plant_models::ConductorMaterial;
using plant_models::find_conductor;

constexpr auto copper = ConductorMaterial::copper;
constexpr auto aluminium = ConductorMaterial::aluminium;

double resistance(std::string_view size, ConductorMaterial material, double temperature_C) {
    const Conductor* conductor = find_conductor(size);
    EXPECT_NE(conductor, nullptr) << size;
    return conductor == nullptr ? 0.0 : conductor->resistance_ohm_per_km(material, temperature_C);
}

struct Printed {
    std::string_view size;
    double ohm_per_km;
    double half_a_digit;
};

// NEC (NFPA 70), chapter 9, table 8, direct current at 75 C, uncoated copper, solid up to 8 AWG
// (secondary: pages that quote the table per kilometre).
TEST(PublishedConductors, CopperGaugesHaveTheResistanceOfNecTable8) {
    for (const Printed& row : std::vector<Printed>{{"12 AWG", 6.33, 0.005},
                                                   {"10 AWG", 3.97, 0.005},
                                                   {"8 AWG", 2.51, 0.005},
                                                   {"6 AWG", 1.61, 0.005},
                                                   {"4 AWG", 1.01, 0.005},
                                                   {"2 AWG", 0.636, 0.0005},
                                                   {"1/0 AWG", 0.400, 0.0005}}) {
        EXPECT_NEAR(resistance(row.size, copper, 75.0), row.ohm_per_km, row.half_a_digit)
            << row.size;
    }
}

// The same table's aluminium column (secondary).
TEST(PublishedConductors, AluminiumGaugesHaveTheResistanceOfNecTable8) {
    for (const Printed& row : std::vector<Printed>{{"12 AWG", 10.433, 0.0006},
                                                   {"8 AWG", 4.134, 0.0006},
                                                   {"4 AWG", 1.667, 0.0006},
                                                   {"2 AWG", 1.047, 0.0006},
                                                   {"1/0 AWG", 0.659, 0.0006},
                                                   {"4/0 AWG", 0.328, 0.0006}}) {
        EXPECT_NEAR(resistance(row.size, aluminium, 75.0), row.ohm_per_km, row.half_a_digit)
            << row.size;
    }
}

// Diameter of the gauge by its definition (ASTM B258), 0.127 mm x 92^((36 - n) / 39), and copper of
// 100 % IACS, 17.241 nohm m at 20 C with 0.00393 per K. A strand's lay adds 2 %.
TEST(PublishedConductors, CopperGaugesFollowFromTheirDiameterAndTheResistivityOfCopper) {
    const std::vector<std::pair<std::string_view, int>> gauges = {
        {"14 AWG", 14},  {"12 AWG", 12},  {"10 AWG", 10}, {"8 AWG", 8}, {"6 AWG", 6},
        {"4 AWG", 4},    {"3 AWG", 3},    {"2 AWG", 2},   {"1 AWG", 1}, {"1/0 AWG", 0},
        {"2/0 AWG", -1}, {"3/0 AWG", -2}, {"4/0 AWG", -3}};
    for (const auto& [size, number] : gauges) {
        const double diameter_mm = 0.127 * std::pow(92.0, (36.0 - number) / 39.0);
        const double area_mm2 = M_PI / 4.0 * diameter_mm * diameter_mm;
        const double solid = 17.241 / area_mm2 * (1.0 + 0.00393 * 55.0);
        const double strand = number > 6 ? 1.0 : 1.02;
        EXPECT_NEAR(resistance(size, copper, 75.0), strand * solid, 0.006 * solid) << size;
    }
}

// IEC 60228 class 2, largest resistance at 20 C (secondary). A conductor of the nominal area and
// 17.241 nohm m would have less, since the standard fixes the resistance and not the area.
TEST(PublishedConductors, AreasAreTheNominalOnesOfIec60228) {
    EXPECT_NEAR(resistance("2.5 mm2", copper, 20.0), 7.41, 1e-12);
    EXPECT_NEAR(resistance("16 mm2", aluminium, 20.0), 1.91, 1e-12);
    for (const Conductor& conductor : plant_models::conductors()) {
        if (conductor.size.find("mm2") == std::string_view::npos) {
            continue;
        }
        const double area_mm2 = std::stod(std::string(conductor.size));
        const double by_area = 17.241 / area_mm2;
        EXPECT_GT(conductor.resistance_ohm_per_km(copper, 20.0), 1.02 * by_area) << conductor.size;
        EXPECT_LT(conductor.resistance_ohm_per_km(copper, 20.0), 1.13 * by_area) << conductor.size;
        if (conductor.is_made_of(aluminium)) {
            // 28.264 / 17.241 = 1.639 at the same effective area.
            const double ratio = conductor.resistance_ohm_per_km(aluminium, 20.0) /
                                 conductor.resistance_ohm_per_km(copper, 20.0);
            EXPECT_NEAR(ratio, 1.639, 0.05) << conductor.size;
        }
    }
}

// R(T) = R75 [1 + 0.00323 (T - 75)] (secondary), for aluminium 0.00330 (recalled).
TEST(PublishedConductors, ResistanceFollowsTheTemperatureAsPrinted) {
    EXPECT_NEAR(resistance("10 AWG", copper, 25.0), 3.97 * (1.0 - 0.00323 * 50.0), 0.005);
    EXPECT_NEAR(resistance("4/0 AWG", aluminium, 25.0), 0.328 * (1.0 - 0.00330 * 50.0), 0.0005);
    // The coefficient at 20 C of the sizes by area describes the same metal.
    EXPECT_NEAR(resistance("6 mm2", copper, 75.0) / resistance("6 mm2", copper, 25.0),
                1.0 / (1.0 - 0.00323 * 50.0), 2e-4);
    EXPECT_NEAR(resistance("50 mm2", aluminium, 75.0) / resistance("50 mm2", aluminium, 25.0),
                1.0 / (1.0 - 0.00330 * 50.0), 2e-4);
}

// NEC chapter 9 table 9, plastic conduit, 60 Hz, ohm to neutral per kilometre (secondary).
TEST(PublishedConductors, InductanceIsTheReactanceOfNecTable9) {
    for (const Printed& row : std::vector<Printed>{{"14 AWG", 0.190, 0.0006},
                                                   {"12 AWG", 0.177, 0.0006},
                                                   {"10 AWG", 0.164, 0.0006},
                                                   {"6 AWG", 0.167, 0.0006},
                                                   {"2 AWG", 0.148, 0.0006},
                                                   {"1/0 AWG", 0.144, 0.0006}}) {
        const double reactance =
            2.0 * M_PI * 60.0 * 1e-3 * find_conductor(row.size)->inductance_mH_per_km;
        EXPECT_NEAR(reactance, row.ohm_per_km, row.half_a_digit) << row.size;
    }
}

}  // namespace
