// One rerun: whether a changed scenario comes up.
//
// "Comes up" is more than the outcome: it ends running, no supply has tripped, and no monitor was
// broken, in a direct start neither.
//
// A rerun may end as soon as it looks decided: the supply has tripped or the controller has locked
// out, which nothing undoes; or the rotor has been up for half a second, nothing that the scenario
// puts into a later instant is to come, and no protection watches on. The second is a guess; who
// reports a number from it runs that once more to its end.
#pragma once

#include <string>

#include "sim/bench/start_run.hpp"

namespace sim {

enum class Patience { until_decided, to_the_end };

struct Trial {
    bool comes_up = false;
    Outcome outcome = Outcome::not_started;
    std::string cause;     ///< as in StartResult; or the first broken monitor
    double seconds = 0.0;  ///< simulated
    bool was_guessed = false;
};

bool comes_up(const StartResult& result);

/// Throws NumericFailure.
Trial try_start(const Scenario& scenario, Patience patience);

}  // namespace sim
