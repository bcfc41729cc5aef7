// What a start that did not pass is held against: itself, or only the rate that its block answers
// for. One rule for the engine's summary, for reports and for servers of continuous integration.
#pragma once

#include "sim/regression/case_record.hpp"

namespace sim {

/// No simulation came to an end: it crashed, hung, failed, or could not be built.
bool has_no_result(const StartRow& start);

/// In an outcome that is not accepted, or in none.
bool ended_otherwise(const StartRow& start);

/// Nothing but another outcome, and one that was simulated. A broken monitor or limit fails the
/// start whatever the rate.
bool only_counts_against_rate(const StartRow& start);

}  // namespace sim
