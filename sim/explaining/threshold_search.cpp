#include "sim/explaining/threshold_search.hpp"

#include <algorithm>
#include <cmath>

#include "sim/results/spaced_word.hpp"

namespace sim {

namespace {

class Search {
  public:
    Search(const Scenario& scenario, WayOfChange& way, const Fineness& fineness,
           const Interrupted& interrupted)
        : scenario_(scenario),
          way_(way),
          fineness_(fineness),
          interrupted_(interrupted),
          patience_(fineness.patience) {}

    /// False if it was interrupted.
    bool run() {
        const Change& change = way_.change;
        if (change.spacing == Spacing::yes_no) {
            return look_at(change.boldest) && confirm();
        }
        if (change.spacing == Spacing::steps) {
            return look_at_steps() && confirm();
        }
        return look_over() && bisect() && confirm();
    }

  private:
    bool look_at(double value) {
        if (value == way_.change.given || find(value) != way_.tried.end()) {
            return true;
        }
        if (interrupted_()) {
            return false;
        }
        const Scenario changed = with_change(scenario_, way_.change, value);
        if (!problem_with(changed).empty()) {
            return true;
        }
        keep(value, try_start(changed, patience_));
        return true;
    }

    void keep(double value, const Trial& trial) {
        ++way_.reruns;
        const TriedValue tried{value, trial.comes_up, ending_of(trial)};
        const auto known = find(value);
        if (known != way_.tried.end()) {
            *known = tried;
            return;
        }
        const bool rising = way_.change.boldest >= way_.change.given;
        const auto place =
            way_.change.spacing == Spacing::steps
                ? way_.tried.end()
                : std::find_if(way_.tried.begin(), way_.tried.end(), [&](const TriedValue& one) {
                      return rising ? one.value > value : one.value < value;
                  });
        way_.tried.insert(place, tried);
    }

    std::vector<TriedValue>::iterator find(double value) {
        return std::find_if(way_.tried.begin(), way_.tried.end(),
                            [value](const TriedValue& one) { return one.value == value; });
    }

    bool look_over() {
        double share = 1.0;
        for (int k = 0; k < fineness_.looks; ++k, share *= 0.5) {
            if (!look_at(value_at(way_.change, share))) {
                return false;
            }
        }
        note_turn();
        return true;
    }

    bool look_at_steps() {
        for (const double step : way_.change.steps) {
            if (!look_at(step)) {
                return false;
            }
        }
        note_turn();
        return true;
    }

    void note_turn() {
        way_.turn.reset();
        double before = way_.change.given;
        for (const TriedValue& one : way_.tried) {
            if (one.comes_up != way_.begins_up) {
                way_.turn = WayOfChange::Turn{before, one.value};
                return;
            }
            before = one.value;
        }
    }

    bool is_fine() const {
        const double a = way_.turn->before;
        const double b = way_.turn->after;
        if (way_.change.spacing == Spacing::ratio) {
            return std::max(a / b, b / a) <= fineness_.ratio;
        }
        const double way = std::abs(way_.change.boldest - way_.change.given);
        return std::abs(a - b) <=
               1.01 * std::max(way_.change.resolution, fineness_.share_of_way * way);
    }

    bool bisect() {
        for (int k = 0; k < fineness_.most_halvings && way_.turn && !is_fine(); ++k) {
            const double a = way_.turn->before;
            const double b = way_.turn->after;
            const double middle =
                round_value(way_.change, way_.change.spacing == Spacing::ratio ? std::sqrt(a * b)
                                                                               : 0.5 * (a + b));
            if (middle == a || middle == b) {
                return true;
            }
            if (!look_at(middle)) {
                return false;
            }
            if (find(middle) == way_.tried.end()) {
                // The bench cannot run it: the turn is as close as it can be had.
                return true;
            }
            note_turn();
        }
        return true;
    }

    /// Both sides of the turn once more, to their end. If one of them was a wrong guess, everything
    /// is done again without guessing.
    bool confirm() {
        note_turn();
        if (patience_ == Patience::to_the_end || !way_.turn) {
            return true;
        }
        for (const double side : {way_.turn->before, way_.turn->after}) {
            const auto guessed = find(side);
            if (guessed == way_.tried.end() || !guessed->comes_up) {
                // The scenario itself, which has been run to its end; or a failure, which is never
                // guessed.
                continue;
            }
            if (interrupted_()) {
                return false;
            }
            const Trial whole =
                try_start(with_change(scenario_, way_.change, side), Patience::to_the_end);
            const bool as_guessed = whole.comes_up;
            keep(side, whole);
            if (!as_guessed) {
                patience_ = Patience::to_the_end;
                way_.tried.clear();
                way_.turn.reset();
                return run();
            }
        }
        return true;
    }

    const Scenario& scenario_;
    WayOfChange& way_;
    const Fineness& fineness_;
    const Interrupted& interrupted_;
    Patience patience_;
};

}  // namespace

bool WayOfChange::stays_turned() const {
    if (!turn) {
        return true;
    }
    bool beyond = false;
    for (const TriedValue& one : tried) {
        beyond = beyond || one.value == turn->after;
        if (beyond && one.comes_up == begins_up) {
            return false;
        }
    }
    return true;
}

std::optional<WayOfChange> search_way(const Scenario& scenario, const Change& change,
                                      bool begins_up, const Fineness& fineness,
                                      const Interrupted& interrupted) {
    WayOfChange way;
    way.change = change;
    way.begins_up = begins_up;
    if (!Search(scenario, way, fineness, interrupted).run()) {
        return std::nullopt;
    }
    return way;
}

std::string ending_of(const Trial& trial) {
    std::string words = spaced(std::string(word_of(trial.outcome)));
    if (!trial.cause.empty()) {
        words += " (" + spaced(trial.cause) + ")";
    }
    return words;
}

}  // namespace sim
