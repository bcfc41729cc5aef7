#include "firmware/learning/easing.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

namespace {

constexpr std::int32_t as_set = 1000;
constexpr std::int32_t lowest_level = 250;
constexpr std::int32_t highest_level = 4000;
/// Where no stage above it is left to fall back on, an eased one would only fail.
constexpr std::uint8_t fewest_stages = 2;

// A step is the square root of the climb's time over this: at a given level the time goes about
// with the level's power of -1.6 (computed for the bundled compressors). A climb that takes much
// longer is near the level at which the rotor stays behind.
constexpr std::int32_t good_climb_ms = 450;
constexpr std::int32_t long_climb_ms = 600;
constexpr std::int32_t boldest_step_permille = 750;
constexpr std::int32_t careful_step_permille = 930;
constexpr std::int32_t strengthening_permille = 1400;
constexpr std::int32_t weakening_permille = 900;
/// A rotor that is up so soon is far from the level at which it stays behind: what was too weak for
/// it before was so on another day.
constexpr std::int32_t short_climb_ms = 300;
/// Of a raised first stage, the stages after it: each above the one before by this.
constexpr std::int32_t next_stage_permille = 1100;
/// Between the lowest good and the highest weak level.
constexpr std::int32_t narrow_permille = 80;
/// A lower level must lower the current by this much to be worth it.
constexpr std::int32_t worthwhile_permille = 975;
constexpr std::uint8_t most_starts = 6;

// Settled.
constexpr std::int32_t raise_permille = 1080;
constexpr std::uint8_t most_misses = 2;
constexpr std::uint8_t starts_between_trials = 50;
constexpr std::int32_t settled_trial_permille = 960;
/// Copper between -20 and 110 degrees C changes the locked-rotor current by less.
constexpr std::int32_t other_motor_permille = 250;
/// Of the time allowed: how long an eased first stage waits at most for the rotor to gain speed.
constexpr std::int32_t longest_dwell_percent = 50;

constexpr std::int32_t permille_of(std::int32_t value, std::int32_t permille) {
    return static_cast<std::int32_t>(std::int64_t{value} * permille / 1000);
}

std::int32_t strengthened(std::int32_t level) {
    return smaller(permille_of(level, strengthening_permille), highest_level);
}

std::int32_t halfway(Permille a, Permille b) {
    const auto product = static_cast<std::uint32_t>(a.count() * b.count());
    return static_cast<std::int32_t>(square_root(product));
}

void remember_good(Learned& learned, const StartReport& report) {
    learned.good = learned.level;
    learned.inrush_at_good = report.inrush;
    learned.peak_at_good = report.peak;
    learned.climb_ms_at_good = report.climb_ms;
    learned.stage_at_good = report.stage;
}

}  // namespace

Easing::Easing(const Settings& settings)
    : factory_(factory_ladder(settings)), in_time_ms_(settings.learning_in_time_ms) {}

Ladder Easing::ladder_for(const Learned& learned, MilliAmperes locked_rotor) const {
    const std::int32_t level = learned.level.count();
    if (level == as_set || factory_.count < fewest_stages ||
        is_other_motor(learned, locked_rotor)) {
        return factory_;
    }
    return level > as_set ? raised(level) : eased(level);
}

Ladder Easing::raised(std::int32_t level) const {
    Ladder ladder = factory_;
    std::int32_t wanted = permille_of(factory_.stages[0].target.count(), level);
    for (std::uint8_t i = 0; i < ladder.count; ++i) {
        // Room for the stages above, each of which must be stronger.
        const std::int32_t highest = 1000 - (ladder.count - 1 - i);
        Permille& target = ladder.stages[i].target;
        target = Permille{smaller(larger(target.count(), wanted), highest)};
        wanted = larger(permille_of(target.count(), next_stage_permille), target.count() + 1);
    }
    ladder.stages[0].dwell = larger(ladder.stages[0].dwell, longest_dwell());
    return ladder;
}

Ticks Easing::longest_dwell() const {
    return ticks_from_ms(in_time_ms_ * longest_dwell_percent / 100);
}

Ladder Easing::eased(std::int32_t level) const {
    Ladder ladder = factory_;
    const std::int32_t last = ladder.count - 1;
    for (std::uint8_t i = 0; i < ladder.count; ++i) {
        Permille& target = ladder.stages[i].target;
        const std::int32_t of_settings = as_set - (as_set - level) * (last - i) / last;
        target = Permille{permille_of(target.count(), of_settings)};
    }
    Ticks& dwell = ladder.stages[0].dwell;
    const Ticks longest = ticks_from_ms(in_time_ms_ * longest_dwell_percent / 100);
    dwell = larger(
        dwell, smaller(Ticks{dwell.count() * as_set / static_cast<std::uint32_t>(level)}, longest));
    return ladder;
}

bool Easing::is_other_motor(const Learned& learned, MilliAmperes locked_rotor) {
    const std::int64_t difference =
        std::int64_t{locked_rotor.count()} - learned.locked_rotor.count();
    const std::int64_t magnitude = difference < 0 ? -difference : difference;
    return magnitude * 1000 > std::int64_t{learned.locked_rotor.count()} * other_motor_permille;
}

bool Easing::in_time(const StartReport& report) const {
    return report.came_up() && report.climb_ms <= in_time_ms_;
}

Learned Easing::after(const Learned& learned, const StartReport& report) const {
    const bool teaches =
        report.came_up() || ladder_was_too_weak(report.ended) || line_gave_way(report.ended);
    if (!teaches || factory_.count < fewest_stages) {
        return learned;
    }
    Learned next = learned;
    if (learned.is_fresh() || is_other_motor(learned, report.locked_rotor)) {
        next = fresh();
        next.locked_rotor = report.locked_rotor;
    }
    if (next.starts < 255) {
        ++next.starts;
    }
    return next.settled ? after_settled_start(next, report) : after_trial(next, report);
}

