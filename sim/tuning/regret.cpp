#include "sim/tuning/regret.hpp"

#include "sim/tuning/ladder_search.hpp"

namespace sim {

namespace {

std::optional<double> current_of(const LadderTrial& trial) {
    return trial.counts ? std::optional<double>(trial.inrush_100ms_rms_A) : std::nullopt;
}

}  // namespace

Regret measure_regret(StartBench& bench, const Scenario& scenario, int most_starts,
                      const std::function<bool(int done, int of)>& go_on) {
    const LadderSearch search =
        search_ladder(scenario, most_starts, go_on, [&bench](const Scenario& trial) {
            return bench.copy_with_new_controller(trial)->run_start(nullptr);
        });
    Regret regret;
    regret.starts = search.starts;
    regret.best_A = current_of(search.best);
    regret.best = search.best.stages;
    regret.as_set_A = current_of(search.given);
    const StartResult learned = bench.run_start(nullptr);
    if (is_in_time(learned, scenario)) {
        regret.learned_A = learned.figures.line_current_inrush_100ms_rms_A;
    }
    // The controller's own start is a ladder, too, and a search of finite length may miss it.
    if (regret.learned_A && (!regret.best_A || *regret.learned_A < *regret.best_A)) {
        regret.best_A = regret.learned_A;
        regret.best.clear();
    }
    return regret;
}

}  // namespace sim
