// The ranges against another way to find motors that a nameplate allows: a random walk that knows
// nothing of gradients.
#include "sim/fitting/open_ranges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>

#include "fitting/nameplate_text.hpp"
#include "sim/fitting/acceptance.hpp"
#include "sim/fitting/usual_motor.hpp"

namespace {

using sim::Candidate;

double value_of(const Candidate& candidate, std::string_view name) {
    for (const auto& row : plant_models::MotorParameters::table()) {
        if (row.key == name) {
            return candidate.motor.*std::get<double plant_models::MotorParameters::*>(row.member);
        }
    }
    return name == "locked_rotor_torque_Nm" ? candidate.figures.locked_rotor_torque_Nm
                                            : candidate.figures.breakdown_torque_Nm;
}

/// A three-ton unit, what it allows, and the ranges under test.
struct Unit {
    sim::Nameplate plate =
        sim::parse_nameplate(sim_test::outdoor_unit(3, 17.6, 90, 40), "unit.toml");
    sim::MotorClass motor_class = sim::class_of(plate);
    sim::MotorSpace space{plate, motor_class};
    sim::UsualMotor usual = find_usual_motor(space, motor_class);
    std::vector<sim::OpenRange> ranges = find_open_ranges(space, motor_class, usual);

    const sim::OpenRange& range(std::string_view name) const {
        return *std::find_if(ranges.begin(), ranges.end(),
                             [name](const sim::OpenRange& one) { return one.name == name; });
    }
};

/// Steps along random directions from the last accepted motor. A step that leaves what is allowed,
/// or that `is_wanted` does not want, is not taken. Mersenne Twister and this arithmetic give the
/// same walk everywhere.
template <class IsWanted>
int walk(const Unit& unit, int steps, IsWanted is_wanted) {
    std::mt19937 random(7);
    std::vector<double> place = unit.usual.place;
    int accepted = 0;
    for (int k = 0; k < steps; ++k) {
        std::vector<double> next = place;
        const double reach = k % 3 == 0 ? 0.1 : k % 3 == 1 ? 0.02 : 0.004;
        for (double& side : next) {
            side += reach * (2.0 * static_cast<double>(random()) / 4294967295.0 - 1.0);
            side = std::clamp(side, 0.0, 1.0);
        }
        const Candidate candidate = unit.space.at(next.data());
        if (is_accepted(unit.motor_class, candidate) && is_wanted(candidate)) {
            ++accepted;
            place = next;
        }
    }
    return accepted;
}

TEST(OpenRanges, HoldEveryMotorThatARandomWalkFinds) {
    const Unit unit;
    const int accepted = walk(unit, 60000, [&unit](const Candidate& candidate) {
        for (const sim::OpenRange& range : unit.ranges) {
            if (range.is_parameter || range.name == "locked_rotor_torque_Nm" ||
                range.name == "breakdown_torque_Nm") {
                // A search may stop a little short of an end.
                const double room = 0.01 * (range.highest - range.lowest);
                EXPECT_GE(value_of(candidate, range.name), range.lowest - room) << range.name;
                EXPECT_LE(value_of(candidate, range.name), range.highest + room) << range.name;
            }
        }
        return true;
    });
    // Else the walk would have proved nothing.
    EXPECT_GT(accepted, 500);
}

TEST(OpenRanges, ReachBeyondEveryWalkThatClimbsTowardsAnEnd) {
    const Unit unit;
    for (const std::string_view name : {"main_resistance_ohm", "rotor_resistance_ohm",
                                        "magnetizing_reactance_ohm", "breakdown_torque_Nm"}) {
        for (const double direction : {1.0, -1.0}) {
            double best = direction * value_of(unit.usual.candidate, name);
            walk(unit, 20000, [&](const Candidate& candidate) {
                const double value = direction * value_of(candidate, name);
                const bool is_better = value > best;
                best = std::max(best, value);
                return is_better;
            });
            const sim::OpenRange& range = unit.range(name);
            const double room = 0.002 * (range.highest - range.lowest);
            const double end = direction > 0.0 ? range.highest : -range.lowest;
            EXPECT_GE(end, best - room) << name;
        }
    }
}

TEST(OpenRanges, ReachTheEndsOfTheBandsWhereNothingElseStopsThem) {
    const Unit unit;
    const auto expect_ends = [&unit](std::string_view name, double lowest, double highest) {
        const sim::OpenRange& range = unit.range(name);
        EXPECT_NEAR(range.lowest, lowest, 1e-4 * highest) << name;
        EXPECT_NEAR(range.highest, highest, 1e-4 * highest) << name;
    };
    expect_ends("locked_rotor_power_factor", 0.58, 0.74);
    expect_ends("rated_power_factor", 0.95, 0.99);
    expect_ends("efficiency", 0.78, 0.91);
    expect_ends("capacitor_voltage_ratio", 1.2, 1.9);
    expect_ends("rated_speed_rpm", 3600 * 0.94, 3600 * 0.98);
}

TEST(OpenRanges, AreWideWhereTheNameplateIsSilent) {
    const auto fit = sim::fit_nameplate_text(sim_test::outdoor_unit(3, 17.6, 90, 40), "unit.toml");
    for (const sim::OpenRange& range : fit.open) {
        if (range.name == "aux_resistance_ohm" || range.name == "locked_rotor_torque_Nm") {
            EXPECT_GT(range.highest, 2.0 * range.lowest) << range.name;
        }
    }
}

TEST(OpenRanges, AreThereForEveryParameterThatIsNotPrinted) {
    const auto fit = sim::fit_nameplate_text(sim_test::outdoor_unit(3, 17.6, 90, 40), "unit.toml");
    std::size_t parameters = 0;
    for (const sim::OpenRange& range : fit.open) {
        parameters += range.is_parameter ? 1 : 0;
        EXPECT_LT(range.lowest, range.highest) << range.name;
    }
    // All but poles, two ratings, the capacitor and its series resistance.
    EXPECT_EQ(parameters, plant_models::MotorParameters::table().size() - 5);
}

}  // namespace
