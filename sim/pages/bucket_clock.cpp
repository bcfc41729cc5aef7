#include "sim/pages/bucket_clock.hpp"

#include <algorithm>
#include <cmath>

#include "firmware/contract/frames.hpp"
#include "sim/timeline/tick.hpp"

namespace sim {

BucketClock::BucketClock(double duration_s, double call_on_s)
    : coarse_ticks_(to_ticks(std::max(shortest_coarse_bucket_s, duration_s / most_coarse_buckets))),
      fine_until_(0),
      fine_left_(to_ticks(most_fine_s)),
      call_on_(to_ticks(call_on_s)) {}

bool BucketClock::ends_at(std::int64_t tick, bool event) {
    if (tick == call_on_) {
        fine_until_ = tick + to_ticks(fine_after_call_s);
    }
    if (event) {
        fine_until_ = std::max(fine_until_, tick + to_ticks(fine_after_event_s));
    }
    if (tick < bucket_end_ && !event && tick != call_on_) {
        return false;
    }
    const std::int64_t fine_ticks = to_ticks(fine_bucket_s);
    const bool fine = tick < fine_until_ && fine_left_ > 0;
    const std::int64_t length = fine ? fine_ticks : coarse_ticks_;
    if (fine) {
        fine_left_ -= length;
    }
    bucket_end_ = tick + length;
    return tick > 0;
}

double BucketClock::coarse_bucket_s() const {
    return static_cast<double>(coarse_ticks_) / firmware::ticks_per_second;
}

}  // namespace sim
