#include "firmware/learning/easing.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

namespace {

/// A ladder that begins with less than this gains nothing: hand-over decides the current.
constexpr Permille gentlest_level{250};
static_assert(gentlest_level >= lowest_level, "what it learns is kept");
/// Where no stage above it is left to fall back on, an eased one would only fail.
constexpr std::uint8_t fewest_stages = 2;

// A step is the square root of the climb's time over this: at a given level the time goes about
// with the level's power of -1.6 (computed for the bundled compressors). A climb that takes much
// longer is near the level at which the rotor stays behind.
constexpr std::int32_t good_climb_ms = 450;
constexpr std::int32_t long_climb_ms = 600;
constexpr Permille boldest_step{750};
constexpr Permille careful_step{930};
constexpr Permille strengthening{1400};
constexpr Permille weakening{900};
/// A rotor that is up so soon is far from the level at which it stays behind: what was too weak for
/// it before was so on another day.
constexpr std::int32_t short_climb_ms = 300;
/// Of a raised first stage, the stages after it: each above the one before by this.
constexpr Permille next_stage{1100};
/// Between the lowest good and the highest weak level.
constexpr Permille narrow_gap{80};
/// A lower level must lower the current by this much to be worth it.
constexpr Permille worthwhile{975};
constexpr std::uint8_t most_starts = 6;

// Settled.
constexpr Permille raise{1080};
constexpr std::uint8_t most_misses = 2;
constexpr std::uint8_t starts_between_trials = 50;
constexpr Permille settled_trial{960};
/// Copper between -20 and 110 degrees C changes the locked-rotor current by less (a quarter), and
/// so does a small generator, which gives way differently under each probing (30 % seen).
constexpr Permille other_motor{350};
/// Of the time allowed: how long an eased first stage waits at most for the rotor to gain speed.
constexpr std::int32_t longest_dwell_percent = 50;

Permille strengthened(Permille level) {
    return smaller(portion(level, strengthening), highest_level);
}

Permille halfway(Permille a, Permille b) {
    const auto product = static_cast<std::uint32_t>(a.count() * b.count());
    return Permille{static_cast<std::int32_t>(square_root(product))};
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
    if (learned.level == level_as_set || factory_.count < fewest_stages ||
        is_other_motor(learned, locked_rotor)) {
        return factory_;
    }
    return learned.level > level_as_set ? raised(learned.level) : eased(learned.level);
}

Ladder Easing::raised(Permille level) const {
    Ladder ladder = factory_;
    Permille wanted = portion(factory_.stages[0].target, level);
    for (std::uint8_t i = 0; i < ladder.stages.size() && i < ladder.count; ++i) {
        // Room for the stages above, each of which must be stronger.
        const Permille highest{1000 - (ladder.count - 1 - i)};
        Permille& target = ladder.stages[i].target;
        target = smaller(larger(target, wanted), highest);
        wanted = larger(portion(target, next_stage), target + Permille{1});
    }
    ladder.stages[0].dwell = larger(ladder.stages[0].dwell, longest_dwell());
    return ladder;
}

Ladder Easing::eased(Permille level) const {
    Ladder ladder = factory_;
    const std::int32_t last = ladder.count - 1;
    const std::int32_t eased_by = (level_as_set - level).count();
    for (std::uint8_t i = 0; i < ladder.stages.size() && i < ladder.count; ++i) {
        Permille& target = ladder.stages[i].target;
        target = portion(target, level_as_set - Permille{eased_by * (last - i) / last});
    }
    Ticks& dwell = ladder.stages[0].dwell;
    const Ticks wanted{dwell.count() * 1000 / static_cast<std::uint32_t>(level.count())};
    dwell = larger(dwell, smaller(wanted, longest_dwell()));
    return ladder;
}

Ticks Easing::longest_dwell() const {
    return ticks_from_ms(in_time_ms_ * longest_dwell_percent / 100);
}

bool Easing::is_other_motor(const Learned& learned, MilliAmperes locked_rotor) {
    const MilliAmperes difference =
        larger(locked_rotor, learned.locked_rotor) - smaller(locked_rotor, learned.locked_rotor);
    return difference > portion(learned.locked_rotor, other_motor);
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
    const MilliAmperes allowed = report.stage < learned.stage_at_good
                                     ? learned.inrush_at_good
                                     : portion(learned.inrush_at_good, worthwhile);
    return report.inrush <= allowed;
}

/// Nothing better is known than a level that brings the rotor up late.
bool Easing::is_late(const Learned& learned) const {
    return learned.climb_ms_at_good > in_time_ms_;
}

Learned Easing::after_trial(Learned next, const StartReport& report) const {
    if (is_better(next, report)) {
        const bool is_leap =
            next.good.count() == 0 || is_late(next) || report.stage < next.stage_at_good;
        if (next.good.count() > 0 && next.good < next.level) {
            next.weak = next.good;
        }
        if (is_leap && report.climb_ms < short_climb_ms) {
            next.weak = Permille{0};
        }
        remember_good(next, report);
    } else if (next.good.count() > 0 && next.good < next.level) {
        next.strong = next.level;
    } else {
        next.weak = larger(next.weak, next.level);
    }
    const bool needs_more = next.good.count() == 0 || is_late(next);
    next.level = needs_more ? stronger_level(next, report) : next_level(next);
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
Permille Easing::stronger_level(const Learned& learned, const StartReport& report) const {
    if (!line_gave_way(report.ended)) {
        return strengthened(learned.level);
    }
    if (learned.good.count() > 0) {
        return learned.good;
    }
    const Permille with_time = report.stage > 0 ? level_before_stage(report.stage) : Permille{0};
    return with_time > learned.level ? with_time
                                     : larger(portion(learned.level, weakening), gentlest_level);
}

/// The good level itself once the search is over.
Permille Easing::next_level(const Learned& learned) const {
    const Permille good = learned.good;
    const bool is_unbounded = learned.strong.count() == 0 && learned.weak.count() == 0;
    if (learned.stage_at_good > 0 && is_unbounded && good <= level_as_set) {
        // The first stage was of no use; a stronger one may save the later one.
        return good < level_as_set ? level_as_set : level_before_stage(learned.stage_at_good);
    }
    if (learned.climb_ms_at_good > long_climb_ms) {
        return good;
    }
    if (learned.weak.count() == 0 && good > level_as_set &&
        learned.climb_ms_at_good < short_climb_ms) {
        return level_as_set;  // by steps the search would end on the way
    }
    const std::int32_t climb_ms = larger(learned.climb_ms_at_good, std::int32_t{1});
    const auto time_share = static_cast<std::uint32_t>(climb_ms * 1000000 / good_climb_ms);
    const Permille root{static_cast<std::int32_t>(square_root(time_share))};
    const Permille step = smaller(larger(root, boldest_step), careful_step);
    const Permille lower = larger(portion(good, step), gentlest_level);
    if (learned.weak.count() == 0) {
        return lower;
    }
    const bool is_narrow = good - learned.weak <= portion(good, narrow_gap);
    return is_narrow ? good : larger(lower, halfway(learned.weak, good));
}

/// What the stage before had as its target may do if it is given more time; of the first stage a
/// little more.
Permille Easing::level_before_stage(std::uint8_t stage) const {
    const Permille first = factory_.stages[0].target;
    const Permille target =
        stage > 1 ? factory_.stages[stage - 1U].target : halfway(first, factory_.stages[1].target);
    return smaller(fraction(target, first), highest_level);
}

/// It was learned on a hard day: the first start after a long rest, cold oil.
bool Easing::is_much_easier(const Learned& learned, const StartReport& report) {
    return report.came_up() && report.climb_ms < short_climb_ms &&
           report.climb_ms * 2 < learned.climb_ms_at_good;
}

Learned Easing::after_settled_start(Learned next, const StartReport& report) const {
    if (ladder_was_too_weak(report.ended)) {
        return begin_anew(next, report);
    }
    const bool on_trial = next.level < next.good;
    if (!on_trial && is_much_easier(next, report)) {
        return begin_anew(next, report);
    }
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
        if (next.starts >= starts_between_trials && next.good > gentlest_level) {
            next.level = larger(portion(next.good, settled_trial), gentlest_level);
        }
        return next;
    }
    if (next.misses < most_misses) {
        ++next.misses;
    }
    if (next.misses >= most_misses) {
        return begin_anew(next, report);
    }
    if (report.came_up()) {
        next.level = smaller(portion(next.level, raise), larger(next.level, level_as_set));
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
        anew.level = larger(anew.level, level_as_set);
    }
    return anew;
}

}  // namespace firmware
