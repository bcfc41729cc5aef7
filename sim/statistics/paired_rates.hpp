// The same cases passed or failed twice: did the rate change?
//
// Only cases whose verdict changed say anything about the direction. McNemar's exact test: if none
// were preferred, each of them would have gone either way with probability 1/2; the p-value is
// twice the smaller tail of that binomial. The difference of the two rates has the interval of
// Agresti and Min: Wald's after half a case has been added to each of the four cells, so that it
// means something at 0 changes, too.
//
// Sources: Q. McNemar, Psychometrika 12 (1947), p. 153; A. Agresti, Y. Min, Stat. Med. 24 (2005),
// p. 729 (memory).
#pragma once

#include <cstdint>

namespace sim {

struct PairedRates {
    std::int64_t both_passed = 0;
    std::int64_t newly_failed = 0;  ///< passed in the old, failed in the new
    std::int64_t newly_passed = 0;
    std::int64_t both_failed = 0;

    std::int64_t pairs() const;
    void count(bool old_passed, bool new_passed);

    /// New rate less old; 0 without pairs.
    double difference() const;
    double difference_lowest() const;  ///< at 95 %; -1 without pairs
    double difference_highest() const;
    /// Two-sided; 1 if no verdict changed.
    double p_value() const;
};

}  // namespace sim
