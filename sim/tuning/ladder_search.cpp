#include "sim/tuning/ladder_search.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <variant>

#include "sim/bench/start_run.hpp"
#include "sim/fitting/constrained_search.hpp"

namespace sim {

namespace {

using firmware::StageSettings;

constexpr int scan_starts = 25;
constexpr double lowest_permille = 100.0;
constexpr double highest_permille = 1000.0;
constexpr double lowest_dwell_ms = 50.0;
constexpr double highest_dwell_ms = 800.0;

BuiltinLimiter& limiter_of(Scenario& scenario) {
    return std::get<BuiltinLimiter>(scenario.limiter);
}

/// Targets that only climb, as the controller wants them.
std::vector<StageSettings> climbing(std::vector<StageSettings> stages) {
    const auto count = static_cast<std::int32_t>(stages.size());
    std::int32_t below = 99;
    for (std::int32_t i = 0; i < count; ++i) {
        StageSettings& stage = stages[static_cast<std::size_t>(i)];
        const std::int32_t highest = 1000 - (count - 1 - i);
        stage.target_permille = std::clamp(stage.target_permille, below + 1, highest);
        below = stage.target_permille;
    }
    return stages;
}

class Search {
  public:
    Search(const Scenario& scenario, int most_starts, const std::function<bool(int, int)>& go_on,
           const Start& start)
        : scenario_(scenario), most_starts_(most_starts), go_on_(go_on), start_(start) {
        firmware::Settings& settings = limiter_of(scenario_).settings;
        // Each start is the first one: what the ladder does, not what was learned before.
        settings.learning_law = firmware::LearningLawKind::none;
        given_.assign(settings.stages.begin(), settings.stages.begin() + settings.stage_count);
    }

    LadderSearch run() {
        result_.given = attempt(given_);
        keep(result_.given);
        scan();
        wander();
        return result_;
    }

  private:
    LadderTrial attempt(const std::vector<StageSettings>& stages) {
        LadderTrial trial;
        trial.stages = stages;
        // The optimiser may ask for more; it is not made to stop in the middle.
        if (result_.ended_early || result_.starts >= most_starts_) {
            return trial;
        }
        firmware::Settings& settings = limiter_of(scenario_).settings;
        std::copy(stages.begin(), stages.end(), settings.stages.begin());
        const StartResult run = start_(scenario_);
        trial.inrush_100ms_rms_A = run.figures.line_current_inrush_100ms_rms_A.value_or(0.0);
        trial.time_to_speed_s = run.figures.time_to_speed_s.value_or(0.0);
        trial.counts = is_in_time(run, scenario_);
        ++result_.starts;
        result_.ended_early = !go_on_(result_.starts, most_starts_);
        return trial;
    }

    void keep(const LadderTrial& trial) {
        const bool better =
            trial.counts &&
            (!result_.best.counts || trial.inrush_100ms_rms_A < result_.best.inrush_100ms_rms_A);
        if (better) {
            result_.best = trial;
        }
    }

    /// The given ladder as a whole, from a tenth of the locked-rotor current upwards.
    void scan() {
        const double first = given_.front().target_permille;
        for (int k = 0; k < scan_starts && result_.starts < most_starts_; ++k) {
            const double share = static_cast<double>(k) / (scan_starts - 1);
            const double level =
                lowest_permille * std::pow(0.8 * highest_permille / lowest_permille, share);
            std::vector<StageSettings> stages = given_;
            for (StageSettings& stage : stages) {
                stage.target_permille =
                    static_cast<std::int32_t>(std::lround(stage.target_permille * level / first));
            }
            keep(attempt(climbing(stages)));
        }
    }

    /// Place in the unit cube: the first target and each next one's distance, then the dwells.
    std::vector<StageSettings> stages_at(const double* place) const {
        std::vector<StageSettings> stages(given_.size());
        double target =
            lowest_permille * std::pow(0.8 * highest_permille / lowest_permille, place[0]);
        for (std::size_t i = 0; i < stages.size(); ++i) {
            if (i > 0) {
                target *= 1.0 + place[i];
            }
            const double dwell_ms = lowest_dwell_ms * std::pow(highest_dwell_ms / lowest_dwell_ms,
                                                               place[stages.size() + i]);
            stages[i] = {static_cast<std::int32_t>(std::lround(std::min(target, 1000.0))),
                         static_cast<std::int32_t>(std::lround(dwell_ms))};
        }
        return climbing(stages);
    }

    std::vector<double> place_of(const std::vector<StageSettings>& stages) const {
        std::vector<double> place(2 * stages.size());
        const double span = std::log(0.8 * highest_permille / lowest_permille);
        place[0] = std::log(stages[0].target_permille / lowest_permille) / span;
        for (std::size_t i = 0; i < stages.size(); ++i) {
            if (i > 0) {
                place[i] =
                    static_cast<double>(stages[i].target_permille) / stages[i - 1].target_permille -
                    1.0;
            }
            place[stages.size() + i] = std::log(stages[i].dwell_ms / lowest_dwell_ms) /
                                       std::log(highest_dwell_ms / lowest_dwell_ms);
        }
        for (double& side : place) {
            side = std::clamp(side, 0.0, 1.0);
        }
        return place;
    }

    void wander() {
        const int left = most_starts_ - result_.starts;
        if (left <= 0) {
            return;
        }
        SearchProblem problem;
        problem.dimension = 2 * given_.size();
        problem.inequality_count = 1;
        const double unit_A = std::max(result_.given.inrush_100ms_rms_A, 0.1);
        problem.evaluate = [&](const double* place, double* values) {
            const LadderTrial trial = attempt(stages_at(place));
            keep(trial);
            values[0] = trial.inrush_100ms_rms_A / unit_A;
            values[1] = trial.counts ? -1.0 : 1.0;
        };
        search_everywhere(problem, place_of(result_.best.counts ? result_.best.stages : given_),
                          left);
    }

    Scenario scenario_;
    int most_starts_;
    const std::function<bool(int, int)>& go_on_;
    const Start& start_;
    std::vector<StageSettings> given_;
    LadderSearch result_;
};

}  // namespace

bool is_in_time(const StartResult& run, const Scenario& scenario) {
    return run.outcome == Outcome::running && run.figures.time_to_speed_s &&
           *run.figures.time_to_speed_s - scenario.run.call_on_s <= in_time_s &&
           run.monitors.empty();
}

StartResult start_from_the_beginning(const Scenario& scenario) {
    return run_start(scenario);
}

LadderSearch search_ladder(const Scenario& scenario, int most_starts,
                           const std::function<bool(int done, int of)>& go_on, const Start& start) {
    return Search(scenario, most_starts, go_on, start).run();
}

}  // namespace sim