/// In time rather than late, and on less current than the good level.
bool Easing::is_better(const Learned& learned, const StartReport& report) const {
    if (!report.came_up() || learned.good.count() == 0) {
        return report.came_up();
    }
    if (in_time(report) == is_late(learned)) {
        return in_time(report);
    }
    // In an earlier stage on no more is better already: there are stages left for a worse day.
    const std::int32_t allowed = report.stage < learned.stage_at_good ? 1000 : worthwhile_permille;
    return report.inrush.count() <= permille_of(learned.inrush_at_good.count(), allowed);
}

/// Nothing better is known than a level that brings the rotor up late.
bool Easing::is_late(const Learned& learned) const {
    return learned.climb_ms_at_good > in_time_ms_;
}

Learned Easing::after_trial(Learned next, const StartReport& report) const {
    if (is_better(next, report)) {
        const bool is_first = next.good.count() == 0;
        if (!is_first && next.good < next.level) {
            next.weak = next.good;
        }
        if (is_first && report.climb_ms < short_climb_ms) {
            next.weak = Permille{0};
        }
        remember_good(next, report);
    } else if (next.good.count() > 0 && next.good < next.level) {
        next.strong = next.level;
    } else {
        next.weak = larger(next.weak, next.level);
    }
    const bool needs_more = next.good.count() == 0 || is_late(next);
    next.level = Permille{needs_more ? stronger_level(next, report) : next_level(next)};
    if (next.level == next.good || next.starts >= most_starts) {
        next.level = next.good.count() > 0 ? next.good : next.level;
        next.settled = true;
        next.starts = 0;
        next.misses = 0;
    }
    return next;
}

/// No level has brought the rotor up in time: more at once; unless the supply gave way, which calls
/// for a longer climb on less, or for being content with being late.
std::int32_t Easing::stronger_level(const Learned& learned, const StartReport& report) const {
    const std::int32_t level = learned.level.count();
    if (!line_gave_way(report.ended)) {
        return strengthened(level);
    }
    if (learned.good.count() > 0) {
        return learned.good.count();
    }
    const std::int32_t with_time = report.stage > 0 ? level_before_stage(report.stage) : 0;
    return with_time > level ? with_time
                             : larger(permille_of(level, weakening_permille), lowest_level);
}

/// The good level itself once the search is over.
std::int32_t Easing::next_level(const Learned& learned) const {
    const std::int32_t good = learned.good.count();
    const bool is_unbounded = learned.strong.count() == 0 && learned.weak.count() == 0;
    if (learned.stage_at_good > 0 && is_unbounded && good <= as_set) {
        // The first stage was of no use; a stronger one may save the later one.
        return good < as_set ? as_set : level_before_stage(learned.stage_at_good);
    }
    if (learned.climb_ms_at_good > long_climb_ms) {
        return good;
    }
    const std::int32_t share = larger(learned.climb_ms_at_good, std::int32_t{1}) * 1000;
    const auto root = static_cast<std::int32_t>(
        square_root(static_cast<std::uint32_t>(share / good_climb_ms * 1000)));
    const std::int32_t step = smaller(larger(root, boldest_step_permille), careful_step_permille);
    const std::int32_t lower = larger(permille_of(good, step), lowest_level);
    if (learned.weak.count() == 0) {
        return lower;
    }
    const bool is_narrow = (good - learned.weak.count()) * 1000 <= good * narrow_permille;
    return is_narrow ? good : larger(lower, halfway(learned.weak, learned.good));
}

/// What the stage before had as its target may do if it is given more time; of the first stage a
/// little more.
std::int32_t Easing::level_before_stage(std::uint8_t stage) const {
    const Permille first = factory_.stages[0].target;
    const std::int32_t target = stage > 1 ? factory_.stages[stage - 1U].target.count()
                                          : halfway(first, factory_.stages[1].target);
    return target * 1000 / first.count();
}

Learned Easing::after_settled_start(Learned next, const StartReport& report) const {
    if (ladder_was_too_weak(report.ended)) {
        return begin_anew(next, report);
    }
    const bool on_trial = next.level < next.good;
    if (on_trial) {
        if (is_better(next, report)) {
            remember_good(next, report);
        }
        next.level = next.good;
        next.starts = 0;
        return next;
    }
    const bool is_no_later = report.came_up() && (in_time(report) || is_late(next));
    if (is_no_later && report.stage <= next.stage_at_good) {
        next.misses = 0;
        if (next.starts >= starts_between_trials && next.good.count() > lowest_level) {
            next.level = Permille{permille_of(next.good.count(), settled_trial_permille)};
        }
        return next;
    }
    ++next.misses;
    if (next.misses >= most_misses) {
        return begin_anew(next, report);
    }
    if (report.came_up()) {
        const std::int32_t level = next.level.count();
        const std::int32_t raised = permille_of(level, raise_permille);
        next.level = Permille{smaller(raised, larger(level, as_set))};
        next.good = next.good.count() > 0 ? next.level : next.good;
    }
    return next;
}

/// This start is the first of a new search, around the level that it was made with.
Learned Easing::begin_anew(const Learned& before, const StartReport& report) const {
    Learned anew = fresh();
    anew.locked_rotor = report.locked_rotor;
    anew.level = before.level;
    anew.starts = larger(before.misses, std::uint8_t{1});
    anew = after_trial(anew, report);
    if (anew.good.count() == 0) {
        anew.level = larger(anew.level, Permille{as_set});
    }
    return anew;
}

}  // namespace firmware
