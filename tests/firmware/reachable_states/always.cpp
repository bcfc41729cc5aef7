#include "reachable_states/always.hpp"

namespace reachable_states {

using namespace firmware;

namespace {

constexpr std::uint32_t never = 0xFFFFFFFFU;

constexpr std::uint32_t ms(std::int32_t value) {
    return static_cast<std::uint32_t>(value) * 10U;
}

std::uint32_t later(std::uint32_t ticks, std::uint32_t by) {
    return ticks > never - by ? never : ticks + by;
}

// Two records of nine words, one word per tick, and the erase of a page.
constexpr std::uint32_t ticks_to_write = 20;

// The longest half cycle that a tracked line can have: 42 Hz.
constexpr std::int32_t half_cycle_ms = 12;

std::uint32_t longest_in(State state, const Settings& s) {
    switch (state) {
        case State::probing:
            // Every look is taken at most twice, three half cycles apart; each begins with one.
            return ms(s.contactor_settle_ms + s.start_capacitor_settle_ms +
                      half_cycle_ms * (s.probe_half_cycles + s.inspection_half_cycles + 8));
        case State::climbing:
            return ms(s.climb_limit_ms);
        case State::handing_over:
            return ms(s.sweep_delay_ms + s.swing_limit_ms + s.bypass_settle_ms +
                      half_cycle_ms * (s.sweep_half_cycles + 2));
        case State::resting:
        case State::listening:
        case State::running:
        case State::backing_off:
        case State::locked_out:
            break;
    }
    return never;
}

}  // namespace

std::uint32_t Always::rest_ticks() const {
    return static_cast<std::uint32_t>(settings_->rest_before_retry_s) * 10000U + ms(50);
}

void Always::demand(bool holds, const char* rule) {
    if (!holds && broken_.empty()) {
        broken_ = rule;
    }
}

void Always::frame_is_legal(const SensorFrame& in, const ActuatorFrame& out) {
    const bool called = in.version == frame_version && in.call_for_cooling == 1;
    const bool gated = out.gate_off_us > out.gate_on_us;
    const bool permit = out.contactor_permit == 1;
    demand(out.version == frame_version && out.reserved == 0, "CT-01: header");
    demand(out.gate_on_us <= out.gate_off_us && out.gate_off_us <= 100, "CT-01: gate window");
    demand(out.start_capacitor_contact <= 1 && out.bypass_contact <= 1 && out.contactor_permit <= 1,
           "CT-01: a coil is neither on nor off");
    demand((out.status & 0xFF) < state_count && (out.status >> 8) < reason_count, "CT-01: status");
    demand(out.start_capacitor_contact == 0 || out.bypass_contact == 0,
           "CT-02: bypass together with start capacitor");
    demand(permit || (!gated && out.start_capacitor_contact == 0 && out.bypass_contact == 0),
           "CT-03: fed without permit");
    demand(called || !permit, "CT-03, CT-04, LG-01: permit without call");
    demand(feeds_motor(static_cast<State>(out.status & 0xFF)) == permit,
           "LG-02: state and permit disagree");
}

void Always::start_is_allowed(const Telemetry& told, bool store_says_rest_owed) {
    demand(since_fed_ >= rest_ticks(), "RT-01: fed before its rest was over");
    demand(tries_ < settings_->tries, "RT-03: fed though no try is left");
    demand(told.line_locked == 1, "LW-02: fed before the line is tracked");
    demand(told.line_voltage_rms_mV >= settings_->line_voltage_min_V * 1000 &&
               told.line_voltage_rms_mV <= settings_->line_voltage_max_V * 1000 &&
               told.line_frequency_mHz >= settings_->line_frequency_min_mHz &&
               told.line_frequency_mHz <= settings_->line_frequency_max_mHz,
           "LW-03: fed on a line that is not fit");
    demand(store_says_rest_owed, "ME-07: fed while the store does not say that a rest is owed");
}

void Always::states_follow_each_other(const Telemetry& told, bool call) {
    const std::uint32_t run_clears =
        static_cast<std::uint32_t>(settings_->run_clears_tries_s) * 10000U;
    const std::uint32_t clear = static_cast<std::uint32_t>(settings_->lockout_clear_s) * 10000U;
    in_state_ = told.state == state_ ? later(in_state_, 1) : 0;
    demand(in_state_ <= longest_in(told.state, *settings_), "CL-03, HO-07: a part takes too long");
    demand(told.state == State::locked_out || state_ != State::locked_out || call_away_ >= clear,
           "RT-03: a lock-out ended before the call has been away for long");
    demand(told.state != State::locked_out || !feeds_motor(state_) ||
               told.tries_made >= settings_->tries,
           "RT-03: locked out with a try left");
    demand(!(feeds_motor(state_) && !feeds_motor(told.state) && forbids_another_try(told.reason)) ||
               told.state == State::locked_out,
           "RT-06: another try after what forbids it");
    demand(told.tries_made <= settings_->tries, "RT-03: more tries than allowed");
    const bool ran = state_ == State::running && (!call || in_state_ + 1 >= run_clears);
    demand(told.tries_made >= tries_ || call_away_ >= clear || ran, "RT-02: a try was given back");
    demand(told.state != State::climbing || state_ != State::climbing || told.stage >= stage_,
           "CL-01: a stage was gone back");
    demand(!feeds_motor(told.state) || told.line_locked == 1, "LW-06: fed on a lost line");
    tries_stand_ = told.tries_made == tries_ && !feeds_motor(told.state) ? tries_stand_ + 1 : 0;
    tries_written_ = tries_stand_ > ticks_to_write ? told.tries_made : tries_written_;
    state_ = told.state;
    tries_ = told.tries_made;
    stage_ = told.stage;
}

void Always::contacts_keep_their_times(const ActuatorFrame& out, const Telemetry& told) {
    const bool capacitor = out.start_capacitor_contact == 1;
    const bool bypass = out.bypass_contact == 1;
    capacitor_in_ = capacitor ? capacitor_in_ + 1 : 0;
    demand(capacitor_in_ <=
               ms(settings_->start_capacitor_limit_ms - settings_->start_capacitor_release_ms),
           "HO-01: the start capacitor is in for too long");
    since_capacitor_ = capacitor ? 0 : later(since_capacitor_, 1);
    demand(
        !bypass || bypass_in_ > 0 || since_capacitor_ >= ms(settings_->start_capacitor_release_ms),
        "HO-03: the bypass does not wait for the start capacitor");
    demand(told.state != State::running || bypass, "HO-04: running without the bypass");
    demand(told.state != State::running || bypass_in_ >= ms(settings_->bypass_settle_ms),
           "HO-04: the gates go before the bypass has had its time");
    demand(!bypass || told.state == State::running || told.firing_angle_mdeg != 0,
           "HO-04: not gated while the bypass travels");
    bypass_in_ = bypass ? later(bypass_in_, 1) : 0;
    since_fed_ = out.contactor_permit == 1 ? 0 : later(since_fed_, 1);
    fed_ = out.contactor_permit == 1;
}

void Always::gate_keeps_its_angles(const ActuatorFrame& out, const Telemetry& told) {
    if (out.gate_off_us <= out.gate_on_us) {
        return;
    }
    demand(told.state == State::probing || told.state == State::climbing ||
               told.state == State::handing_over || told.firing_angle_mdeg != 0 ||
               bypass_in_ == ms(settings_->bypass_settle_ms),
           "HO-04: gated in a run");
    // The frequency told is that of the last half cycle: a tick ahead that is nothing.
    const std::uint32_t step = phase_step_from(MilliHertz{told.line_frequency_mHz}).count();
    const auto at = [&](std::uint32_t us) {
        return Phase{told.line_phase}.advanced(PhaseStep{step + step / 100U * us}).since_zero();
    };
    const HalfTurn end = at(out.gate_off_us);
    demand(end <= half_turn_from(MilliDegrees{175500}) && at(out.gate_on_us) <= end,
           "GT-03: gated from 175 degrees on or across a zero");
}

void Always::slept(std::uint32_t ticks, const Telemetry& told) {
    demand(!feeds_motor(told.state), "LG-01: fed in its sleep");
    const std::uint32_t clear = static_cast<std::uint32_t>(settings_->lockout_clear_s) * 10000U;
    call_away_ = later(call_away_, ticks);
    demand(told.state == State::locked_out || state_ != State::locked_out || call_away_ >= clear,
           "RT-03, RT-07: a lock-out ended in a sleep that was too short");
    demand(told.tries_made >= tries_ || call_away_ >= clear || state_ == State::running,
           "RT-02, RT-07: a try was given back in a sleep");
    since_fed_ = later(since_fed_, ticks);
    in_state_ = told.state == state_ ? later(in_state_, ticks) : 0;
    state_ = told.state;
    tries_ = told.tries_made;
    fed_ = false;
    capacitor_in_ = 0;
    since_capacitor_ = later(since_capacitor_, ticks);
    bypass_in_ = 0;
}

void Always::lost_power(bool store_damaged, const Telemetry& told) {
    const bool rest_was_owed = since_fed_ < rest_ticks();
    if (!store_damaged && rest_was_owed) {
        demand(told.tries_made >= tries_written_, "RT-05: a try was given back by a power cut");
    }
    tries_written_ = told.tries_made;
    tries_stand_ = 0;
    // A whole rest from here on, unless nothing is known any more.
    since_fed_ = store_damaged ? never : (rest_was_owed ? 0 : since_fed_);
    call_away_ = 0;
    in_state_ = 0;
    state_ = told.state;
    tries_ = told.tries_made;
    fed_ = false;
    capacitor_in_ = 0;
    since_capacitor_ = never;
    bypass_in_ = 0;
}

}  // namespace reachable_states
