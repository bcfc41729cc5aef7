#include "firmware/sequence/hand_over.hpp"

namespace firmware {

namespace {

// Swing of the voltage at S, of its highest value, that is calm enough. Phasor solutions: a swing
// of 10 % is one of 3 to 5 % in speed.
constexpr std::int32_t calm_swing_permille = 100;

// A sample of the current, of the RMS limit for a motor at speed, that tells of one that is not:
// the crest of a sine, and a quarter more.
constexpr Permille sudden_peak{1770};

// A line that jumps by more than this from one cycle to the next shakes the rotor. [judgement]
constexpr std::int32_t line_jump_permille = 80;

}  // namespace

HandOver::HandOver(const Settings& settings)
    : sweep_delay_(ticks_from_ms(settings.sweep_delay_ms)),
      release_(ticks_from_ms(settings.start_capacitor_release_ms)),
      confirm_limit_(ticks_from_ms(settings.confirm_limit_ms)),
      swing_limit_(ticks_from_ms(settings.swing_limit_ms)),
      bypass_settle_(ticks_from_ms(settings.bypass_settle_ms)),
      sweep_half_cycles_(settings.sweep_half_cycles),
      confirm_half_cycles_(settings.confirm_half_cycles),
      up_to_speed_(settings.up_to_speed_current_permille),
      up_to_speed_level_(settings.up_to_speed_voltage_permille * 10),
      start_capacitor_level_(settings.start_capacitor_in_permille * 10),
      full_conduction_(settings.full_conduction_angle_mdeg),
      start_capacitor_in_(Ticks{static_cast<std::uint32_t>(settings.fault_half_cycles)}) {}

void HandOver::begin(MilliAmperes locked_rotor, Orders& orders) {
    orders.start_capacitor = false;
    step_ = Step::start_capacitor_opens;
    clock_.restart();
    since_coil_off_.restart();
    swept_from_ = orders.firing_angle;
    half_cycles_ = 0;
    start_capacitor_in_.restart();
    current_limit_ = portion(locked_rotor, up_to_speed_);
    peak_limit_ = portion(current_limit_, sudden_peak);
}

Progress HandOver::step(const Observation& seen, Orders& orders) {
    clock_.tick();
    since_coil_off_.tick();
    since_up_.tick();
    since_full_conduction_.tick();
    switch (step_) {
        case Step::start_capacitor_opens:
            if (clock_.reached(sweep_delay_)) {
                step_ = Step::sweeping;
            }
            return Progress::going();
        case Step::sweeping:
            if (seen.readings_are_new) {
                sweep(orders);
            }
            return Progress::going();
        case Step::confirming:
            return confirm(seen, orders);
        case Step::bypass_closes:
            return close_bypass(seen, orders);
    }
    return Progress::going();
}

void HandOver::sweep(Orders& orders) {
    ++half_cycles_;
    const std::int32_t whole = full_conduction_.count() - swept_from_.count();
    orders.fire_at(MilliDegrees{swept_from_.count() + whole / sweep_half_cycles_ * half_cycles_});
    if (half_cycles_ >= sweep_half_cycles_) {
        orders.fire_at(full_conduction_);
        begin_confirming();
        since_full_conduction_.restart();
    }
}

bool HandOver::looks_up(const Observation& seen) const {
    const std::int32_t level = seen.readings.start_terminal_level;
    return seen.readings.output_current_rms < current_limit_ && level >= up_to_speed_level_ &&
           level < start_capacitor_level_;
}

void HandOver::count_calm_half_cycle(std::int32_t level) {
    if (half_cycles_ == 0 || level < lowest_level_) {
        lowest_level_ = level;
    }
    if (half_cycles_ == 0 || level > highest_level_) {
        highest_level_ = level;
    }
    ++half_cycles_;
    const std::int64_t swing = highest_level_ - lowest_level_;
    if (swing * 1000 > static_cast<std::int64_t>(highest_level_) * calm_swing_permille) {
        // It swings too far: what is seen from here on counts.
        lowest_level_ = level;
        highest_level_ = level;
        half_cycles_ = 1;
    }
}

// The contact travels for a good half cycle; what shows meanwhile can still stop it. The one-cycle
// readings are slow for that, so a single sample counts that no motor at speed gives.
bool HandOver::changed_its_mind(const Observation& seen) const {
    if (seen.output_current_now > peak_limit_) {
        return true;
    }
    const MilliVolts line = seen.readings.line_voltage_rms;
    const bool line_jumped = line < portion(line_at_order_, Permille{1000 - line_jump_permille}) ||
                             line > portion(line_at_order_, Permille{1000 + line_jump_permille});
    return seen.readings_are_new && (line_jumped || !looks_up(seen));
}

Progress HandOver::close_bypass(const Observation& seen, Orders& orders) {
    if (changed_its_mind(seen)) {
        orders.bypass = false;
        begin_confirming();
        return Progress::going();
    }
    if (!clock_.reached(bypass_settle_)) {
        return Progress::going();
    }
    orders.stop_firing();
    return Progress::finished();
}

void HandOver::begin_confirming() {
    step_ = Step::confirming;
    since_up_.restart();
    half_cycles_ = 0;
}

Progress HandOver::confirm(const Observation& seen, Orders& orders) {
    if (seen.readings_are_new) {
        if (start_capacitor_in_.tick(seen.readings.start_terminal_level >=
                                     start_capacitor_level_)) {
            return Progress::failed(Reason::start_capacitor_stuck_in);
        }
        if (looks_up(seen)) {
            since_up_.restart();
            count_calm_half_cycle(seen.readings.start_terminal_level);
        } else {
            half_cycles_ = 0;
        }
        // The two contacts never meet: the start capacitor's must have had its time to open.
        if (half_cycles_ >= confirm_half_cycles_ && since_coil_off_.reached(release_)) {
            orders.bypass = true;
            line_at_order_ = seen.readings.line_voltage_rms;
            step_ = Step::bypass_closes;
            clock_.restart();
            return Progress::going();
        }
    }
    const bool too_long =
        since_up_.reached(confirm_limit_) || since_full_conduction_.reached(swing_limit_);
    return too_long ? Progress::failed(Reason::not_up_on_full_line) : Progress::going();
}

}  // namespace firmware
