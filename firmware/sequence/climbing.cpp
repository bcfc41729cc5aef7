#include "firmware/sequence/climbing.hpp"

#include "firmware/gating/conduction.hpp"

namespace firmware {

Climbing::Climbing(const Settings& settings)
    : law_(settings), run_up_(settings), limit_(ticks_from_ms(settings.climb_limit_ms)) {}

void Climbing::begin(Orders& orders) {
    clock_.restart();
    stage_clock_.restart();
    run_up_.begin();
    const RampOrder order = law_.begin();
    stage_ = order.stage;
    orders.fire_at(firing_angle_for(order.target));
}

Progress Climbing::step(const Observation& seen, Orders& orders) {
    clock_.tick();
    stage_clock_.tick();
    if (clock_.reached(limit_)) {
        return Progress::failed(Reason::climb_too_long);
    }
    if (!seen.readings_are_new) {
        return Progress::going();
    }
    // Between half cycles no reading changes, so neither does any judgement.
    run_up_.observe(seen.readings);
    RampView view{};
    view.in_stage = stage_clock_.elapsed();
    view.turning = run_up_.turning();
    view.accelerating = run_up_.accelerating();
    view.settled = run_up_.settled();
    view.near_speed = run_up_.near_speed();
    view.up = run_up_.up();
    const RampOrder order = law_.step(view);
    switch (order.verdict) {
        case RampVerdict::hand_over:
            return Progress::finished();
        case RampVerdict::give_up:
            return Progress::failed(Reason::stages_used_up);
        case RampVerdict::climb:
            break;
    }
    follow(order, orders);
    return Progress::going();
}

void Climbing::follow(const RampOrder& order, Orders& orders) {
    // Open loop: a target becomes an angle by table, not by control of the measured current, which
    // holds the start capacitor's share and falls as the rotor gains speed.
    const MilliDegrees angle = firing_angle_for(order.target);
    if (angle != orders.firing_angle) {
        orders.fire_at(angle);
    }
    if (order.stage != stage_) {
        stage_ = order.stage;
        stage_clock_.restart();
        run_up_.stage_began();
    }
}

}  // namespace firmware
