// The luck of a case. It follows from the suite's seed, the case's place in the matrix without the
// setting, and the number of the draw: so settings are compared under the same luck, cells differ
// in theirs, and a block or an entry that is added elsewhere changes nobody's.
//
// Generator: the 64-bit Mersenne twister of Boost.Random, seeded through its seed_seq with the
// suite's seed, the place and the input's name as 64-bit FNV-1a hashes (low word first), and the
// number. Each input has a generator of its own, so another spread beside it changes nothing.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "sim/suites/suite.hpp"
#include "sim/suites/suite_parts.hpp"

namespace sim {

struct CaseLuck {
    std::uint32_t suite_seed = 0;
    std::uint64_t place = 0;
    std::uint32_t number = 0;  ///< of the draw, from 0
};

CaseLuck luck_of(std::uint32_t suite_seed, const CasePlace& place, std::uint32_t number);

/// For the scenario's [run] seed: 31 bits.
std::uint32_t seed_of(const CaseLuck& luck);

/// At least 0, below 1. `spread`: the number of the spread among those of the same input.
double even_number(const CaseLuck& luck, std::string_view input, std::uint32_t spread);

/// Draws what the spreads say, applies it, and returns what acted. The scenario may then be outside
/// the bounds of its tables.
std::vector<DrawnInput> apply_draws(const CaseLuck& luck, const std::vector<const Spread*>& spreads,
                                    Scenario& scenario);

}  // namespace sim
