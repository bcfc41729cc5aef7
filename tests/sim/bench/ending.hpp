// The last instant of a run, made by hand, and what the bench says of it.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "sim/bench/verdict.hpp"

namespace sim_test {

/// Speeds of the hand-made instants are percent of it.
inline constexpr double hand_made_synchronous_rad_per_s = 100.0;

struct Ending {
    plant_models::PlantOutputs plant;
    firmware::Telemetry controller;
    bool call = true;
    double highest_speed_rpm = 900.0;
    bool has_limiter = true;
    double backwards_s = 0.25;  ///< long enough to be called so; the speed decides

    sim::Verdict verdict() const {
        return sim::judge({plant, call, hand_made_synchronous_rad_per_s, highest_speed_rpm,
                           has_limiter ? &controller : nullptr, backwards_s});
    }
};

inline void expect(const sim::Verdict& verdict, sim::Outcome outcome, const std::string& cause) {
    EXPECT_EQ(sim::word_of(verdict.outcome), sim::word_of(outcome));
    EXPECT_EQ(verdict.cause, cause);
}

}  // namespace sim_test
