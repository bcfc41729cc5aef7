#include "firmware/learning/easing.hpp"

#include "firmware/arithmetic/extremes.hpp"
#include "firmware/arithmetic/square_root.hpp"

namespace firmware {

namespace {

constexpr std::int32_t as_set = 1000;
constexpr std::int32_t lowest_level = 250;
constexpr std::int32_t highest_level = 2000;
/// Where no stage above it is left to fall back on, an eased one would only fail.
constexpr std::uint8_t fewest_stages = 2;

// A step is the square root of the climb's time over this: at a given level the time goes about
// with the level's power of -1.6 (computed for the bundled compressors). A climb that takes longer
// is near the level at which the rotor stays behind.
constexpr std::int32_t good_climb_ms = 450;
constexpr std::int32_t boldest_step_permille = 750;
constexpr std::int32_t smallest_step_permille = 950;
constexpr std::int32_t strengthening_permille = 1200;
/// Between the lowest good and the highest weak level.
constexpr std::int32_t narrow_permille = 80;
/// A lower level must lower the current by this much to be worth it.
constexpr std::int32_t worthwhile_permille = 990;
constexpr std::uint8_t most_starts = 6;

// Settled.
/// After the first start in a row that needed more; after the next ones twice as much, and so on.
constexpr std::int32_t raise_permille = 80;
constexpr std::uint8_t most_misses = 10;
constexpr std::uint8_t starts_between_trials = 50;
constexpr std::int32_t settled_trial_permille = 960;
/// Copper between -20 and 110 degrees C changes the locked-rotor current by less.
constexpr std::int32_t other_motor_permille = 250;
/// Of the time allowed: how long an eased first stage waits at most for the rotor to gain speed.
constexpr std::int32_t longest_dwell_percent = 75;

constexpr std::int32_t permille_of(std::int32_t value, std::int32_t permille) {
    return static_cast<std::int32_t>(std::int64_t{value} * permille / 1000);
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
    return level > as_set ? strengthened(level) : eased(level);
}

Ladder Easing::strengthened(std::int32_t level) const {
    Ladder ladder = factory_;
    for (std::uint8_t i = 0; i < ladder.count; ++i) {
        // Room for the stages above, each of which must be stronger.
        const std::int32_t highest = 1000 - (ladder.count - 1 - i);
        Permille& target = ladder.stages[i].target;
        target = Permille{smaller(permille_of(target.count(), level), highest)};
    }
    return ladder;
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
    if (!report.came_up() && !ladder_was_too_weak(report.ended)) {
        return learned;
    }
    Learned next = learned;
    if (learned.is_fresh() || is_other_motor(learned, report.locked_rotor)) {
        next = fresh();
        next.locked_rotor = report.locked_rotor;
    }
    if (factory_.count < fewest_stages) {
        return next;
    }
    if (next.starts < 255) {
        ++next.starts;
    }
    return next.settled ? after_settled_start(next, report) : after_trial(next, report);
}

/// In time, and on less current than the good level.
bool Easing::is_better(const Learned& learned, const StartReport& report) const {
    return in_time(report) && (learned.good.count() == 0 ||
                               report.inrush.count() <= permille_of(learned.inrush_at_good.count(),
                                                                    worthwhile_permille));
}

Learned Easing::after_trial(Learned next, const StartReport& report) const {
    if (is_better(next, report)) {
        remember_good(next, report);
    } else {
        next.weak = larger(next.weak, next.level);
    }
    choose_level(next);
    return next;
}

void Easing::choose_level(Learned& next) const {
    const std::int32_t good = next.good.count();
    if (good == 0) {
        // Not even the settings' ladder: more at once.
        next.level = Permille{
            smaller(permille_of(next.level.count(), strengthening_permille), highest_level)};
        next.settled = next.starts >= most_starts;
        return;
    }
    const std::int32_t step =
        larger(static_cast<std::int32_t>(square_root(static_cast<std::uint32_t>(
                   larger(next.climb_ms_at_good, std::int32_t{1}) * 1000000 / good_climb_ms))),
               boldest_step_permille);
    const std::int32_t lower = larger(permille_of(good, step), lowest_level);
    const bool bounded = next.weak.count() > 0;
    const std::int32_t tried = bounded ? larger(lower, halfway(next.weak, next.good)) : lower;
    const bool is_narrow = bounded && (good - next.weak.count()) * 1000 <= good * narrow_permille;
    const bool is_small = tried > permille_of(good, smallest_step_permille);
    if (is_narrow || is_small || next.starts >= most_starts) {
        next.level = next.good;
        next.settled = true;
        next.starts = 0;
        next.misses = 0;
        return;
    }
    next.level = Permille{tried};
}

Learned Easing::after_settled_start(Learned next, const StartReport& report) const {
    if (!report.came_up()) {
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
    if (in_time(report) && report.stage <= next.stage_at_good) {
        next.misses = 0;
        if (next.starts >= starts_between_trials && next.good.count() > lowest_level) {
            next.level = Permille{permille_of(next.good.count(), settled_trial_permille)};
        }
        return next;
    }
    next.misses = smaller(static_cast<std::uint8_t>(next.misses + 1), most_misses);
    const std::int32_t level = next.level.count();
    const std::int32_t raised = permille_of(level, 1000 + raise_permille * next.misses);
    next.level = Permille{smaller(raised, larger(level, as_set))};
    if (next.good.count() > 0) {
        next.good = next.level;
    }
    return next;
}

/// The rotor did not come up: more at once.
Learned Easing::begin_anew(const Learned& before, const StartReport& report) const {
    Learned anew = fresh();
    anew.locked_rotor = report.locked_rotor;
    anew.weak = before.level;
    anew.level = Permille{larger(
        smaller(permille_of(before.level.count(), strengthening_permille), highest_level), as_set)};
    return anew;
}

}  // namespace firmware
