// A scenario whose world changes from start to start: what its [[change]] tables and their drifts
// have made of it, one start after the other.
#pragma once

#include <string>

#include "sim/scenario/scenario.hpp"
#include "sim/timeline/plant_run.hpp"

namespace sim {

class ChangingScenario {
  public:
    /// Throws InputError if a change or a drift leaves the bounds of a table within so many starts.
    ChangingScenario(const Scenario& scenario, double rest_between_s, int starts);

    /// Goes on to this start, which must be the next one. False if nothing is different.
    bool enter(int start);

    /// As of the start entered last; stays where it is, with other content.
    const Scenario& now() const { return now_; }
    /// Of the rest before it.
    double rest_s() const { return rest_s_; }
    /// What of the plant before goes on in the plant of now().
    const KeptParts& kept() const { return kept_; }
    /// What a [[change]] before it made different, in words; a drift alone is none.
    const std::string& words() const { return words_; }

    /// Throws InputError, with the place of the change that was taken last.
    [[noreturn]] void refuse_latest(const std::string& fault) const;

  private:
    void take(const ScenarioChange& change);
    void apply();
    void refuse_if_out_of_bounds() const;

    Scenario base_;  ///< without factors
    Scenario now_;
    double rest_s_;
    double line_voltage_ = 1.0;
    double run_capacitor_ = 1.0;
    double friction_ = 1.0;
    double run_capacitor_per_start_ = 1.0;
    double friction_per_start_ = 1.0;
    KeptParts kept_;
    std::string words_;
    std::size_t taken_ = 0;  ///< changes so far
    int start_ = 1;
};

}  // namespace sim
