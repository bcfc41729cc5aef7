#include "plant_models/loads/scroll_pockets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "loads/scroll_bench.hpp"

namespace {

using plant_models::pi;
using plant_models::ScrollPockets;

constexpr double turn = ScrollPockets::turn_rad;
const ScrollPockets ours({32e-6, 2.6, 2.75});

TEST(ScrollPockets, BeginAsTheDisplacementAndEndAsTheBuiltInRatioSays) {
    EXPECT_DOUBLE_EQ(ours.outer_m3(0.0), 32e-6);
    EXPECT_DOUBLE_EQ(ours.forming_m3(turn), 32e-6);
    EXPECT_NEAR(ours.inner_m3(ours.opening_angle_rad()), 32e-6 / 2.6, 1e-18);
    EXPECT_NEAR(ours.discharge_volume_m3(), 32e-6 / 2.6, 1e-18);
    // (2 N - 1) pi (1 - 1 / v_r) = 498.5 deg
    EXPECT_NEAR((ours.opening_angle_rad() + turn) * 180.0 / pi, 498.461538, 1e-5);
}

TEST(ScrollPockets, OuterPairBecomesTheInnerOneAtTheTurnsEnd) {
    EXPECT_DOUBLE_EQ(ours.outer_m3(turn), ours.inner_m3(0.0));
}

TEST(ScrollPockets, NoVolumeIsLostWhenTheInnerPairOpensOrTheTurnEnds) {
    const double opening = ours.opening_angle_rad();
    EXPECT_NEAR(ours.central_m3(opening, false) + ours.inner_m3(opening),
                ours.central_m3(opening, true), 1e-18);
    EXPECT_NEAR(ours.central_m3(opening, false), 0.0, 1e-18);
    EXPECT_NEAR(ours.central_m3(turn, true), ours.central_m3(0.0, false), 1e-18);
}

TEST(ScrollPockets, SlopesAreThoseOfTheVolumes) {
    const double d = 0.1;
    EXPECT_NEAR(ours.outer_m3(1.0) - ours.outer_m3(1.0 + d), d * ours.closed_shrinking_m3_per_rad(),
                1e-18);
    EXPECT_NEAR(ours.central_m3(3.0, true) - ours.central_m3(3.0 + d, true),
                d * ours.central_shrinking_m3_per_rad(), 1e-18);
    EXPECT_NEAR(ours.forming_m3(1.0 + d) - ours.forming_m3(1.0),
                d * ours.forming_growth_m3_per_rad(), 1e-18);
}

/// Area between an involute and its copy that orbits at the distance `orbit`, between two contacts
/// a turn apart, the outer one at `contact` (base circle of radius 1), by the shoelace formula.
double crescent_area(double contact, double orbit) {
    struct Point {
        double x, y;
    };
    std::vector<Point> outline;
    const int pieces = 20000;
    const auto add = [&](double angle, bool orbiting) {
        Point p{std::cos(angle) + angle * std::sin(angle),
                std::sin(angle) - angle * std::cos(angle)};
        if (orbiting) {
            p.x += orbit * (std::sin(contact) - std::sin(angle));
            p.y += orbit * (std::cos(angle) - std::cos(contact));
        }
        outline.push_back(p);
    };
    for (int k = 0; k <= pieces; ++k) {
        add(contact - turn + turn * k / pieces, false);
    }
    for (int k = 0; k <= pieces; ++k) {
        add(contact - turn * k / pieces, true);
    }
    double twice = 0.0;
    for (std::size_t k = 0; k < outline.size(); ++k) {
        const Point& a = outline[k];
        const Point& b = outline[(k + 1) % outline.size()];
        twice += a.x * b.y - a.y * b.x;
    }
    return 0.5 * std::abs(twice);
}

// Independent of the formula: the outlines themselves.
TEST(ScrollPockets, ShrinkLikeTheCrescentsBetweenTwoInvolutes) {
    const double orbit = 2.2;
    const double slope = turn * orbit;  // of the area, per radian
    const double contact_at_zero = pi + 0.5 * orbit;
    const double contact = contact_at_zero + (2.0 * 2.75 - 1.0) * pi;
    const double largest = crescent_area(contact, orbit);
    EXPECT_NEAR(largest / slope, (2.0 * 2.75 - 1.0) * pi, 1e-4);
    for (double phi = 0.0; phi < turn; phi += 0.9) {
        EXPECT_NEAR(crescent_area(contact - phi, orbit) / largest,
                    ours.outer_m3(phi) / ours.displacement_m3(), 1e-6)
            << phi;
        EXPECT_NEAR(crescent_area(contact - phi - turn, orbit) / largest,
                    ours.inner_m3(phi) / ours.displacement_m3(), 1e-5)
            << phi;
    }
}

TEST(ScrollPockets, OpeningNeverFallsOnTheTurnsEnd) {
    // One turn of compression exactly, and two.
    for (const double turns : {1.0, 2.0}) {
        const ScrollPockets edge({30e-6, 2.0, 2.0 * turns + 0.5});
        EXPECT_GT(edge.opening_angle_rad(), 0.0);
        EXPECT_LT(edge.opening_angle_rad(), turn);
        EXPECT_NEAR(edge.discharge_volume_m3(), 15e-6, 1e-11);
    }
}

TEST(ScrollParameters, RefuseACompressionOutsideOneToTwoTurns) {
    auto scroll = support::three_ton_scroll();
    EXPECT_EQ(scroll.inconsistency(), "");
    scroll.wrap_turns = 2.0;
    EXPECT_EQ(scroll.inconsistency().substr(0, 10), "wrap_turns");
    scroll.wrap_turns = 4.0;
    EXPECT_EQ(scroll.inconsistency().substr(0, 10), "wrap_turns");
}

TEST(ScrollParameters, RefuseAPlenumThatIsTooSmallForTheModel) {
    auto scroll = support::three_ton_scroll();
    EXPECT_DOUBLE_EQ(scroll.plenum_m3(), 32e-6);
    scroll.plenum_volume_cm3 = 7.9;
    EXPECT_EQ(scroll.inconsistency().substr(0, 17), "plenum_volume_cm3");
    scroll.plenum_volume_cm3 = 8.1;
    EXPECT_EQ(scroll.inconsistency(), "");
    EXPECT_DOUBLE_EQ(scroll.plenum_m3(), 8.1e-6);
}

}  // namespace
