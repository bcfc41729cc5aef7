#include "sim/sizing/decided_start.hpp"

namespace sim {

namespace {

constexpr double up_share = 0.90;
/// What a single cylinder takes off the speed within a turn is no setback.
constexpr double holds_share = 0.80;
/// The window of an inrush clamp.
constexpr double up_for_s = 0.10;
/// Less than this is a twitch.
constexpr double least_gain_share = 0.02;
constexpr double stuck_for_s = 1.0;

bool is_past_the_ramp(const TickView& view) {
    return view.controller == nullptr || view.controller->state == firmware::State::running;
}

}  // namespace

void DecidedStart::observe(const TickView& view) {
    const plant_models::PlantOutputs& plant = view.plant;
    const double share = plant.speed_rad_per_s / synchronous_rad_per_s_;
    if (share > highest_speed_share_ + least_gain_share) {
        highest_speed_share_ = share;
        last_gain_s_ = plant.time_s;
    }
    was_up_ = (was_up_ || share >= up_share) && share >= holds_share;
    if (!was_up_ || !plant.line_connected || !is_past_the_ramp(view)) {
        up_since_s_ = plant.time_s;
    }
    const bool feeds = view.controller != nullptr && firmware::feeds_motor(view.controller->state);
    const bool let_go = was_fed_ && view.controller != nullptr && !feeds;
    was_fed_ = was_fed_ || feeds;
    decided_ = decided_ || !plant.supply_trip.empty() || !plant.unit_trip.empty() || let_go ||
               (share >= up_share && plant.time_s - up_since_s_ > up_for_s) ||
               (!was_up_ && plant.time_s - last_gain_s_ > stuck_for_s);
}

}  // namespace sim
