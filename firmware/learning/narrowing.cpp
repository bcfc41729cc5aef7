#include "firmware/learning/narrowing.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

namespace {

constexpr std::int32_t lowest_permille = 100;
constexpr std::int32_t highest_permille = 1000;
/// From one fallback stage to the next.
constexpr std::int32_t stage_ratio_percent = 118;
/// Between the lowest good and the highest weak level.
constexpr std::int32_t narrow_percent = 4;
constexpr std::int32_t settled_reserve_percent = 3;
constexpr std::int32_t miss_raise_percent = 4;
constexpr std::uint8_t most_misses = 2;
constexpr std::uint8_t most_starts = 6;
constexpr std::uint8_t starts_between_trials = 50;
/// A lower level must lower the current by this much to be worth it.
constexpr std::int32_t worthwhile_permille = 990;
/// Copper between -20 and 110 degrees C changes the locked-rotor current by less.
constexpr std::int32_t other_motor_permille = 250;

constexpr Permille scaled(Permille value, std::int32_t percent) {
    return Permille{value.count() * percent / 100};
}

Permille geometric_mean(Permille a, Permille b) {
    const auto product = static_cast<std::uint32_t>(a.count() * b.count());
    return Permille{static_cast<std::int32_t>(square_root(product))};
}

}  // namespace

Narrowing::Narrowing(const Settings& settings)
    : factory_(factory_ladder(settings)), in_time_ms_(settings.learning_in_time_ms) {}

Permille Narrowing::fallback(const Learned& learned) const {
    if (learned.level < learned.good) {
        return learned.sure.count() > 0 ? smaller(learned.good, learned.sure) : learned.good;
    }
    const Permille enough = learned.good.count() > 0 ? learned.good : learned.sure;
    return larger(enough, scaled(learned.level, stage_ratio_percent));
}

/// Of the controller's bounds, with room for the stages above the first.
Permille Narrowing::within_reach(std::int32_t permille) const {
    return Permille{smaller(permille, highest_permille - (factory_.count - 1))};
}

Ladder Narrowing::ladder_for(const Learned& learned, MilliAmperes locked_rotor) const {
    const bool as_set = learned.is_fresh() || learned.level.count() == 0 ||
                        // With a single stage there is nothing to fall back on within a start.
                        factory_.count < 2 || is_other_motor(learned, locked_rotor);
    if (as_set) {
        return factory_;
    }
    Ladder ladder = factory_;
    ladder.stages[0] = {within_reach(learned.level.count()), ticks_from_ms(in_time_ms_), true};
    Permille target = fallback(learned);
    for (std::uint8_t i = 1; i < ladder.count; ++i) {
        const bool is_last = i + 1 == ladder.count;
        // The last stage is never weaker than the settings'.
        const Permille wanted = is_last ? larger(target, factory_.stages[i].target) : target;
        const Permille above_the_one_before{ladder.stages[i - 1U].target.count() + 1};
        const Permille highest{highest_permille - (ladder.count - 1 - i)};
        ladder.stages[i].target = smaller(larger(wanted, above_the_one_before), highest);
        target = scaled(target, stage_ratio_percent);
    }
    return ladder;
}

bool Narrowing::is_other_motor(const Learned& learned, MilliAmperes locked_rotor) {
    const std::int64_t difference =
        std::int64_t{locked_rotor.count()} - learned.locked_rotor.count();
    const std::int64_t magnitude = difference < 0 ? -difference : difference;
    return magnitude * 1000 > std::int64_t{learned.locked_rotor.count()} * other_motor_permille;
}

bool Narrowing::in_time(const StartReport& report) const {
    return report.came_up() && report.stage == 0 && report.climb_ms <= in_time_ms_;
}

Learned Narrowing::after(const Learned& learned, const StartReport& report) const {
    if (!report.came_up() && !ladder_was_too_weak(report.ended)) {
        return learned;
    }
    Learned next = learned;
    if (!learned.is_fresh() && is_other_motor(learned, report.locked_rotor)) {
        next = fresh();
    }
    if (next.is_fresh()) {
        next.locked_rotor = report.locked_rotor;
        next.starts = 1;
        return after_settings_ladder(next, report);
    }
    if (next.starts < 255) {
        ++next.starts;
    }
    if (next.settled) {
        return after_settled_start(next, report);
    }
    if (next.level.count() == 0) {
        return after_settings_ladder(next, report);
    }
    return in_time(report) ? after_good_trial(next, report) : after_weak_trial(next, report);
}

