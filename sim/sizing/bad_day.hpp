// A bad day: what is worse than on a normal one, drawn at random. Each figure is drawn by itself,
// evenly between its two ends (bad_day_figures(), which also says where the ends are from).
//
// A draw belongs to its number alone: the same seed and number give the same day on every supply,
// for every way of starting and in any order, so that what differs between two columns is not the
// luck of the draw. Generator: the 64-bit Mersenne twister of Boost.Random, seeded through its
// seed_seq with {seed, number}.
//
// A scenario's own conditions count where they are worse: a rest shorter, an ambient hotter.
// What is not drawn: the crank, which stays where the gas leaves it (the library's worst place),
// and anything that has failed (that is runup faults).
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace sim {

struct BadDay {
    double hotter_K = 0.0;  ///< ambient over the one of the unit's rating
    double rest_s = 0.0;
    double line_voltage_share = 1.0;         ///< grid and split phase
    double supply_share = 1.0;               ///< of surge and limit of inverters; of an engine
    double battery_voltage_share = 1.0;      ///< where the supply has one
    double battery_resistance_factor = 1.0;  ///< where the supply has one
    double run_capacitor_share = 1.0;
    double start_capacitor_factor = 1.0;
    double friction_factor = 1.0;
    double phase_deg = 0.0;  ///< of the line at which the contactor closes
};

struct BadDayFigure {
    std::string_view name;  ///< ends in its unit, if it has one
    double BadDay::*member;
    double lowest;
    double highest;
    std::string_view meaning;
    std::string_view origin;
};

const std::vector<BadDayFigure>& bad_day_figures();

BadDay drawn_bad_day(std::uint32_t seed, std::uint32_t number);

/// The scenario on that day.
Scenario on_bad_day(const Scenario& scenario, const BadDay& day);

}  // namespace sim
