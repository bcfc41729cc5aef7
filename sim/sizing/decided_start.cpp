#include "sim/sizing/decided_start.hpp"

#include <cmath>

namespace sim {

namespace {

constexpr double up_share = 0.90;
constexpr double turning_share = 0.02;
constexpr double up_for_s = 0.25;
constexpr double stuck_for_s = 1.5;

bool is_past_the_ramp(const TickView& view) {
    return view.controller == nullptr || view.controller->state == firmware::State::running;
}

}  // namespace

void DecidedStart::observe(const TickView& view) {
    const plant_models::PlantOutputs& plant = view.plant;
    const double share = plant.speed_rad_per_s / synchronous_rad_per_s_;
    if (std::abs(share) > turning_share) {
        last_turned_s_ = plant.time_s;
    }
    if (share < up_share || !plant.line_connected || !is_past_the_ramp(view)) {
        up_since_s_ = plant.time_s;
    }
    const bool feeds = view.controller != nullptr && firmware::feeds_motor(view.controller->state);
    const bool let_go = was_fed_ && view.controller != nullptr && !feeds;
    was_fed_ = was_fed_ || feeds;
    decided_ = decided_ || !plant.supply_trip.empty() || !plant.unit_trip.empty() || let_go ||
               plant.time_s - up_since_s_ > up_for_s || plant.time_s - last_turned_s_ > stuck_for_s;
}

}  // namespace sim
