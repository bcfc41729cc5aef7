// Runs one case of a suite and keeps what the results file holds of it.
//
// Same suite, same case, same build: same record. Nothing is thrown: a case that cannot be run has
// that as its result.
#pragma once

#include <functional>

#include "sim/regression/case_record.hpp"

namespace sim {

/// A case that is about to run: its record without starts, and what it will ask of the bench.
struct BegunCase {
    CaseRecord record;
    std::string expected;      ///< expected_words()
    double simulated_s = 0.0;  ///< of all its starts, rests left out
    /// Somebody else's code runs in it, which may leave something behind for the next case.
    bool holds_foreign_code = false;
};

/// `begun` is called as soon as the case is known, before anything runs; may be empty.
CaseRecord run_case(const Suite& suite, std::int64_t id,
                    const std::function<void(const BegunCase&)>& begun = {});

/// The record of a case that ended without a result of its own: one start, not passed.
CaseRecord ended_without_result(CaseRecord begun, std::string_view outcome,
                                const std::string& cause, const std::string& expected,
                                const std::string& words);

}  // namespace sim