Learned Narrowing::after_settings_ladder(Learned next, const StartReport& report) const {
    if (!report.came_up()) {
        return next;  // nothing is known but that the settings' ladder is not enough today
    }
    if (report.climb_ms <= in_time_ms_) {
        next.inrush_of_settings = report.inrush;
    }
    next.sure = factory_.stages[report.stage].target;
    if (in_time(report)) {
        next.good = next.sure;
        next.inrush_at_good = report.inrush;
        choose_level(next);
        return next;
    }
    // The stages before were given up after their dwell, which is shorter than a trial's: they may
    // yet do, down to a little below the first.
    next.weak = scaled(factory_.stages[0].target, 85);
    const Permille before =
        report.stage > 0 ? factory_.stages[report.stage - 1U].target : next.weak;
    next.level = geometric_mean(before, next.sure);
    return next;
}

Learned Narrowing::after_good_trial(Learned next, const StartReport& report) const {
    const bool less = next.inrush_at_good.count() == 0 ||
                      std::int64_t{report.inrush.count()} * 1000 <=
                          std::int64_t{next.inrush_at_good.count()} * worthwhile_permille;
    if (less) {
        next.good = next.level;
        next.inrush_at_good = report.inrush;
    } else {
        next.weak = larger(next.weak, next.level);
    }
    choose_level(next);
    return next;
}

Learned Narrowing::after_weak_trial(Learned next, const StartReport& report) const {
    next.weak = larger(next.weak, next.level);
    if (!report.came_up() || report.stage > 1) {
        return search_anew(next, report);
    }
    if (next.good.count() > 0) {
        choose_level(next);
        return next;
    }
    // The fallback did it with the rotor already moving; by itself it may need a little more.
    const bool near = next.weak.count() * (100 + narrow_percent) >= next.sure.count() * 100;
    const Permille more = near ? scaled(next.sure, 110) : geometric_mean(next.weak, next.sure);
    next.level = within_reach(more.count());
    return next;
}

Learned Narrowing::after_settled_start(Learned next, const StartReport& report) const {
    const bool on_trial = next.level.count() > 0 && next.level < next.good;
    // The settings' ladder may use all of its stages, as long as it is in time.
    const bool enough = next.level.count() == 0 ? report.came_up() && report.climb_ms <= in_time_ms_
                                                : in_time(report);
    if (on_trial) {
        if (enough) {
            next.good = next.level;
            next.inrush_at_good = report.inrush;
        }
        settle(next);
        return next;
    }
    if (enough) {
        next.misses = 0;
        if (next.level.count() > 0 && draws_no_less_than_settings(next, report.inrush)) {
            next.level = Permille{0};
            return next;
        }
        if (next.starts >= starts_between_trials && next.good.count() > 0) {
            next.level = scaled(next.good, 100 - narrow_percent);
            next.starts = 0;
        }
        return next;
    }
    ++next.misses;
    if (next.misses >= most_misses || !report.came_up() || report.stage > 1 ||
        next.level.count() == 0) {
        return search_anew(next, report);
    }
    next.good = within_reach(scaled(next.good, 100 + miss_raise_percent).count());
    next.level = within_reach(scaled(next.level, 100 + miss_raise_percent).count());
    return next;
}

/// More at once: what brought the rotor up, or a quarter more than what did not.
Learned Narrowing::search_anew(Learned next, const StartReport& report) const {
    const Permille tried = next.level.count() > 0 ? next.level : factory_.stages[0].target;
    Permille enough = scaled(tried, 125);
    if (report.came_up() && report.stage > 0) {
        enough = ladder_for(next, report.locked_rotor).stages[report.stage].target;
    }
    if (next.settled) {
        next.settled = false;
        next.starts = 1;  // this one was the first of the new search
        // Another day: what the settings' ladder drew on the old one says nothing.
        next.inrush_of_settings = MilliAmperes{0};
    }
    next.misses = 0;
    next.weak = tried;
    next.good = Permille{0};
    next.inrush_at_good = MilliAmperes{0};
    next.sure = within_reach(enough.count());
    next.level = next.sure;
    return next;
}

bool Narrowing::draws_no_less_than_settings(const Learned& learned, MilliAmperes inrush) {
    return learned.inrush_of_settings.count() > 0 && inrush >= learned.inrush_of_settings;
}

void Narrowing::choose_level(Learned& next) const {
    const std::int32_t good = next.good.count();
    const std::int32_t gap = good - next.weak.count();
    const bool narrow = gap * 100 <= good * narrow_percent;
    if (narrow || good <= lowest_permille || next.starts >= most_starts) {
        settle(next);
        return;
    }
    next.level = geometric_mean(next.good, larger(next.weak, Permille{lowest_permille}));
}

void Narrowing::settle(Learned& next) const {
    const MilliAmperes with_reserve =
        portion(next.inrush_at_good, Permille{1000 + 10 * settled_reserve_percent});
    next.level = draws_no_less_than_settings(next, with_reserve)
                     ? Permille{0}
                     : within_reach(scaled(next.good, 100 + settled_reserve_percent).count());
    next.settled = true;
    next.starts = 0;
    next.misses = 0;
}

}  // namespace firmware
