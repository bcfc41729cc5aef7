// How fine a start's waveforms are kept (extremes_decimator.hpp): finely around the start and
// around everything that happens later, coarsely in between, so that a page stays small however
// long the run is.
//
// The lengths are engineering judgement: half a millisecond shows the shape of a pulse, 10 ms (half
// a cycle at 50 Hz) its crest; 3 s hold any start that succeeds.
#pragma once

#include <cstdint>

namespace sim {

class BucketClock {
  public:
    static constexpr double fine_bucket_s = 0.5e-3;
    static constexpr double shortest_coarse_bucket_s = 10e-3;
    static constexpr double fine_after_call_s = 3.0;
    static constexpr double fine_after_event_s = 0.5;
    static constexpr double most_fine_s = 6.0;  ///< in all
    static constexpr double most_coarse_buckets = 4000.0;

    BucketClock(double duration_s, double call_on_s);

    /// At every tick in turn, before its values are added: whether a bucket ends here. `event`:
    /// something changes now that is worth a closer look.
    bool ends_at(std::int64_t tick, bool event);

    double coarse_bucket_s() const;

  private:
    std::int64_t coarse_ticks_;
    std::int64_t fine_until_;
    std::int64_t fine_left_;
    std::int64_t bucket_end_ = 0;
    std::int64_t call_on_;
};

}  // namespace sim
