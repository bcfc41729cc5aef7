#include "firmware/recognition/run_up.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/quotient.hpp"

namespace firmware {

namespace {

// The RMS windows of the first three refreshes still hold the time before, or the contact's bounce.
constexpr std::uint32_t blind_half_cycles = 3;
constexpr std::uint32_t learned_after_half_cycles = blind_half_cycles + 2;

// What is beyond any motor is as good as this.
constexpr std::int64_t largest_ratio = 1000000000;

std::int32_t permille_of(std::int32_t part, std::int32_t whole) {
    return static_cast<std::int32_t>(
        smaller(quotient_of_product(part, 1000, whole), largest_ratio));
}

}  // namespace

RunUp::RunUp(const Settings& settings)
    : run_up_rise_(settings.run_up_rise_permille),
      sure_rise_(settings.sure_rise_permille),
      turning_rise_(settings.turning_rise_permille),
      accelerating_growth_permille_(settings.accelerating_growth_permille),
      accelerating_fall_permille_(settings.accelerating_fall_permille),
      turning_current_fall_permille_(settings.turning_current_fall_permille),
      growth_half_cycles_(static_cast<std::size_t>(settings.growth_half_cycles)),
      look_ahead_half_cycles_(settings.look_ahead_half_cycles) {}

void RunUp::begin() {
    levels_.fill(0);
    currents_.fill(0);
    observed_ = 0;
    standstill_level_ = 0;
    rise_ = Permille{1000};
    rise_ahead_ = Permille{1000};
    turning_ = false;
    accelerating_ = false;
    settled_half_cycles_ = 0;
    stage_began();
}

void RunUp::stage_began() {
    observed_in_stage_ = 0;
    stage_current_ = 0;
    current_has_fallen_ = false;
    settled_half_cycles_ = 0;
}

std::int32_t RunUp::recent(const History& history, std::size_t half_cycles_ago) const {
    // The mean of two neighbours: a window that holds a sample more or less than a half cycle
    // swings from one refresh to the next.
    const std::size_t at = newest_ + history_length - half_cycles_ago;
    return (history[at % history_length] + history[(at - 1) % history_length]) / 2;
}

void RunUp::observe(const Readings& readings) {
    newest_ = (newest_ + 1) % history_length;
    levels_[newest_] = readings.start_terminal_level;
    currents_[newest_] = readings.output_per_line_uS;
    ++observed_;
    ++observed_in_stage_;
    if (observed_ < learned_after_half_cycles) {
        return;
    }
    learn_standstill();
    judge_current();

    const std::int32_t now = recent(levels_, 0);
    rise_ = Permille{standstill_level_ > 0 ? permille_of(now, standstill_level_) : 1000};
    turning_ = rise_ >= turning_rise_ || current_has_fallen_;
    const std::int32_t per_two = larger(now - recent(levels_, 2), std::int32_t{0});
    const std::int32_t ahead = now + per_two * look_ahead_half_cycles_ / 2;
    rise_ahead_ =
        Permille{standstill_level_ > 0 && turning_ ? permille_of(ahead, standstill_level_) : 1000};

    if (observed_ < learned_after_half_cycles + growth_half_cycles_) {
        return;
    }
    // Two cycles apart: one torque pulsation of a compressor at low speed does not pass for growth.
    accelerating_ = voltage_grows() || current_falls();
    // A new stage gives a new acceleration: wait until it could have shown.
    const bool could_show = observed_in_stage_ >= blind_half_cycles + growth_half_cycles_;
    if (accelerating_ || !could_show) {
        settled_half_cycles_ = 0;
    } else if (settled_half_cycles_ < settled_after_half_cycles) {
        ++settled_half_cycles_;
    }
}

bool RunUp::voltage_grows() const {
    const std::int32_t before = recent(levels_, growth_half_cycles_);
    const std::int64_t growth = static_cast<std::int64_t>(recent(levels_, 0) - before) * 1000;
    return growth > static_cast<std::int64_t>(before) * accelerating_growth_permille_;
}

bool RunUp::current_falls() const {
    // Of one stage only: a new firing angle changes the current by itself.
    if (observed_in_stage_ <= blind_half_cycles + growth_half_cycles_) {
        return false;
    }
    const std::int32_t before = recent(currents_, growth_half_cycles_);
    const std::int64_t fall = static_cast<std::int64_t>(before - recent(currents_, 0)) * 1000;
    return fall > static_cast<std::int64_t>(before) * accelerating_fall_permille_;
}

void RunUp::learn_standstill() {
    const std::int32_t now = recent(levels_, 0);
    // The lowest value counts: what came before it was the contact still settling.
    if (standstill_level_ == 0 || now < standstill_level_) {
        standstill_level_ = now;
    }
}

void RunUp::judge_current() {
    const std::int32_t current = currents_[newest_];
    if (observed_in_stage_ <= blind_half_cycles) {
        return;
    }
    if (stage_current_ == 0) {
        stage_current_ = current;
    }
    const std::int64_t left =
        static_cast<std::int64_t>(stage_current_) * (1000 - turning_current_fall_permille_);
    current_has_fallen_ = static_cast<std::int64_t>(current) * 1000 < left;
}

}  // namespace firmware
