// Does a number tell two groups apart: the probability that a value of the first group is larger
// than one of the second (a tie counts half). 1/2: it tells nothing; 0 and 1: it tells everything.
// It is Mann and Whitney's U divided by both group sizes, and the area under the receiver operating
// characteristic. Only a trend is seen: a number that harms at both of its ends shows 1/2.
//
// Its interval: variance of DeLong, DeLong and Clarke-Pearson (distribution-free), on the logit
// scale, as recommended by Pohar Perme and Manevski, Stat. Methods Med. Res. 28 (2019) (abstract
// read; the variance from memory: Biometrics 44 (1988), p. 837). Where the groups do not overlap
// that variance is zero; the end towards 1/2 is then the probability whose own deviation just
// reaches the observed one (method 5 of R. G. Newcombe, Stat. Med. 25 (2006), p. 559, memory).
#pragma once

#include <optional>
#include <vector>

namespace sim {

struct RankSeparation {
    double probability = 0.5;
    double lowest = 0.0;
    double highest = 1.0;
};

/// `confidence` of the interval, 0 to 1. None if a group has less than two values.
std::optional<RankSeparation> rank_separation(const std::vector<double>& first,
                                              const std::vector<double>& second, double confidence);

}  // namespace sim
