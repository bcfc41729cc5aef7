// The order in which the cases of a suite are run: a fixed one that samples the whole matrix evenly
// from the beginning, whatever way the matrix is nested.
//
//   case at place k = k * step modulo N,   step the number nearest to N / golden ratio that has no
//                                          divisor in common with N
//
// Steps of the golden ratio fill a circle as evenly as any number of them can (the three-distance
// theorem; textbooks on uniform distribution). And since step and N share no divisor, any m places
// in a row meet each of the m values of a side of the matrix that m divides N / m times once.
#pragma once

#include <cstdint>

namespace sim {

class CaseOrder {
  public:
    explicit CaseOrder(std::int64_t cases);

    /// Of the case at `place`, both from 0.
    std::int64_t id_at(std::int64_t place) const;

  private:
    std::int64_t cases_;
    std::int64_t step_;
};

/// Which places of the order a shard runs: a piece in a row, so that it is as even as the whole.
struct Shard {
    int index = 1;  ///< from 1
    int total = 1;

    std::int64_t begin(std::int64_t cases) const { return cases * (index - 1) / total; }
    std::int64_t end(std::int64_t cases) const { return cases * index / total; }
};

}  // namespace sim
