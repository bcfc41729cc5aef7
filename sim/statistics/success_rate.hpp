// How often something went well, and how well so many trials can tell.
//
// Wilson score interval of a share k / n at 95 % (z = 1.959964):
//
//   centre  (p + z^2 / 2n) / (1 + z^2 / n)        p = k / n
//   half    z / (1 + z^2 / n) sqrt(p (1 - p) / n + z^2 / 4n^2)
//
// It stays within 0 and 1 and means something at k = n, too: 200 of 200 still leave room for a true
// share of 98.1 %. Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), p. 209 (memory).
#pragma once

namespace sim {

struct SuccessRate {
    int successes = 0;
    int trials = 0;

    double share() const;    ///< 0 without trials
    double lowest() const;   ///< lower end of the interval; 0 without trials
    double highest() const;  ///< upper end; 1 without trials
};

}  // namespace sim
