// Which of the numbers that chance gave to a case drive its failure, block by block.
//
// For each drawn input: the probability that a failed case has a larger value than a passed one
// (rank_separation.hpp). 0.5: the input has no bearing; towards 1: large values fail; towards 0:
// small ones do. Its interval is as much wider than 95 % as there are inputs in the block
// (Bonferroni), so that chance points at any of them in at most 5 % of blocks. Beside it stand the
// failure rates of the cases in the lowest, middle and highest third of the input, which also show
// an input that harms at both ends.
//
// Under ten failed or ten passed cases nothing is said: the common rule of ten events (engineering
// judgement).
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim/reporting/campaign_results.hpp"
#include "sim/statistics/rank_separation.hpp"
#include "sim/statistics/success_rate.hpp"

namespace sim {

inline constexpr int fewest_of_each = 10;

struct DrivingInput {
    std::string input;
    RankSeparation failed_above_passed;
    /// Failed cases of all in the lowest, middle and highest third by this input.
    std::array<SuccessRate, 3> failed_by_third;

    /// The interval leaves out 0.5.
    bool drives() const;
};

struct BlockDrivers {
    std::string block;
    int failed = 0;
    int passed = 0;
    /// Empty if there are too few cases of either kind, or no inputs that differ from case to case.
    std::vector<DrivingInput> inputs;  ///< the strongest first

    bool too_few() const { return failed < fewest_of_each || passed < fewest_of_each; }
};

/// In the order of the suite.
std::vector<BlockDrivers> failure_drivers(const CampaignResults& results);

/// "Starts fail more often the lower line_voltage_percent is: 31 % ... "; no full stop at the end.
std::string driver_sentence(const DrivingInput& driver);

/// What there is to say of a block, each a whole sentence.
std::vector<std::string> driver_sentences(const BlockDrivers& block);

}  // namespace sim
