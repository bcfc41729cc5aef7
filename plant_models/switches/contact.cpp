#include "plant_models/switches/contact.hpp"

#include <cmath>

namespace plant_models {

namespace {

Instant milliseconds(double value_ms) {
    return Instant(static_cast<Instant::rep>(std::llround(1e6 * value_ms)));
}

/// Alternately touch and part; per cent of the bounce time.
constexpr std::array<int, 5> bounce_percent = {0, 30, 50, 75, 100};

}  // namespace

ContactTiming ContactTiming::from_milliseconds(double close_ms, double open_ms, double bounce_ms) {
    return {milliseconds(close_ms), milliseconds(open_ms), milliseconds(bounce_ms)};
}

void Contact::command(bool coil_on, Instant now) {
    if (coil_on == coil_on_) {
        return;
    }
    coil_on_ = coil_on;
    travel(now);
}

void Contact::set_condition(ContactCondition condition, Instant now) {
    if (condition == condition_) {
        return;
    }
    const bool was_stuck = condition_ != ContactCondition::whole;
    condition_ = condition;
    // Welding takes nothing from a contact that is on its way.
    if (condition != ContactCondition::welds || was_stuck || touching_) {
        travel(now);
    }
}

/// Plans the edges that lead from here to where coil and condition want the contact.
void Contact::travel(Instant now) {
    next_ = 0;
    count_ = 0;
    if (condition_ == ContactCondition::stuck_closed ||
        condition_ == ContactCondition::stuck_open) {
        if (touching_ != (condition_ == ContactCondition::stuck_closed)) {
            edges_[count_++] = now;
        }
        return;
    }
    if (touching_ && condition_ == ContactCondition::welds) {
        return;
    }
    if (!coil_on_) {
        if (touching_) {
            edges_[count_++] = now + timing_.open;
        }
        return;
    }
    if (touching_) {
        return;
    }
    const std::size_t edges = timing_.bounce.count() > 0 ? bounce_percent.size() : 1;
    for (std::size_t k = 0; k < edges; ++k) {
        edges_[count_++] = now + timing_.close + timing_.bounce * bounce_percent[k] / 100;
    }
}

void Contact::take_edge() {
    touching_ = !touching_;
    ++next_;
    if (touching_ && condition_ == ContactCondition::welds) {
        count_ = next_;
    }
}

}  // namespace plant_models
