#include "firmware/learning/narrowing.hpp"

#include <algorithm>

#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

namespace {

constexpr std::int32_t lowest_permille = 100;
constexpr std::int32_t highest_permille = 1000;
/// The settled interval: between the lowest good and the highest weak level.
constexpr std::int32_t narrow_percent = 4;
/// The first start is the settings'; five trials halve the span from a tenth to that five times,
/// which leaves 4 % of a span of four to one.
constexpr std::uint8_t most_starts = 6;
/// A lower level must lower the current by this much to be worth it.
constexpr std::int32_t worthwhile_permille = 990;
/// Copper between -20 and 110 degrees C changes the locked-rotor current by less.
constexpr std::int32_t other_motor_permille = 250;
constexpr std::uint8_t starts_between_trials = 50;

Permille scaled(Permille value, std::int32_t percent) {
    return Permille{value.count() * percent / 100};
}

}  // namespace

Narrowing::Narrowing(const Settings& settings)
    : factory_(factory_ladder(settings)), in_time_ms_(settings.learning_in_time_ms) {}

Learned Narrowing::fresh() const {
    Learned learned;
    learned.level = factory_.stages[0].target;
    return learned;
}

Ladder Narrowing::ladder_for(const Learned& learned, MilliAmperes locked_rotor) const {
    Ladder ladder = factory_;
    // With a single stage there is nothing to fall back on within a start: no trials.
    if (learned.is_fresh() || factory_.count < 2 || is_other_motor(learned, locked_rotor)) {
        return ladder;
    }
    for (std::uint8_t i = 0; i < ladder.count; ++i) {
        ladder.stages[i].target = stage_target(learned, i);
    }
    return ladder;
}

// On trial the second stage is the lowest good level; above it, and without a trial, the stages
// keep the settings' proportions. The last one is never weaker than the settings'.
Permille Narrowing::stage_target(const Learned& learned, std::uint8_t stage) const {
    const bool on_trial = learned.good.count() > 0 && learned.level < learned.good;
    if (stage == 0) {
        return learned.level;
    }
    const Permille base = on_trial ? learned.good : learned.level;
    const std::uint8_t rung = static_cast<std::uint8_t>(on_trial ? stage - 1 : stage);
    const Permille proportional{base.count() * factory_.stages[rung].target.count() /
                                factory_.stages[0].target.count()};
    const bool is_last = stage + 1 == factory_.count;
    const Permille wanted =
        is_last ? std::max(proportional, factory_.stages[stage].target) : proportional;
    return std::min(wanted, Permille{highest_permille - (factory_.count - 1 - stage)});
}

bool Narrowing::is_other_motor(const Learned& learned, MilliAmperes locked_rotor) {
    const std::int64_t difference =
        std::int64_t{locked_rotor.count()} - learned.locked_rotor.count();
    const std::int64_t magnitude = difference < 0 ? -difference : difference;
    return magnitude * 1000 > std::int64_t{learned.locked_rotor.count()} * other_motor_permille;
}

Learned Narrowing::after(const Learned& learned, const StartReport& report) const {
    if (!report.came_up() && !ladder_was_too_weak(report.ended)) {
        return learned;
    }
    if (!learned.is_fresh() && is_other_motor(learned, report.locked_rotor)) {
        // Another motor, which this start met with the settings' ladder.
        return after(fresh(), report);
    }
    Learned next = learned;
    if (next.is_fresh()) {
        next.locked_rotor = report.locked_rotor;
    }
    if (next.starts < 255) {
        ++next.starts;
    }
    const bool in_time = report.came_up() && report.stage == 0 && report.climb_ms <= in_time_ms_;
    return in_time ? after_success(next, report) : after_weakness(next, report);
}

Learned Narrowing::after_success(Learned next, const StartReport& report) const {
    const bool less = next.inrush_at_good.count() == 0 ||
                      std::int64_t{report.inrush.count()} * 1000 <=
                          std::int64_t{next.inrush_at_good.count()} * worthwhile_permille;
    if (next.good.count() > 0 && next.level < next.good && !less) {
        next.weak = std::max(next.weak, next.level);
    } else {
        next.good = next.level;
        next.inrush_at_good = report.inrush;
    }
    choose_level(next);
    return next;
}

Learned Narrowing::after_weakness(Learned next, const StartReport& report) const {
    const bool was_on_trial = next.good.count() > 0 && next.level < next.good;
    const bool good_still_holds =
        was_on_trial && report.came_up() && report.stage <= 1 && report.climb_ms <= 2 * in_time_ms_;
    next.weak = std::max(next.weak, next.level);
    if (good_still_holds) {
        choose_level(next);
        return next;
    }
    // More at once: what brought the rotor up, or a quarter more than what did not.
    const Permille tried = stage_target(next, report.came_up() ? report.stage : 0);
    const Permille raised{std::max(tried.count(), next.level.count()) *
                          (report.came_up() && report.stage > 0 ? 100 : 125) / 100};
    next.weak = next.level;
    next.level = std::min(raised, Permille{highest_permille - factory_.count});
    next.good = Permille{0};
    next.inrush_at_good = MilliAmperes{0};
    if (next.settled) {
        next.settled = false;
        next.starts = 1;  // this one was the first of the new search
    }
    return next;
}

void Narrowing::choose_level(Learned& next) const {
    if (next.good.count() == 0) {
        return;
    }
    const std::int32_t good = next.good.count();
    const std::int32_t gap = good - next.weak.count();
    if (next.settled) {
        // After a trial, whatever it brought, the lowest good level is the one to use.
        const bool time_for_a_trial =
            next.starts >= starts_between_trials && next.level == next.good;
        next.level = next.good;
        if (time_for_a_trial) {
            next.level = scaled(next.good, 100 - narrow_percent);
            next.starts = 0;
        }
        return;
    }
    const bool narrow = gap * 100 <= good * narrow_percent;
    const bool at_the_bottom = good <= lowest_permille;
    if (narrow || at_the_bottom || next.starts >= most_starts) {
        next.level = next.good;
        next.settled = true;
        next.starts = 0;
        return;
    }
    // Halved in proportion: the geometric mean.
    const auto product =
        static_cast<std::uint32_t>(good * std::max(next.weak.count(), lowest_permille));
    next.level = Permille{static_cast<std::int32_t>(square_root(product))};
}

}  // namespace firmware
