// Thins a channel so that a picture of it stays true: of every bucket of time the smallest and the
// largest value are kept, each at the time at which it was. What a wide plot shows is then the same
// as with every sample; a peak is never lost.
//
// Also kept: the first and the last sample of all.
#pragma once

#include <optional>
#include <vector>

namespace sim {

/// Points of one channel.
struct Trace {
    std::vector<double> time_s;
    std::vector<double> value;
};

class ExtremesDecimator {
  public:
    /// Times rise.
    void add(double time_s, double value);
    /// The bucket ends after the last sample.
    void close_bucket();
    /// Ends the last bucket; nothing may be added afterwards.
    const Trace& finish();

  private:
    struct Point {
        double time_s = 0.0;
        double value = 0.0;
    };
    void keep(const Point& point);

    Trace trace_;
    std::optional<Point> smallest_;
    std::optional<Point> largest_;
    std::optional<Point> last_;
};

}  // namespace sim
