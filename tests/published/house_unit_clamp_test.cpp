// What the trade reads on an inrush clamp at a unit of the size that serves a house, against what
// comes out of the generic ones of the library on a house's service.
//
// Common practice, no source: about 100 A as it starts directly, 25 to 30 A with a start limiter.
// "Of the size that serves a house" is taken to be 3 to 3.5 ton: their published nameplates have
// locked rotors of 90 and 96 A (seen). "About" is taken as 15 %, which is what lies between the
// nameplates of 3 and of 4 ton (90 to 120 A, seen). The units of 4 ton are above this class and
// come to 113 and 111 A directly, 35 and 36 A limited (computed).
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sim/sizing/sized_unit.hpp"
#include "sim/sizing/sizing_run.hpp"

namespace {

using sim::Way;

double clamp_A(const std::string& compressor, Way way) {
    const sim::Scenario unit =
        sim::on_supply(sim::read_sized_unit(compressor).unit,
                       sim::library_supply("house_service_240v_60hz").value());
    const sim::OneStart start = sim::decided_start_of(sim::brought_up(unit, way).value());
    EXPECT_TRUE(start.came_up) << compressor << ": " << start.ending;
    return start.clamp_A.value_or(0.0);
}

const std::vector<std::string> house_units = {"outdoor_3_ton_scroll", "outdoor_3_ton_reciprocating",
                                              "old_outdoor_3_5_ton_r22"};

TEST(HouseUnit, ReadsAboutOneHundredAmperesStartedDirectly) {
    for (const std::string& unit : house_units) {
        EXPECT_NEAR(clamp_A(unit, Way::directly), 100.0, 15.0) << unit;
    }
}

TEST(HouseUnit, ReadsTwentyFiveToThirtyAmperesThroughTheLimiter) {
    for (const std::string& unit : house_units) {
        const double reading_A = clamp_A(unit, Way::limiter);
        EXPECT_GE(reading_A, 25.0) << unit;
        EXPECT_LE(reading_A, 30.0) << unit;
    }
}

}  // namespace
