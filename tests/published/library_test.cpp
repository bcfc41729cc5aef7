// The bundled compressors against nameplates, standards and figures from outside of the project.
// Where a check is a judgement of the class rather than a publication, it says so.
#include "sim/library/library.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <string_view>
#include <variant>
#include <vector>

#include "library_plates.hpp"
#include "plant_models/motor/steady_state.hpp"

namespace {

using published::all_plates;
using published::invented_plates;
using published::locked_rotor_A;
using published::Plate;
using published::published_plates;
using published::RatedRun;
using published::run_at_rating;
using published::unit_named;
using published::watts_per_hp;

plant_models::SteadyState running_at(const plant_models::MotorParameters& motor, double slip) {
    return plant_models::steady_state(motor, {motor.rated_voltage_V, motor.rated_frequency_Hz},
                                      plant_models::run_connection(motor), slip);
}

/// The slip between standing light and 10 % at which `figure` passes `asked`.
template <class Figure>
plant_models::SteadyState running_where(const plant_models::MotorParameters& motor, double asked,
                                        Figure figure) {
    double low = 0.005;
    double high = 0.1;
    for (int k = 0; k < 60; ++k) {
        const double middle = 0.5 * (low + high);
        (figure(running_at(motor, middle)) < asked ? low : high) = middle;
    }
    return running_at(motor, low);
}

double line_A(const plant_models::SteadyState& point) {
    return std::abs(point.line_current_A);
}

bool starts_on_a_thermistor(std::string_view name) {
    return unit_named(name).motor.run_capacitor_uF == 0.0;
}

TEST(PublishedLibrary, EveryCompressorHasItsNameplateInThisTest) {
    for (const sim::LibraryEntry& entry : sim::library_compressors()) {
        const std::vector<Plate> plates = all_plates();
        EXPECT_TRUE(std::any_of(plates.begin(), plates.end(), [&entry](const Plate& plate) {
            return plate.name == entry.name;
        })) << entry.name;
    }
}

// The nameplates above. The invented ones are held as well as the published ones.
TEST(PublishedLibrary, LockedRotorCurrentsOfTheNameplatesAreMetWithinOnePercent) {
    for (const Plate& plate : all_plates()) {
        EXPECT_NEAR(locked_rotor_A(plate.name), plate.locked_rotor_A, 0.01 * plate.locked_rotor_A)
            << plate.name;
    }
}

// Locked-rotor over rated-load current of the published nameplates: 4.6 to 5.9 (seen; 141 / 30.8 is
// 4.58 and rounds to the lower one). The current of the running unit is simulated.
TEST(PublishedLibrary, ThePublishedUnitsDrawFourPointSixToFivePointNineTimesTheirRunningCurrent) {
    for (const Plate& plate : published_plates()) {
        const RatedRun run = run_at_rating(plate.name);
        EXPECT_EQ(run.outcome, sim::Outcome::running) << plate.name;
        EXPECT_NEAR(run.current_A, plate.rated_load_A, 0.01 * plate.rated_load_A) << plate.name;
        const double ratio = locked_rotor_A(plate.name) / run.current_A;
        EXPECT_GE(ratio, 4.55) << plate.name;
        EXPECT_LE(ratio, 5.95) << plate.name;
    }
}

// The same for the invented ones, whose ratios lie in 4.5 to 6 (judgement: the published range, and
// a little). A refrigerator's rated current is that of pulling down; at its rating it draws less.
TEST(PublishedLibrary, EveryUnitDrawsAboutItsRatedCurrentAtItsRating) {
    for (const Plate& plate : invented_plates()) {
        const RatedRun run = run_at_rating(plate.name);
        EXPECT_EQ(run.outcome, sim::Outcome::running) << plate.name;
        const double least = starts_on_a_thermistor(plate.name) ? 0.8 : 0.99;
        EXPECT_GE(run.current_A, least * plate.rated_load_A) << plate.name;
        EXPECT_LE(run.current_A, 1.01 * plate.rated_load_A) << plate.name;
        EXPECT_GE(plate.locked_rotor_A / plate.rated_load_A, 4.5) << plate.name;
        EXPECT_LE(plate.locked_rotor_A / plate.rated_load_A, 6.0) << plate.name;
    }
}

// Composite-load parameter sets for residential cooling units (seen): running power factor 0.97;
// stalled 0.71 to 0.74. One motor at its printed current is not the mean of a neighbourhood: 0.95
// to 0.99 and 0.58 to 0.74 are judgement. So are 2 to 6 % of slip.
TEST(PublishedLibrary, AtTheirRatedCurrentThePublishedUnitsHaveThePowerFactorOfTheirClass) {
    for (const Plate& plate : published_plates()) {
        const auto motor = unit_named(plate.name).motor;
        const auto rated = running_where(motor, plate.rated_load_A, line_A);
        EXPECT_NEAR(line_A(rated), plate.rated_load_A, 0.01 * plate.rated_load_A) << plate.name;
        EXPECT_GE(rated.power_factor, 0.95) << plate.name;
        EXPECT_LE(rated.power_factor, 0.99) << plate.name;
        EXPECT_GE(rated.slip, 0.02) << plate.name;
        EXPECT_LE(rated.slip, 0.06) << plate.name;
        const auto locked = running_at(motor, 1.0);
        EXPECT_GE(locked.power_factor, 0.58) << plate.name;
        EXPECT_LE(locked.power_factor, 0.74) << plate.name;
    }
}

/// NEMA MG 1 / NEC Table 430.7(B) (secondary): kVA per hp, half-open bands that begin here.
struct CodeLetter {
    char letter;
    double from_kVA_per_hp;
};
constexpr CodeLetter code_letters[] = {
    {'A', 0.0},  {'B', 3.15}, {'C', 3.55}, {'D', 4.0},  {'E', 4.5},  {'F', 5.0},  {'G', 5.6},
    {'H', 6.3},  {'J', 7.1},  {'K', 8.0},  {'L', 9.0},  {'M', 10.0}, {'N', 11.2}, {'P', 12.5},
    {'R', 14.0}, {'S', 16.0}, {'T', 18.0}, {'U', 20.0}, {'V', 22.4}};

char code_letter(double kVA_per_hp) {
    char letter = '?';
    for (const CodeLetter& band : code_letters) {
        if (kVA_per_hp >= band.from_kVA_per_hp) {
            letter = band.letter;
        }
    }
    return letter;
}

// A hermetic compressor is marked with its currents instead of a letter, so that no letter is
// prescribed; which letters are usual is judgement: D to L, the higher the smaller the motor.
TEST(PublishedLibrary, LockedRotorKilovoltamperesPerHorsepowerLieInTheCodeLetterOfTheNameplate) {
    for (const Plate& plate : all_plates()) {
        if (plate.hp == 0.0) {
            continue;
        }
        const double rated_V = unit_named(plate.name).motor.rated_voltage_V;
        const double kVA_per_hp = 1e-3 * rated_V * locked_rotor_A(plate.name) / plate.hp;
        EXPECT_EQ(code_letter(kVA_per_hp), plate.code_letter) << plate.name << ' ' << kVA_per_hp;
        EXPECT_GE(plate.code_letter, 'D') << plate.name;
        EXPECT_LE(plate.code_letter, 'L') << plate.name;
    }
}

/// Full-load currents of single-phase motors at 230 V, NEC Table 430.248 (secondary); at 115 V
/// twice as much (memory).
struct FullLoad {
    double hp;
    double at_230_A;
};
constexpr FullLoad full_load_currents[] = {{0.5, 4.9}, {0.75, 6.9}, {1, 8.0},  {1.5, 10}, {2, 12},
                                           {3, 17},    {5, 28},     {7.5, 40}, {10, 50}};

// The table is for motors of any kind, and a hermetic compressor's nameplate overrides it: what can
// be claimed is that a motor with a run capacitor, power factor above 0.95, needs less than the
// table says, and no less than its power does at the best power factor and efficiency that the
// class has (0.99 and 0.91, judgement). The current is the phasors' at the printed power.
TEST(PublishedLibrary, CurrentsAtPrintedHorsepowerStayBelowTheTableAndAboveWhatThePowerNeeds) {
    int compared = 0;
    for (const Plate& plate : all_plates()) {
        for (const FullLoad& row : full_load_currents) {
            if (row.hp != plate.hp) {
                continue;
            }
            const auto motor = unit_named(plate.name).motor;
            const auto rated = running_where(motor, plate.hp * watts_per_hp,
                                             [](const auto& point) { return point.shaft_power_W; });
            const double table_A = row.at_230_A * 230.0 / motor.rated_voltage_V;
            const double least_A = plate.hp * watts_per_hp / (motor.rated_voltage_V * 0.99 * 0.91);
            EXPECT_LT(line_A(rated), table_A) << plate.name;
            EXPECT_GT(line_A(rated), least_A) << plate.name;
            EXPECT_NEAR(line_A(rated), plate.rated_load_A, 0.01 * plate.rated_load_A) << plate.name;
            ++compared;
        }
    }
    EXPECT_GE(compared, 3);
}

double displacement_cm3(const sim::Scenario& unit) {
    if (const auto* load = std::get_if<plant_models::ReciprocatingParameters>(&unit.load)) {
        return load->displacement_cm3;
    }
    if (const auto* load = std::get_if<plant_models::RollingPistonParameters>(&unit.load)) {
        return load->displacement_cm3;
    }
    return std::get<plant_models::ScrollParameters>(unit.load).displacement_cm3;
}

// Ideal displacement per ton at 7.2 / 54.4 C and 3500 r/min: 10.7 cm3 (R410A) and 15.2 cm3 (R22),
// computed outside of this project. No unit can do with less. Displacements here were chosen from
// the rated current instead, so they agree only as far as nameplates do: 0.85 to 0.95 of the volume
// is filled, and a printed current is that of a load above the rating (both judgement), 30 % in
// all.
TEST(PublishedLibrary, DisplacementsLieAtMostThirtyPercentAboveTheIdealOnePerTon) {
    int compared = 0;
    for (const Plate& plate : all_plates()) {
        const sim::Scenario unit = unit_named(plate.name);
        const std::string_view gas = unit.refrigerant.gas;
        if (plate.tons == 0.0 || (gas != "R410A" && gas != "R22")) {
            continue;
        }
        EXPECT_EQ(unit.refrigerant.evaporating_C, 7.2) << plate.name;
        EXPECT_EQ(unit.refrigerant.condensing_C, 54.4) << plate.name;
        const double ideal_cm3 = plate.tons * (gas == "R410A" ? 10.7 : 15.2);
        const double at_3500_cm3 =
            displacement_cm3(unit) * run_at_rating(plate.name).speed_rpm / 3500.0;
        EXPECT_GE(at_3500_cm3, ideal_cm3) << plate.name;
        EXPECT_LE(at_3500_cm3, 1.3 * ideal_cm3) << plate.name;
        ++compared;
    }
    EXPECT_GE(compared, 10);
}

// N. Lu et al., "Air Conditioner Compressor Performance Model", PNNL-17796, 2008 (seen: abstract):
// rotor and compressor near 0.002 kg m2 for a 3.5 kVA two-pole unit, H about 0.04 s. In proportion
// to the size, within 30 % (judgement).
TEST(PublishedLibrary, InertiaOfTheTwoPoleOutdoorUnitsIsInProportionToThatOfTheTestedOnes) {
    for (const Plate& plate : published_plates()) {
        const auto motor = unit_named(plate.name).motor;
        const double usual = 0.002 * motor.rated_voltage_V * plate.rated_load_A / 3500.0;
        EXPECT_NEAR(motor.inertia_kg_m2, usual, 0.3 * usual) << plate.name;
    }
}

}  // namespace
